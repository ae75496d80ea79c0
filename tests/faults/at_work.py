"""Clocks that are set, and a program that stood still, with the real desk and its alarms at work.

`tests.faults.clocks` plays the same at the conductor, instant by instant. Here time goes by: the
desk runs, its alarms are real, and a clock is set while they are armed; or the event loop stands
still as long as the process would, while people write. Time runs `SPEED` times as fast, and so do
the alarms' own spans, all but the one in which what waits at the messenger is taken in: that is
work, which is not done any faster.

All runs of one fault go on beside each other in one event loop, each with a store, a desk and a
clock of its own, which begins at another moment of the people's course.
"""

import asyncio
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from itertools import count
from random import Random
from typing import Final
from unittest.mock import patch

from bot.engine.effects import Outgoing
from bot.runtime import alarms
from bot.runtime.clock import FastClock
from bot.runtime.desk import Desk
from bot.runtime.ports import Bubble, Delivery, Inbound, Kept, Sent
from tests.faults.clocks import SUSPENDED, World, judge_world, kept_numbers, still_in_a_test
from tests.faults.judge import Quiet, Verdict, at_the_time, quiet_run
from tests.faults.load import conductor_on
from tests.faults.people import START, Arrival, arrivals
from tests.faults.places import a_store
from tests.store.server import PostgresServer

SPEED: Final = 60.0
STEPS: Final = tuple(timedelta(minutes=m) for m in (-30, -10, -1, 1, 10, 30))
"""By how much a clock is set. A whole hour back would take a minute to come round again."""

_CATCHES_UP: Final = timedelta(seconds=2)
"""In which what people wrote while the program stood still is taken in, of all runs at once."""

_FIRST_S: Final = 1020 / SPEED
"""Seconds after the start at which the program stands still, in all runs at once."""

_LATE: Final = timedelta(seconds=30)
"""What is delivered this long after it was written has the messenger's own stamp."""

_FETCHED_S: Final = 0.2
"""Seconds that the messenger takes to hand over what waited there."""

_STUCK_S: Final = 0.6
"""Seconds, not of the fast clock, for which an alarm may be overdue beyond what it waits for
people's words: the sweep that finds it (`alarms.SWEEP`) comes three times in it."""

_LOOKS_S: Final = 0.1
_LONGEST_S: Final = 120.0
"""Seconds after which a run is looked at as it stands."""


@dataclass(slots=True)
class SetClock:
    """A fast clock that somebody sets.

    Attributes:
        right: The time of the world.
        by: How far it is out.
    """

    right: FastClock
    by: timedelta = timedelta(0)

    def now(self) -> datetime:
        """Return the present instant, as it shows it."""
        return self.right.now() + self.by

    def wait(self, until: datetime) -> timedelta:
        """Return how long it is until it shows an instant, in ordinary time; at least 0."""
        return self.right.wait(until - self.by)

    def ahead(self, wait: timedelta) -> datetime:
        """Return what it will show after a wait in ordinary time."""
        return self.right.ahead(wait) + self.by

    def shown_at(self, instant: datetime) -> datetime:
        """Return what it would have shown at an instant of ordinary time, set as it now is."""
        return self.right.shown_at(instant) + self.by


@dataclass(slots=True, kw_only=True)
class Run:
    """One desk with its people.

    Attributes:
        world: The store, the people, and what they got.
        clock: The desk's.
        stuck: Alarms that did not ring.
    """

    world: World
    clock: SetClock
    stuck: list[str] = field(default_factory=list)
    _effects: dict[str, Outgoing] = field(default_factory=dict)
    _numbers: Iterator[int] = field(default_factory=count)

    def present(self, effect: Outgoing, locale: str, kept: Kept | None) -> Bubble:
        """Put an effect into a word by which it is known again."""
        del locale, kept
        name = str(next(self._numbers))
        self._effects[name] = effect
        return Bubble(text=name)

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Let a person have a message."""
        self.world.said.append((self.clock.right.now(), address, self._effects[bubble.text]))
        return Sent(f"m{bubble.text}")

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Let a person see a change."""
        del ref
        return await self.send(address, bubble)

    async def goes_on(self) -> None:
        """Let the desk work until nobody is in a test any more."""
        desk = Desk(
            store=self.world.store,
            conductor=conductor_on(self.world.store),
            channel=self,
            present=self.present,
            clock=self.clock,
        )
        async with desk.at_work():
            watching = asyncio.create_task(self._watch())
            await asyncio.gather(*(self._write(desk, p) for p in self.world.plan.values()))
            until = time.monotonic() + _LONGEST_S
            while still_in_a_test(self.world) or any(self.world.store.waiting().values()):
                if time.monotonic() > until:
                    break
                await asyncio.sleep(_LOOKS_S)
            watching.cancel()

    async def _write(self, desk: Desk, theirs: Sequence[Arrival]) -> None:
        """Write what one person writes, when they do, whatever the desk does meanwhile."""
        waited = False
        for arrival in theirs:
            wait = self.clock.right.wait(arrival.event.at)
            await asyncio.sleep(wait.total_seconds())
            late = self.clock.right.now() - arrival.event.at > _LATE
            if late and not waited:  # the messenger hands over all of it at once
                await asyncio.sleep(_FETCHED_S)
            waited = late
            at = arrival.event.at + self.clock.by if late else self.clock.now()
            event = replace(arrival.event, at=at)
            await desk.take(Inbound(key=arrival.key, address=arrival.address, event=event))

    async def _watch(self) -> None:
        """Look for alarms that are due by the clock, as it is set, and do not ring."""
        since: dict[tuple[str, datetime], float] = {}
        looked = time.monotonic()
        while True:
            await asyncio.sleep(_LOOKS_S)
            now = time.monotonic()
            if now - looked > 4 * _LOOKS_S:
                since.clear()  # the program stood still, or was kept from working
            looked = now
            due = self.world.store.sleepers(self.clock.now())
            since = {sleeper: since.get(sleeper, now) for sleeper in due}
            for sleeper, first in since.items():
                if now - first > _STUCK_S + alarms.CATCHES_UP.total_seconds():
                    self.stuck.append(f"{sleeper[0][:8]}: its alarm of {sleeper[1]} does not ring")
                    since[sleeper] = now


