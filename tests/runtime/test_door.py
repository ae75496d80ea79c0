"""Nobody who types normally meets the limit; a flood is told so once; help always gets through."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.bootstrap import desk_for
from bot.engine.context import Context
from bot.engine.events import ChoiceTapped, Event, WordsGiven
from bot.runtime.clock import SystemClock
from bot.runtime.door import CHATS, Answer, Door
from bot.runtime.ports import Inbound
from bot.store import open_store
from bot.testing.channel import KeepingChannel

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def words(text: str, at: datetime) -> Event:
    """Return what somebody typed."""
    return WordsGiven(at=at, text=text, source="1")


@settings(max_examples=20)
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
