"""A thread that hangs is told from one that has much to do."""

import asyncio
from contextlib import closing
from datetime import UTC, datetime
from threading import Event

from bot.runtime.gathering import Gatherer
from bot.runtime.ports import UnitOfWork
from bot.runtime.worker import Worker
from bot.testing.memory import MemoryStore

AT = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


class Time:
    """A clock that stands still until it is moved."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        """Return what it shows."""
        return self.now


async def test_a_piece_of_work_that_does_not_end_counts_from_its_beginning() -> None:
    """Who has nothing to do hangs for no time, who has begun something for as long as it lasts."""
    time, begun, may_end = Time(), Event(), Event()
    with closing(Worker("w", tick=time)) as worker:
        time.now = 100.0
        assert worker.hung_for() == 0.0

        def work() -> None:
            begun.set()
            may_end.wait(10)

        doing = asyncio.create_task(worker.run(work))
        await asyncio.to_thread(begun.wait, 10)
        time.now = 107.5
        assert worker.hung_for() == 7.5
        may_end.set()
        await doing
        assert worker.hung_for() == 0.0


async def test_a_long_backlog_is_not_taken_for_hanging() -> None:
    """However much waits, each piece that is done shows that the thread gets on."""
    time, seen = Time(), list[float]()
    with closing(Worker("w", tick=time)) as worker:

        def work() -> None:
            time.now += 3.0
            seen.append(worker.hung_for())

        await asyncio.gather(*(worker.run(work) for _ in range(20)))
    assert time.now == 60.0
    assert seen == [3.0] * 20


async def test_units_of_one_transaction_show_each_that_it_gets_on() -> None:
    """Many units that are committed at once count one by one, not all together."""
    time, seen, store = Time(), list[float](), MemoryStore()
    with closing(Worker("w", tick=time)) as worker:
        gatherer = Gatherer(store, worker)

        def work(unit: UnitOfWork) -> None:
            unit.claim(str(len(seen)), AT)
            time.now += 3.0
            seen.append(worker.hung_for())

        await asyncio.gather(*(gatherer.run(work) for _ in range(20)))
    assert seen == [3.0] * 20