@contextmanager
def _fast_alarms(**more: timedelta) -> Iterator[None]:
    """Let the alarms' own spans run as fast as the clock, but those that are given."""
    names = ("SWEEP", "LATE", "HORIZON", "CATCHES_UP")
    spans = {name: getattr(alarms, name) / SPEED for name in names}
    with patch.multiple(alarms, **(spans | more)):
        yield


@contextmanager
def _runs(
    kind: str, server: PostgresServer | None, plans: Sequence[Mapping[str, Sequence[Arrival]]]
) -> Iterator[list[Run]]:
    with ExitStack() as stores:
        yield [
            Run(
                world=World(store=stores.enter_context(a_store(kind, server)), plan=plan),
                clock=SetClock(FastClock(anchor=datetime.now(UTC), shown=START, speed=SPEED)),
            )
            for plan in plans
        ]


def step_clock_at_work(
    kind: str, server: PostgresServer | None, rounds: int, seed: int, *, people: int = 4
) -> Verdict:
    """Set the clock of a desk at a random moment of tests, there or back, alarms armed."""
    chance = Random(f"step at work/{seed}")
    steps = [STEPS[number % len(STEPS)] for number in range(rounds)]
    moments = [timedelta(seconds=chance.randrange(20, 1300)) for _ in range(rounds)]
    plans = [arrivals(people, seed + number) for number in range(rounds)]

    async def play(runs: Sequence[Run]) -> None:
        async def set_at(run: Run, after: timedelta, step: timedelta) -> None:
            await asyncio.sleep(run.clock.right.wait(START + after).total_seconds())
            run.clock.by = step

        _begin(runs, [START] * rounds)
        setting = [set_at(*one) for one in zip(runs, moments, steps, strict=True)]
        await asyncio.gather(*setting, *(run.goes_on() for run in runs))

    with _fast_alarms(), _runs(kind, server, plans) as runs:
        asyncio.run(play(runs))
        found = Verdict()
        for run, after, step in zip(runs, moments, steps, strict=True):
            found += at_the_time(_judged(run), f"{kind}, {step} after {after}")
    return found


def suspend_at_work(
    kind: str, server: PostgresServer | None, rounds: int, seed: int, *, people: int = 4
) -> Verdict:
    """Let the event loop stand still for ten minutes while people stand and write."""
    chance = Random(f"suspend at work/{seed}")
    plans = [arrivals(people, seed + number) for number in range(rounds)]
    begins = [START + timedelta(seconds=chance.randrange(665, 1000)) for _ in range(rounds)]

    async def play(runs: Sequence[Run]) -> None:
        async def stand_still() -> None:
            await asyncio.sleep(_FIRST_S)
            time.sleep(SUSPENDED.total_seconds() / SPEED)  # noqa: ASYNC251 - that is the fault

        _begin(runs, [moment - _FIRST_S * SPEED * timedelta(seconds=1) for moment in begins])
        await asyncio.gather(stand_still(), *(run.goes_on() for run in runs))

    with _fast_alarms(CATCHES_UP=_CATCHES_UP), _runs(kind, server, plans) as runs:
        asyncio.run(play(runs))
        found = Verdict()
        for run, moment in zip(runs, begins, strict=True):
            quiet: Quiet = quiet_run(run.world.plan)
            verdict = _judged(run) + kept_numbers(run.world, quiet)
            found += at_the_time(verdict, f"{kind}, asleep from {moment:%H:%M:%S}")
    return found


def _begin(runs: Sequence[Run], shown: Sequence[datetime]) -> None:
    """Set each clock anew, now that all is ready."""
    now = datetime.now(UTC)
    for run, first in zip(runs, shown, strict=True):
        run.clock.right = FastClock(anchor=now, shown=first, speed=SPEED)


def _judged(run: Run) -> Verdict:
    return judge_world(run.world) + Verdict(lost=len(run.stuck), notes=tuple(run.stuck))
