"""Clocks that are set forward or back in the middle of tests, and a program that stood still.

The world's time goes on; what the program takes for the time does not always. People write when
they write. Whatever the clock says, every message is kept, every reading that was typed with its
numbers is in the record or was asked about, each timer stands where the state says, and in the end
nobody is left in a test.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from random import Random
from typing import Final

from bot.engine.deadlines import next_deadline
from bot.engine.effects import Outgoing, Revise, Say, Urgency
from bot.engine.events import DeadlineReached
from bot.engine.replay import replay
from bot.engine.state import AwaitingPosition, AwaitingReading, Resting
from bot.protocol.definition import Position
from bot.runtime.ports import Inbound, Sent
from bot.store.sql import SqlStore
from tests.faults.judge import Quiet, Verdict, at_the_time, quiet_run
from tests.faults.load import CONTEXT, LEASE, conductor_on
from tests.faults.people import START, Arrival, arrivals
from tests.faults.places import a_store
from tests.store.server import PostgresServer

STEPS: Final = tuple(timedelta(minutes=m) for m in (-180, -60, -10, -1, 1, 10, 60, 180))
"""By how much a clock is set: the hour of somebody who got the zone wrong, and less."""

SUSPENDED: Final = timedelta(minutes=10)
_TICK: Final = timedelta(seconds=5)
_LATER: Final = timedelta(minutes=2)
_ACTIVE: Final = timedelta(minutes=45)
_ENDS: Final = timedelta(hours=8)
_SOON: Final = timedelta(seconds=5)
_IN_A_TEST: Final = AwaitingPosition | AwaitingReading | Resting

Shown = Callable[[datetime], datetime]
"""What the program takes for the time, at a time of the world."""


@dataclass(slots=True, kw_only=True)
class World:
    """The world around one program.

    Attributes:
        store: The program's.
        plan: What people do.
        shown: What the program takes for the time.
        asleep: From when to when it stands still, by the world's time.
        said: What people got: when, by the world's time, and what.
    """

    store: SqlStore
    plan: Mapping[str, Sequence[Arrival]]
    shown: Shown = lambda now: now
    asleep: tuple[datetime, datetime] | None = None
    said: list[tuple[datetime, str, Outgoing]] = field(default_factory=list)

    def goes_on(self) -> None:
        """Let time pass until long after everybody's last message."""
        conductor = conductor_on(self.store)
        waiting = sorted(
            (a for theirs in self.plan.values() for a in theirs), key=lambda a: a.event.at
        )
        now = START
        while now < START + _ENDS:
            if self.asleep is not None and self.asleep[0] <= now < self.asleep[1]:
                now = self.asleep[1]
            due = [a for a in waiting if a.event.at <= now]
            waiting = waiting[len(due) :]
            shown = self.shown(now)
            for arrival in due:
                late = now - arrival.event.at > _SOON  # then the messenger's own stamp is taken
                at = self.shown(arrival.event.at) if late else shown
                event = replace(arrival.event, at=at)
                conductor.handle(Inbound(key=arrival.key, address=arrival.address, event=event))
            woken = self._wake(shown)
            while (due or woken) and (parcel := self.store.claim_parcel(shown, LEASE)) is not None:
                self.said.append((now, parcel.address, parcel.effect))
                self.store.settle(parcel, Sent(f"m{parcel.effect.number}"), shown)
            now += _TICK if now < START + _ACTIVE else _LATER

    def _wake(self, shown: datetime) -> bool:
        conductor = conductor_on(self.store)
        woken = False
        while sleepers := self.store.sleepers(shown):
            for name, _ in sleepers:
                conductor.wake(name, shown)
                woken = True
        return woken


def still_in_a_test(world: World) -> bool:
    """Whether anybody has not yet begun their test, or is in it."""
    for address in world.plan:
        with world.store.unit() as unit:
            stored = unit.load(address)
        if stored is None or not world.store.results(stored.conversation.id):
            return True
        if isinstance(stored.conversation.stage, _IN_A_TEST):
            return True
    return False


