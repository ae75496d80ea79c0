"""The desk at work: alarms ring, the courier sends, and nothing is lost between two runs."""

import asyncio
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.bootstrap import desk_for
from bot.engine.context import Context
from bot.engine.events import Opened, WordsGiven
from bot.runtime.clock import FastClock
from bot.runtime.desk import Desk
from bot.runtime.ports import Inbound, Later, Refused, Unknown
from bot.store import open_store
from bot.store.sql import SqlStore
from bot.testing.channel import KeepingChannel


def fast_clock() -> FastClock:
    """Return a clock on which five minutes pass in a third of a second."""
    now = datetime.now(UTC)
    return FastClock(anchor=now, shown=now, speed=900)


async def until(channel: KeepingChannel, part: str) -> None:
    """Wait until a message holding some words was sent."""
    async with asyncio.timeout(20):
        while not any(part in bubble.text for _, bubble in channel.sent):
            await asyncio.sleep(0.005)


async def type_all(desk: Desk, clock: FastClock, *texts: str) -> None:
    """Let one person open the chat and type."""
    await desk.take(Inbound(key="open", address="test:1", event=Opened(at=clock.now())))
    for number, text in enumerate(texts):
        event = WordsGiven(at=clock.now(), text=text, source=str(number))
        await desk.take(Inbound(key=f"t{number}{text}", address="test:1", event=event))


def opened(tmp_path: Path) -> SqlStore:
    """Open the store of a test."""
    return open_store(tmp_path / "wallside.sqlite3")


async def test_alarm_rings_and_the_prompt_is_sent(tmp_path: Path) -> None:
    """Heads-up and prompt arrive by themselves, in order, once their time has come."""
    store, channel, clock = opened(tmp_path), KeepingChannel(), fast_clock()
    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await type_all(desk, clock, "43", "ready", "lying")
        await until(channel, "Measure now")
    texts = [bubble.text for _, bubble in channel.sent]
    assert sum("Measure now" in text for text in texts) == 1
    assert [ref for _, ref, _ in channel.revised] == ["m4"]
    store.close()


async def test_sleepers_are_woken_after_a_restart(tmp_path: Path) -> None:
    """A test that slept when the program ended is gone on with by the next one."""
    store, channel, clock = opened(tmp_path), KeepingChannel(), fast_clock()
    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await type_all(desk, clock, "43", "ready", "lying")
    assert not any("Measure now" in bubble.text for _, bubble in channel.sent)
    store.close()
    store = opened(tmp_path)
    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await until(channel, "Measure now")
    store.close()


async def test_message_that_was_not_taken_is_tried_again(tmp_path: Path) -> None:
    """A wish to wait and an unknown arrival are both followed by another try, in order."""
    store, channel, clock = opened(tmp_path), KeepingChannel(), fast_clock()
    channel.answers.extend([Later(timedelta(seconds=1)), Unknown()])
    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await type_all(desk, clock, "43")
        await until(channel, "Tap the button when you are next to the bed")
    assert "How old are you" in channel.sent[0][1].text
    store.close()


async def test_refusal_comes_back_as_an_event(tmp_path: Path) -> None:
    """A message that is refused for good is told to the conversation."""
    store, channel, clock = opened(tmp_path), KeepingChannel(), fast_clock()
    channel.answers.append(Refused())
    desk = desk_for(store, channel, clock, Context())
    async with desk.at_work():
        await type_all(desk, clock, "43")
        await until(channel, "Tap the button when you are next to the bed")
        async with asyncio.timeout(10):
            with store.unit() as unit:
                stored = unit.load("test:1")
            assert stored is not None
            while len(store.history(stored.conversation.id).events) < 3:
                await asyncio.sleep(0.005)
    kinds = [type(e).__name__ for e in store.history(stored.conversation.id).events]
    assert "DeliveryFailed" in kinds
    store.close()


async def test_leading_that_fails_is_tried_again(tmp_path: Path) -> None:
    """A fault in what only the leader does ends nothing; its health says so until it is over."""
    store, channel, clock = opened(tmp_path), KeepingChannel(), fast_clock()
    desk = desk_for(store, channel, clock, Context())
    began = list[str]()

    async def fetch() -> None:
        began.append("again")
        if len(began) == 1:
            raise RuntimeError

    async with desk.at_work(fetch):
        async with asyncio.timeout(10):
            while "nothing is being sent" not in await desk.unwell():
                await asyncio.sleep(0.01)
            while len(began) < 2 or await desk.unwell():
                await asyncio.sleep(0.05)
        await type_all(desk, clock)
        await until(channel, "How old are you")
    store.close()
