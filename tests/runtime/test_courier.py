"""With much waiting, the urgent leaves first and at once, and each person's messages in order."""

import asyncio
import time
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Final

from sqlalchemy import insert

from bot.bootstrap import desk_for
from bot.engine.context import Context
from bot.engine.effects import Effect, Part, Revise, Say, Urgency
from bot.engine.events import Opened
from bot.engine.state import Conversation
from bot.runtime.clock import SystemClock
from bot.runtime.desk import Desk
from bot.runtime.pace import OVERALL
from bot.runtime.ports import Bubble, Delivery, Later, Refused, Sent
from bot.store import open_store
from bot.store.codec import encode_conversation, encode_outgoing
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION, OUTBOX, WAITING

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
MANY: Final = 1_000


@dataclass(slots=True)
class SlowChannel:
    """Takes a tenth of a second for each message.

    Attributes:
        began: When each message left, to whom, and what it said.
        under_way: How many leave just now, and how many at most ever did.
        answers: What to answer instead of `Sent`, by address.
    """

    began: list[tuple[float, str, str]] = field(default_factory=list)
    under_way: int = 0
    most: int = 0
    answers: dict[str, Delivery] = field(default_factory=dict)

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Take a message."""
        self.began.append((time.monotonic(), address, bubble.text))
        self.under_way += 1
        self.most = max(self.most, self.under_way)
        await asyncio.sleep(0.1)
        self.under_way -= 1
        return self.answers.get(address, Sent(str(len(self.began))))

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Take a change."""
        del ref
        return await self.send(address, bubble)

    def to(self, name: str) -> list[tuple[float, str]]:
        """Return when what was sent to somebody."""
        return [(at, text) for at, address, text in self.began if address == f"test:{name}"]


def say(number: int, urgency: Urgency, key: str = "help") -> Say:
    """Return a message."""
    return Say(number=number, parts=(Part(key),), urgency=urgency)


def put(store: SqlStore, name: str, *effects: Effect) -> None:
    """Put effects down for somebody new."""
    with store.unit() as unit:
        stored = unit.add(Conversation(id=name, locale="en"), f"test:{name}", NOW)
        unit.save(stored, stored.conversation, event=Opened(at=NOW), effects=effects, wake_at=None)


def many_wait(store: SqlStore) -> None:
    """Let many people wait for a reminder each."""
    state = encode_conversation(Conversation(id="x", locale="en"))
    effect = encode_outgoing(say(1, Urgency.REMINDER))
    names = [f"r{number}" for number in range(MANY)]
    people = [
        {"id": n, "address_mark": n, "address": f"test:{n}", "began_at": NOW, "revision": 0}
        | {"beginning": state, "state": state}
        for n in names
    ]
    parcels = [
        {"conversation_id": n, "number": 1, "urgency": int(Urgency.REMINDER), "locale": "en"}
        | {"effect": effect, "fate": WAITING, "attempts": 0}
        for n in names
    ]
    with store.engine.begin() as connection:
        connection.execute(insert(CONVERSATION), people)
        connection.execute(insert(OUTBOX), parcels)


def desk_over(store: SqlStore, channel: SlowChannel) -> Desk:
    """Return a desk that sends through such a channel."""
    return desk_for(store, channel, SystemClock(), Context())


async def until(channel: SlowChannel, name: str, count: int = 1) -> None:
    """Wait until so many messages were sent to somebody."""
    async with asyncio.timeout(10):
        while len(channel.to(name)) < count:
            await asyncio.sleep(0.01)


async def test_urgent_words_overtake_all_reminders(tmp_path: Path) -> None:
    """A timed prompt leaves within a second, words of safety at once; the rate is kept."""
    store, channel = open_store(tmp_path / "a.sqlite3"), SlowChannel()
    many_wait(store)
    desk = desk_over(store, channel)
    waits = {}
    async with desk.at_work():
        await asyncio.sleep(1)
        for name, urgency in (("timed", Urgency.TIMED), ("safety", Urgency.SAFETY)):
            began = time.monotonic()
            put(store, name, say(1, urgency))
            desk._courier.ring()
            await until(channel, name)
            waits[name] = channel.to(name)[0][0] - began
    store.close()
    assert waits["timed"] < 1
    assert waits["safety"] < 0.5
    assert channel.most > 1, "several at once"
    first = channel.began[0][0]
    elapsed = channel.began[-1][0] - first
    assert 20 <= len(channel.began) <= OVERALL.burst + OVERALL.rate * elapsed + 2


async def test_one_persons_messages_leave_in_order_and_not_too_fast(tmp_path: Path) -> None:
    """Five at once: each after the one before it has arrived, the last two a second apart."""
    store, channel = open_store(tmp_path / "a.sqlite3"), SlowChannel()
    keys = ("thing.photo", "thing.voice", "thing.other", "help")
    put(store, "me", *(say(n, Urgency.REPLY, key) for n, key in enumerate(keys, 1)))
    async with desk_over(store, channel).at_work():
        await until(channel, "me", 4)
    store.close()
    times = [at for at, _ in channel.to("me")]
    assert len({text for _, text in channel.to("me")}) == 4
    assert all(after - before >= 0.1 for before, after in pairwise(times))
    assert 0.9 <= times[3] - times[0] < 3


async def test_progress_is_the_first_to_go(tmp_path: Path) -> None:
    """With little left, an edit that only shows the time is left out, and what follows it goes."""
    store, channel = open_store(tmp_path / "a.sqlite3"), SlowChannel()
    soon = SystemClock().now() + timedelta(minutes=5)
    edit = Revise(number=4, target=1, parts=(Part("help"),), until=soon)
    lasting = replace(edit, number=5, until=None)
    first = [say(n, Urgency.TIMED) for n in (1, 2, 3)]
    put(store, "me", *first, edit, lasting, say(6, Urgency.TIMED))
    async with desk_over(store, channel).at_work():
        await until(channel, "me", 5)
    store.close()
    assert len(channel.to("me")) == 5


async def test_wishes_to_wait_and_closed_chats_hold_up_nobody_else(tmp_path: Path) -> None:
    """A chat that is told to wait waits; one that is closed gets no reminder more, but prompts."""
    store, channel = open_store(tmp_path / "a.sqlite3"), SlowChannel()
    channel.answers["test:flooded"] = Later(timedelta(seconds=30))
    channel.answers["test:closed"] = Refused(blocked=True)
    put(store, "flooded", say(1, Urgency.REPLY), say(2, Urgency.REPLY))
    closed = (say(1, Urgency.REMINDER), say(2, Urgency.REMINDER), say(3, Urgency.TIMED))
    put(store, "closed", *closed)
    put(store, "me", say(1, Urgency.REMINDER))
    async with desk_over(store, channel).at_work():
        await until(channel, "me")
        await until(channel, "closed", 2)
        await asyncio.sleep(0.3)
    store.close()
    assert len(channel.to("flooded")) == 1
    assert len(channel.to("closed")) == 2
