"""Ourselves: parser, conductor and SQLite as they ship; each answer is a row of the outbox."""

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Final

from sqlalchemy import insert, text
from telegram import Bot
from telegram import Update as TelegramUpdate

from bot import garbage
from bot.channels.telegram.inbound import address_of, inbound_from
from bot.engine.context import Context
from bot.engine.events import Opened, WordsGiven
from bot.engine.state import Resting
from bot.protocol.released import latest
from bot.runtime.conductor import Conductor, Step
from bot.runtime.desk import Desk
from bot.runtime.gathering import Gatherer
from bot.runtime.ports import Bubble, Channel, Delivery, Inbound, Sent, Store
from bot.runtime.worker import Worker
from bot.store import open_store
from bot.store.codec import encode_conversation
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION
from bot.texts import language_for
from tests.bench.peers.conversation import (
    FIRST_MIDWAY,
    MIDWAY,
    TOKEN,
    Found,
    Kind,
    Update,
    backlogs,
    typed,
)

BEGAN: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
CONTEXT: Final = Context(protocol=latest("six-readings"))
TEMPLATE: Final = 9_999_999
"""The chat of whom others are copies."""

_BEFORE_THE_PROMPT: Final = 2
"""What rings in a rest before the prompt: half way, and the heads-up."""


class BenchClock:
    """A clock that is set by hand."""

    def __init__(self, at: datetime = BEGAN) -> None:
        self.at = at

    def now(self) -> datetime:
        """Return what it is set to."""
        return self.at

    def wait(self, until: datetime) -> timedelta:
        """Return how far it is to an instant; here time does not pass by itself."""
        return max(timedelta(), until - self.at)

    def ahead(self, wait: timedelta) -> datetime:
        """Return what it shows after a wait."""
        return self.at + wait

    def shown_at(self, instant: datetime) -> datetime:
        """Return what it is set to."""
        del instant
        return self.at


class Taking:
    """Takes updates with the parts that the program is made of, up to the commit."""

    def __init__(self, store: Store, conductor: Conductor) -> None:
        self.store = store
        self.conductor = conductor
        self.clock = BenchClock()
        self._bot = Bot(TOKEN)
        self._writer = Worker("writer")
        self._gatherer = Gatherer(store, self._writer)
        self.steps: dict[int, Step] = {}
        self.give: Callable[[Inbound], Awaitable[Step]] = self._gathered

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog as the poller does."""
        await asyncio.gather(*(self._one(update) for update in updates))

    async def _one(self, update: Update) -> None:
        inbound = inbound_from(TelegramUpdate.de_json(dict(update), self._bot), self.clock)
        assert inbound is not None
        self.steps[update["message"]["chat"]["id"]] = await self.give(inbound)

    async def _gathered(self, inbound: Inbound) -> Step:
        return await self._gatherer.run(lambda unit: self.conductor.handle_in(unit, inbound))

    async def wake(self, step: Step, at: datetime) -> Step | None:
        """Let an alarm ring."""
        return await self._gatherer.run(
            lambda unit: self.conductor.wake_in(unit, step.conversation_id, at)
        )

    def close(self) -> None:
        """Let go of the store."""
        self._writer.close()
        self.store.close()


class Wallside:
    """Wallside on SQLite."""

    kind = Kind(
        name="Wallside, SQLite",
        durable=True,
        holds="states, log, outbox, timers; sealed",
        garbage=garbage.SELDOM,
    )

    async def open(self, folder: Path, midway: int) -> None:
        """Open a store and fill it."""
        store = open_store(folder / "wallside.sqlite3")
        self.taking = Taking(store, conductor_on(store))
        if midway:
            await fill(self.taking, store, midway)

    async def found(self, chats: range, step: int) -> Found:
        """Look at the store as it stands."""
        states = words = timers = 0
        for chat in chats:
            with self.taking.store.unit() as unit:
                stored = unit.load(address_of(chat))
            if stored is None:
                continue
            history = self.taking.store.history(stored.conversation.id)
            said = [e for e in history.events if isinstance(e, Opened | WordsGiven)]
            words += len(said)
            states += len(said) == step + 1 and isinstance(stored.conversation.stage, Resting)
            timers += stored.wake_at is not None
        return Found(states=states, words=words, timers=timers)

    async def pass_time(self, step: int, chats: range) -> None:
        """Let prompts ring, so that what is typed next is what was asked for."""
        await pass_time(self.taking, step, chats)

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog."""
        await self.taking.take(updates)

    async def close(self) -> None:
        """Let go of the store."""
        self.taking.close()


class Swallowing(Channel):
    """A channel that takes everything at once."""

    def __init__(self) -> None:
        self.sent = 0

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Take a message."""
        self.sent += 1
        return Sent(str(self.sent))

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Take a change."""
        self.sent += 1
        return Sent(ref)


def conductor_on(store: Store) -> Conductor:
    """Return a conductor for people who begin at once."""
    names = count()
    return Conductor(store, CONTEXT, new_id=lambda: f"c{next(names):09}", language_for=language_for)


async def pass_time(taking: Taking, step: int, chats: range) -> None:
    """Ring until a reading is asked for, for people who have all come equally far."""
    clock = taking.clock
    clock.at += timedelta(seconds=20)
    waking = {chat: taking.steps[chat] for chat in chats if chat in taking.steps}
    if step not in READINGS or not waking:
        return
    checks = 0
    while True:
        first = next(iter(waking.values()))
        put = await asyncio.to_thread(checks_put, taking.store, first.conversation_id)
        if put is None:
            break
        if put > checks:
            checks = put
            await taking.take([typed(chat, "yes") for chat in waking])
            waking = {chat: taking.steps[chat] for chat in waking}
            continue
        assert first.wake_at is not None
        clock.at = max(clock.at, first.wake_at)
        rung = [taking.wake(one, clock.at) for one in waking.values()]
        answers = await asyncio.gather(*rung)
        waking = {c: a for c, a in zip(waking, answers, strict=True) if a is not None}
    taking.steps.update(waking)
    clock.at += timedelta(seconds=10)


