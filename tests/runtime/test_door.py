"""Nobody who types normally meets the limit; a flood is told so once; help always gets through."""

import asyncio
from datetime import UTC, datetime, timedelta
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.bootstrap import conductor_for, desk_for
from bot.care.rules import CareRules
from bot.engine.context import Context, Opening
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.runtime.clock import SystemClock
from bot.runtime.door import CHATS, REGRETS, STRANGERS, Answer, Door
from bot.runtime.ports import Inbound
from bot.store import open_store
from bot.testing.channel import KeepingChannel
from bot.testing.memory import MemoryStore

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def words(text: str, at: datetime) -> Event:
    """Return what somebody typed."""
    return WordsGiven(at=at, text=text, source="1")


@settings(max_examples=20, deadline=None)
@given(st.lists(st.floats(2, 30), min_size=50, max_size=150))
def test_readings_at_a_normal_pace_are_always_taken(gaps: list[float]) -> None:
    """One message every two seconds, for as long as it may be, is never too much."""
    door, at = Door(), NOW
    for gap in gaps:
        at += timedelta(seconds=gap)
        assert door.knock("test:1", words("118/76 72", at)) is Answer.TAKEN


def test_a_flood_is_told_once_and_help_gets_through() -> None:
    """Past the limit nothing is taken, but calls for help and stop, however they come."""
    door = Door()
    answers = [door.knock("test:1", words("hello", NOW)) for _ in range(50)]
    assert answers.count(Answer.TAKEN) == 30
    assert answers.count(Answer.SAID_ONCE) == 1
    assert answers[-1] is Answer.LEFT
    for event in (
        words("chest pain", NOW),
        words("no puedo respirar", NOW),
        words("stop", NOW),
        words("stpo", NOW),
        ChoiceTapped(at=NOW, token="stop"),
    ):
        assert door.knock("test:1", event) is Answer.TAKEN
    assert door.knock("test:1", ChoiceTapped(at=NOW, token="a1:yes")) is Answer.LEFT
    assert door.knock("test:2", words("hello", NOW)) is Answer.TAKEN, "others are not meant"
    later = NOW + timedelta(minutes=1)
    assert door.knock("test:1", words("hello", later)) is Answer.TAKEN


def test_what_had_to_wait_is_no_flood() -> None:
    """Messages of an hour, delivered at once after an outage, are all taken."""
    door = Door()
    minutes = [NOW + timedelta(minutes=minute) for minute in range(60)]
    answers = {door.knock("test:1", words("118/76 72", at)) for at in minutes}
    assert answers == {Answer.TAKEN}


def test_memory_has_a_bound() -> None:
    """However many strangers come, no more than so many are remembered."""
    door = Door()
    for number in range(CHATS + 500):
        door.knock(f"test:{number}", ChoiceTapped(at=NOW, token="x"))
    assert door.remembered() == CHATS


def crowded() -> Door:
    """Return a door at which as many strangers have come as may come at once."""
    door = Door()
    for number in range(round(STRANGERS.burst)):
        assert door.knock(f"stranger:{number}", words("hello", NOW)) is Answer.TAKEN
    return door


def test_a_flood_of_strangers_crowds_out_nobody_who_is_known() -> None:
    """Past what all strangers may send together, it is asked once a chat who is known."""
    door = crowded()
    assert door.knock("test:1", words("118/76 72", NOW)) is Answer.DEPENDS
    door.learn("test:1", known=True)
    assert [door.knock("test:1", words("118/76 72", NOW)) for _ in range(20)] == [Answer.TAKEN] * 20
    assert door.knock("new", words("hello", NOW)) is Answer.DEPENDS
    door.learn("new", known=False)
    assert door.knock("new", words("hello", NOW)) is Answer.BUSY
    assert door.knock("new", words("hello", NOW)) is Answer.LEFT, "told once, and not looked for"
    for help_ in (words("I can't breathe", NOW), words("stop", NOW)):
        assert door.knock("new", help_) is Answer.TAKEN


def test_a_stranger_who_was_let_in_may_be_known_by_then() -> None:
    """Whoever was a stranger is looked for again once something of theirs was taken."""
    door = crowded()
    door.knock("new", words("hello", NOW))
    door.learn("new", known=False)
    later = NOW + timedelta(seconds=1.5 / STRANGERS.rate)
    assert door.knock("new", words("I agree", later)) is Answer.TAKEN
    assert door.knock("new", words("34", later)) is Answer.DEPENDS


def test_strangers_are_seldom_told_that_they_were_not_heard() -> None:
    """Of a thousand new chats a few are told: messages are for those at their test."""
    door = crowded()
    answers = []
    for number in range(1000):
        door.knock(f"new:{number}", words("hello", NOW))
        door.learn(f"new:{number}", known=False)
        answers.append(door.knock(f"new:{number}", words("hello", NOW)))
    assert answers.count(Answer.BUSY) == REGRETS.burst
    assert answers.count(Answer.LEFT) == 1000 - REGRETS.burst


def test_known_is_who_has_agreed() -> None:
    """A chat that was only opened is a stranger's until consent, where consent is asked for."""
    expected = {Opening.SHORT: True, Opening.FULL: False}
    for opening, known in expected.items():
        store = MemoryStore()
        conductor = conductor_for(store, Context(opening=opening), rules=CareRules)
        assert not conductor.knows("test:1")
        conductor.handle(Inbound(key="0", address="test:1", event=Opened(at=NOW)))
        assert conductor.knows("test:1") is known


async def test_the_desk_takes_who_has_agreed_through_a_flood_of_new_chats(tmp_path: Path) -> None:
    """A reading comes in while strangers flood; they are told, kept nowhere, and may be known."""
    store, channel, clock = open_store(tmp_path / "a.sqlite3"), KeepingChannel(), SystemClock()
    at = clock.now()

    def inbound(address: str, text: str) -> Inbound:
        return Inbound(key=f"{address} {text}", address=address, event=words(text, at))

    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await desk.take(inbound("test:1", "hello"))
        flood = [desk.take(inbound(f"new:{n}", "hello")) for n in range(300)]
        taken = await asyncio.gather(*flood)
        known = await desk.take(inbound("test:1", "34"))
    strangers = sum(step.fresh for step in taken)
    with store.unit() as unit:
        kept = sum(unit.load(f"new:{n}") is not None for n in range(300))
    store.close()
    assert known.fresh
    assert STRANGERS.burst - 1 == strangers == kept
    told = {address for address, bubble in channel.sent if "Many people" in bubble.text}
    assert len(told) == REGRETS.burst


async def test_the_desk_answers_a_flood_kindly_and_keeps_none_of_it(tmp_path: Path) -> None:
    """What is too much is answered once, in the client's language, and never reaches the store."""
    store, channel, clock = open_store(tmp_path / "a.sqlite3"), KeepingChannel(), SystemClock()
    desk = desk_for(store, channel, clock, Context())
    at = clock.now()
    async with desk.at_work():
        taken = [
            await desk.take(
                Inbound(key=f"{n}", address="test:1", event=words("x", at), language="es")
            )
            for n in range(40)
        ]
    assert [step.fresh for step in taken] == [True] * 30 + [False] * 10
    with store.unit() as unit:
        assert unit.claim("35", at), "nothing of it was put down"
    store.close()
    kind = [bubble.text for _, bubble in channel.sent if "Son muchos mensajes" in bubble.text]
    assert len(kind) == 1
