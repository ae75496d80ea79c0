"""Holds a store, and what people got, against a run in which nothing went wrong."""

from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from sqlalchemy import select

from bot.engine.deadlines import next_deadline
from bot.engine.effects import Urgency
from bot.engine.events import DeadlineReached, Event
from bot.engine.replay import replay
from bot.engine.state import Conversation
from bot.protocol.record import TestRecord
from bot.runtime.ports import Stored
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION, OUTBOX
from bot.testing.memory import MemoryStore
from tests.faults.journal import Journal, Seen, seen_in
from tests.faults.load import CONTEXT, Load
from tests.faults.people import Arrival
from tests.faults.places import opened

_SETTLED: Final = ("sent", "dropped")


@dataclass(frozen=True, slots=True, kw_only=True)
class Quiet:
    """What a run came to in which nothing went wrong, by address."""

    events: Mapping[str, tuple[Event, ...]]
    results: Mapping[str, tuple[TestRecord, ...]]
    numbers: Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What a fault did.

    Attributes:
        lost: Acknowledged messages, readings, timers, messages to people, or results that are gone.
        doubled: Messages that were handled twice, or sent again though they were known to be sent.
        disordered: Messages that overtook an earlier one of the same person, but for safety.
        unsure: Messages sent again since nobody could know whether they had arrived.
        notes: What each of the faults was.
    """

    lost: int = 0
    doubled: int = 0
    disordered: int = 0
    unsure: int = 0
    notes: tuple[str, ...] = ()

    def __add__(self, other: "Verdict") -> "Verdict":
        return Verdict(
            lost=self.lost + other.lost,
            doubled=self.doubled + other.doubled,
            disordered=self.disordered + other.disordered,
            unsure=self.unsure + other.unsure,
            notes=(*self.notes, *other.notes),
        )

    @property
    def clean(self) -> bool:
        """Whether nothing was lost, doubled or out of order."""
        return self.lost == self.doubled == self.disordered == 0


def quiet_run(plan: Mapping[str, Sequence[Arrival]]) -> Quiet:
    """Play the same people on a store in memory, undisturbed."""
    store = MemoryStore()
    with TemporaryDirectory() as folder, Journal(Path(folder) / "quiet") as journal:
        Load(store=store, plan=plan, journal=journal).run(Seen())
        wire = seen_in(Path(folder) / "quiet").wire
    events, results = {}, {}
    for address in plan:
        with store.unit() as unit:
            stored = unit.load(address)
        assert stored is not None
        events[address] = store.history(stored.conversation.id).events
        results[address] = store.results(stored.conversation.id)
    numbers = {a: tuple(number for to, number, _ in wire if to == a) for a in plan}
    return Quiet(events=events, results=results, numbers=numbers)


@dataclass(slots=True)
class _Findings:
    lost: list[str] = field(default_factory=list)
    doubled: list[str] = field(default_factory=list)
    disordered: list[str] = field(default_factory=list)

    def verdict(self, unsure: int = 0) -> Verdict:
        return Verdict(
            lost=len(self.lost),
            doubled=len(self.doubled),
            disordered=len(self.disordered),
            unsure=unsure,
            notes=(*self.lost, *self.doubled, *self.disordered),
        )


def judge(
    store: SqlStore, plan: Mapping[str, Sequence[Arrival]], quiet: Quiet, seen: Seen
) -> Verdict:
    """Return what is wrong with a store as it stands in the middle of the load, or at its end.

    Args:
        store: Opened after the fault.
        plan: What people do.
        quiet: What it comes to when nothing goes wrong.
        seen: What the outside world had seen when the fault happened.
    """
    found = _Findings()
    for address, theirs in plan.items():
        with store.unit() as unit:
            stored = unit.load(address)
        taken = sum(arrival.key in seen.taken for arrival in theirs)
        if stored is None:
            if taken:
                found.lost.append(f"{address}: {taken} acknowledged, and there is nobody")
            continue
        _look_at(found, store, stored, taken, quiet.events[address])
        _look_at_outbox(found, store, stored, quiet.numbers[address], over=seen.over)
        if seen.over and store.results(stored.conversation.id) != quiet.results[address]:
            found.lost.append(f"{address}: the results are not those of a quiet run")
    found.disordered += _overtaken(seen)
    found.doubled += ["a message was sent again though it was known to be sent"] * seen.doubled
    return found.verdict(seen.unsure)


def _look_at(
    found: _Findings, store: SqlStore, stored: Stored, taken: int, expected: tuple[Event, ...]
) -> None:
    address = stored.address
    history = store.history(stored.conversation.id)
    events = history.events
    twice = Counter(map(repr, events)) - Counter(map(repr, expected))
    found.doubled += [f"{address}: too often: {event}" for event in twice]
    if events != expected[: len(events)]:
        found.lost.append(f"{address}: the events are not the first of a quiet run's")
    kept = sum(not isinstance(event, DeadlineReached) for event in events)
    if kept < taken:
        found.lost.append(f"{address}: {taken} acknowledged, {kept} kept")
    now: Conversation = stored.conversation
    if replay(CONTEXT, history.beginning, events) != now:
        found.lost.append(f"{address}: the conversation is not what its events come to")
    if stored.wake_at != next_deadline(CONTEXT, now):
        found.lost.append(f"{address}: its timer is lost")


def _look_at_outbox(
    found: _Findings, store: SqlStore, stored: Stored, numbers: tuple[int, ...], *, over: bool
) -> None:
    address = stored.address
    whose = OUTBOX.c.conversation_id == stored.conversation.id
    wanted = select(OUTBOX.c.number, OUTBOX.c.fate).where(whose).order_by(OUTBOX.c.id)
    with store.engine.begin() as connection:
        rows = [(row.number, row.fate) for row in connection.execute(wanted)]
        people = connection.execute(
            select(CONVERSATION.c.id).where(CONVERSATION.c.address_mark == address)
        ).all()
    if len(people) != 1:
        found.doubled.append(f"{address}: {len(people)} conversations")
    if [number for number, _ in rows] != list(range(1, stored.conversation.said + 1)):
        found.lost.append(f"{address}: the outbox does not hold each message once, in order")
    if over:
        sent = {number for number, fate in rows if fate == "sent"}
        missing = sorted(set(numbers) - sent)
        found.lost += [f"{address}: message {number} never left" for number in missing]
        found.lost += [f"{address}: {n} still waits" for n, fate in rows if fate not in _SETTLED]


def _overtaken(seen: Seen) -> list[str]:
    last: dict[str, int] = {}
    wrong = []
    for address, number, urgency in seen.wire:
        if urgency is Urgency.SAFETY:
            continue
        if number < last.get(address, 0):
            wrong.append(f"{address}: {last[address]} was sent before {number}")
        last[address] = number
    return wrong


def look(
    where: Path | str, plan: Mapping[str, Sequence[Arrival]], quiet: Quiet, journal: Path
) -> Verdict:
    """Open a store where a process has left it, and return what is wrong with it."""
    with closing(opened(where)) as store:
        return judge(store, plan, quiet, seen_in(journal))


def at_the_time(verdict: Verdict, when: str) -> Verdict:
    """Return a verdict whose notes say when it was."""
    return replace(verdict, notes=tuple(f"{when}: {note}" for note in verdict.notes))