def judge_world(world: World) -> Verdict:
    """Return what is wrong once the world has gone on."""
    lost = []
    for address, theirs in world.plan.items():
        with world.store.unit() as unit:
            stored = unit.load(address)
        assert stored is not None
        now = stored.conversation
        history = world.store.history(now.id)
        kept = sum(not isinstance(event, DeadlineReached) for event in history.events)
        if kept != len(theirs):
            lost.append(f"{address}: {len(theirs)} acknowledged, {kept} kept")
        if replay(CONTEXT, history.beginning, history.events) != now:
            lost.append(f"{address}: the conversation is not what its events come to")
        if stored.wake_at != next_deadline(CONTEXT, now):
            lost.append(f"{address}: its timer is lost")
        if isinstance(now.stage, _IN_A_TEST):
            lost.append(f"{address}: still in a test, hours later")
        if not world.store.results(now.id):
            lost.append(f"{address}: no result")
    order: dict[str, int] = {}
    disordered = 0
    for _, address, effect in world.said:
        if effect.urgency is not Urgency.SAFETY:
            disordered += effect.number < order.get(address, 0)
            order[address] = effect.number
    waiting = sum(world.store.waiting().values())
    if waiting:
        lost.append(f"{waiting} messages wait for ever")
    return Verdict(lost=len(lost), disordered=disordered, notes=tuple(lost))


def step_clock(
    kind: str, server: PostgresServer | None, rounds: int, seed: int, *, people: int = 4
) -> Verdict:
    """Set the clock at a random moment of tests, by a little or by hours, there or back."""
    chance = Random(f"step/{seed}")
    found = Verdict()
    for number in range(rounds):
        step = STEPS[number % len(STEPS)]
        at = START + timedelta(seconds=chance.randrange(20, 1300))
        plan = arrivals(people, seed + number)

        def shown(now: datetime, at: datetime = at, step: timedelta = step) -> datetime:
            return now + step if now >= at else now

        with a_store(kind, server) as store:
            world = World(store=store, plan=plan, shown=shown)
            world.goes_on()
            found += at_the_time(judge_world(world), f"{kind}, {step} at {at:%H:%M:%S}")
    return found


def suspend(
    kind: str, server: PostgresServer | None, rounds: int, seed: int, *, people: int = 4
) -> Verdict:
    """Let the program stand still for ten minutes while people stand.

    What they have written meanwhile is taken before any alarm that has gone by: so does the desk.

    Lost as well: somebody who stands and is told nothing once it goes on, or is told to measure
    at a time that has gone by.
    """
    chance = Random(f"suspend/{seed}")
    found = Verdict()
    for number in range(rounds):
        begins = START + timedelta(seconds=chance.randrange(665, 1000))
        ends = begins + SUSPENDED
        plan = arrivals(people, seed + number)
        quiet = quiet_run(plan)
        with a_store(kind, server) as store:
            world = World(
                store=store,
                plan=plan,
                asleep=(begins, ends),
            )
            world.goes_on()
            verdict = judge_world(world) + _told(world, ends) + kept_numbers(world, quiet)
            found += at_the_time(verdict, f"{kind}, asleep from {begins:%H:%M:%S}")
    return found


def _told(world: World, ends: datetime) -> Verdict:
    """Hold what people got right after to what they have to get."""
    lost = []
    for address in world.plan:
        with world.store.unit() as unit:
            stored = unit.load(address)
        assert stored is not None
        record = world.store.results(stored.conversation.id)[0]
        standing = record.phase_start(Position.STANDING)
        stood = (
            standing is not None
            and standing < ends - SUSPENDED
            and (record.ended_at is None or record.ended_at >= ends - SUSPENDED)
        )
        soon = [said for at, to, said in world.said if to == address and ends <= at <= ends + _TICK]
        if stood and not soon:
            lost.append(f"{address} stood for ten minutes, and was told nothing after")
        past = [
            said
            for said in soon
            if isinstance(said, Say | Revise)
            and any(part.key.startswith("heads-up.") for part in said.parts)
        ]
        if past and stood:
            lost.append(f"{address} was told to get ready for what has gone by")
    return Verdict(lost=len(lost), notes=tuple(lost))


def kept_numbers(world: World, quiet: Quiet) -> Verdict:
    """Hold the numbers that people typed to those of a run in which nothing stood still."""
    lost = []
    for address in world.plan:
        with world.store.unit() as unit:
            stored = unit.load(address)
        assert stored is not None
        kept = [r.values for r in world.store.results(stored.conversation.id)[0].readings]
        typed = [r.values for r in quiet.results[address][0].readings]
        lost += [f"{address}: {values} is not kept" for values in typed if values not in kept]
    return Verdict(lost=len(lost), notes=tuple(lost))
