"""Alarms hold the near future only, cheaply, and one that fails is not lost."""

import asyncio
import time
from collections import Counter
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, datetime, timedelta
from typing import Any, cast

from bot.runtime.alarms import AT_ONCE, HORIZON, Alarms
from bot.runtime.clock import SystemClock
from bot.runtime.metrics import Metrics
from bot.runtime.patience import PatientWorker
from bot.runtime.ports import Store
from bot.runtime.worker import Worker


class Sleepers:
    """A store that knows only who sleeps."""

    def __init__(self, asleep: Sequence[tuple[str, datetime]] = ()) -> None:
        self.asleep = asleep

    def sleepers(self, until: datetime) -> list[tuple[str, datetime]]:
        """Return who is to be woken by then."""
        return [(name, at) for name, at in self.asleep if at <= until]


def alarms_over(store: Sleepers, worker: Worker, ring: Any) -> Alarms:
    """Return alarms over such a store."""
    return Alarms(
        store=cast("Store", store),
        clock=SystemClock(),
        writer=PatientWorker(worker, Metrics()),
        ring=ring,
    )


async def nothing(name: str, due: datetime) -> None:
    """Do nothing when it rings."""


async def test_ten_thousand_sleepers_are_armed_in_under_a_second() -> None:
    """As at a start; those past the horizon take no room."""
    now = datetime.now(UTC)
    near = [(f"near{n}", now + timedelta(seconds=60 + n % 50)) for n in range(10_000)]
    far = [(f"far{n}", now + HORIZON + timedelta(minutes=5)) for n in range(10_000)]
    with closing(Worker("w")) as worker:
        alarms = alarms_over(Sleepers(near + far), worker, nothing)
        began = time.monotonic()
        await alarms.start()
        took = time.monotonic() - began
        assert len(alarms) == 10_000
        alarms.stop()
        assert len(alarms) == 0
    assert took < 1


async def test_moving_an_alarm_leaves_no_litter() -> None:
    """However often one is moved, what is held does not grow."""
    now = datetime.now(UTC)
    with closing(Worker("w")) as worker:
        alarms = alarms_over(Sleepers(), worker, nothing)
        for seconds in range(5_000):
            alarms.arm("one", now + timedelta(seconds=30 + seconds % 40))
        assert len(alarms) == 1
        assert len(alarms._heap) < 200
        alarms.arm("one", None)
        assert len(alarms) == 0
        alarms.stop()


async def test_sweep_leaves_alone_what_is_set_already() -> None:
    """Looking again and again for the same sleepers adds nothing to what is held."""
    now = datetime.now(UTC)
    store = Sleepers([(f"near{n}", now + timedelta(seconds=60 + n % 50)) for n in range(500)])
    with closing(Worker("w")) as worker:
        alarms = alarms_over(store, worker, nothing)
        for _ in range(3):
            await alarms.sweep()
        assert len(alarms) == 500
        assert len(alarms._heap) < 600  # but for a few that a busy machine was late to set
        alarms.stop()


async def test_however_many_are_due_the_loop_takes_few_at_a_time() -> None:
    """All who are due ring, spread over turns of the loop, so that others have theirs between."""
    now, turn = datetime.now(UTC), 0
    rang: Counter[int] = Counter()

    async def count_turns() -> None:
        nonlocal turn
        while True:
            turn += 1
            await asyncio.sleep(0)

    async def ring(name: str, due: datetime) -> None:
        rang[turn] += 1

    with closing(Worker("w")) as worker:
        store = Sleepers([(f"due{n}", now) for n in range(20 * AT_ONCE)])
        alarms = alarms_over(store, worker, ring)
        counting = asyncio.create_task(count_turns())
        await alarms.start()
        async with asyncio.timeout(30):
            while rang.total() < 20 * AT_ONCE:
                await asyncio.sleep(0)
        counting.cancel()
        alarms.stop()
    assert rang.total() == 20 * AT_ONCE
    assert max(rang.values()) <= 2 * AT_ONCE  # a count may fall within one turn of the loop


async def test_they_ring_in_time_and_one_that_failed_rings_again() -> None:
    """The moved one rings once; one whose answer failed is found by the next look."""
    now, rang = datetime.now(UTC), list[str]()

    async def ring(name: str, due: datetime) -> None:
        rang.append(name)
        if rang.count("fails") == 1 and name == "fails":
            raise RuntimeError

    with closing(Worker("w")) as worker:
        store = Sleepers([("fails", now)])
        alarms = alarms_over(store, worker, ring)
        alarms.arm("moved", now)
        alarms.arm("moved", now + timedelta(seconds=0.1))
        alarms.arm("cleared", now + timedelta(seconds=0.05))
        alarms.arm("cleared", None)
        await alarms.start()
        async with asyncio.timeout(5):
            while "moved" not in rang or "fails" not in rang:
                await asyncio.sleep(0.01)
            alarms.look()
            while rang.count("fails") < 2:
                await asyncio.sleep(0.01)
        alarms.stop()
    assert rang == ["fails", "moved", "fails"]