def checks_put(store: Store, conversation_id: str) -> int | None:
    """Return how often somebody was asked whether all is well; `None` once a reading is due."""
    with store.unit() as unit:
        stored = unit.load_by_id(conversation_id)
    stage = None if stored is None else stored.conversation.stage
    return stage.checks_put if isinstance(stage, Resting) else None


READINGS: Final = frozenset({4, 6, 8, 9, 10, 11})
"""The steps at which a reading is typed, so that it has to be asked for first."""


async def fill(taking: Taking, store: SqlStore, midway: int) -> None:
    """Put down people in the middle of a test: copies of one who has come so far."""
    one = range(TEMPLATE, TEMPLATE + 1)
    for step in range(MIDWAY):
        await pass_time(taking, step, one)
        for updates in backlogs(one, step):
            await taking.take(updates)
    await asyncio.to_thread(copied, store, midway, taking.clock.at)


async def begun(taking: Taking) -> Step:
    """Let one person rest, with the prompt to measure as what comes next; returns their step."""
    one = range(TEMPLATE, TEMPLATE + 1)
    for step in range(MIDWAY):
        await pass_time(taking, step, one)
        for updates in backlogs(one, step):
            await taking.take(updates)
    for _ in range(_BEFORE_THE_PROMPT):
        last = taking.steps[TEMPLATE]
        assert last.wake_at is not None
        taking.clock.at = last.wake_at
        rung = await taking.wake(last, last.wake_at)
        assert rung is not None
        taking.steps[TEMPLATE] = rung
    return taking.steps[TEMPLATE]


def copied(
    store: SqlStore,
    people: int,
    at: datetime,
    within: timedelta | None = None,
    *,
    first: int = 0,
    past: bool = True,
) -> None:
    """Copy the one person who is there, with all that is kept of them.

    Args:
        store: Where.
        people: How many copies.
        at: From when on they want to be woken.
        within: Over how long their alarms are spread; without it, all a day later.
        first: The number of the first copy.
        past: Whether their event log and their outbox are copied too.
    """
    with store.unit() as unit:
        stored = unit.load(address_of(TEMPLATE))
    assert stored is not None
    rows = []
    for number in range(first, first + people):
        state = encode_conversation(replace(stored.conversation, id=f"m{number}"))
        address = address_of(FIRST_MIDWAY + number)
        ahead = timedelta(days=1) if within is None else within * (number - first) / people
        rows.append(
            {
                "id": f"m{number}",
                "address_mark": address,
                "address": address,
                "began_at": BEGAN,
                "beginning": state,
                "revision": stored.revision,
                "wake_at": at + ahead,
                "state": state,
            }
        )
    with store.engine.begin() as connection:
        connection.execute(insert(CONVERSATION), rows)
        if not past:
            return
        given = {"one": stored.conversation.id, "people": people}
        connection.execute(_COPY_EVENTS, given)
        connection.execute(_COPY_OUTBOX, given)
        connection.execute(_SETTLE)


_NUMBERS: Final = (
    "WITH RECURSIVE n(i) AS (SELECT 0 WHERE :people > 0 "
    "UNION ALL SELECT i + 1 FROM n WHERE i + 1 < :people) "
)
_COPY_EVENTS: Final = text(
    _NUMBERS + "INSERT INTO event (conversation_id, position, at, event) "
    "SELECT 'm' || i, position, at, event FROM event, n WHERE conversation_id = :one"
)
_COPY_OUTBOX: Final = text(
    _NUMBERS + "INSERT INTO outbox (conversation_id, number, urgency, locale, effect, target, "
    "until_at, fate, attempts) SELECT 'm' || i, number, urgency, locale, effect, target, "
    "until_at, fate, 1 FROM outbox, n WHERE conversation_id = :one"
)
_SETTLE: Final = text("UPDATE outbox SET fate = 'sent', settled_at = 0")


class WallsideSending(Wallside):
    """The same until each answer has gone through the courier, with two more commits each."""

    kind = Kind(
        name="Wallside, SQLite, answers sent too",
        durable=True,
        holds="and what became of each",
        garbage=garbage.SELDOM,
    )

    async def open(self, folder: Path, midway: int) -> None:
        """Open a store and fill it, and let the desk begin its work."""
        store = open_store(folder / "wallside.sqlite3")
        self.taking = Taking(store, conductor_on(store))
        await fill(self.taking, store, midway)
        self._channel = Swallowing()
        self._desk = Desk(
            store=store,
            conductor=self.taking.conductor,
            channel=self._channel,
            present=lambda effect, locale, kept: Bubble(text="words"),
            clock=self.taking.clock,
        )
        self.taking.give = self._desk.take
        self._working = self._desk.at_work()
        await self._working.__aenter__()

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog, and wait until its answers are out."""
        await super().take(updates)
        while await asyncio.to_thread(self._sending):
            await asyncio.sleep(0.002)

    def _sending(self) -> bool:
        return any(self.taking.store.waiting().values())

    async def close(self) -> None:
        """End the desk's work and let go of the store."""
        await self._working.__aexit__(None, None, None)
        await super().close()
