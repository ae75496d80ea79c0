"""How late prompts are, how long the event loop stands still, and what sleeping tests cost.

`python -m tests.bench.lateness` (`--full` with 100,000 people asleep). A store holds many people
who sleep; for a thousand of them, "measure now" is due within one second. The desk runs as it
ships; the channel takes a message each 1/30 s, as Telegram does. Late is how long after it was due
a prompt's row of the outbox is durable. Meanwhile files of tests are made on the other thread, as
the courier has them made.
"""

import asyncio
import sys
import tempfile
import time
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from statistics import median, quantiles
from typing import Final

from bot import garbage
from bot.engine.effects import Form
from bot.reports import make
from bot.runtime.clock import FastClock
from bot.runtime.desk import Desk
from bot.runtime.metrics import Metrics
from bot.runtime.ports import Bubble, Delivery, Sent
from bot.runtime.worker import Worker
from bot.store import open_store
from bot.store.sqlite import leave_no_trace
from tests.bench.files import IMPRINT, variants
from tests.bench.peers.wallside import Swallowing, Taking, begun, conductor_on, copied
from tests.bench.rows import Row, show
from tests.reports.examples import CLEAR_RISE

DUE: Final = 1000
SIZES: Final = (10_000,)
FULL_SIZES: Final = (1000, 10_000, 100_000)
_TICK: Final = 0.002
_PACE: Final = 1 / 30
_BETWEEN_TESTS_S: Final = 0.8
"""More than one test then ends in a second; the platform lets through 24 messages in that time."""

_AHEAD: Final = timedelta(seconds=4)
"""How long before the first prompt the desk begins, at least."""


class Paced(Swallowing):
    """Takes a message at the rate of the platform."""

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Take a message, and the time that one takes."""
        await asyncio.sleep(_PACE)
        return await super().send(address, bubble)

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Take a change, and the time that one takes."""
        await asyncio.sleep(_PACE)
        return Sent(ref)


class Noting(Metrics):
    """Notes how late each was."""

    def __init__(self) -> None:
        super().__init__()
        self.late: list[float] = []

    def woken(self, late: timedelta) -> None:
        """Note it."""
        self.late.append(late.total_seconds())


def memory() -> int:
    """Return the bytes of memory that this process holds."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * 4096


async def ticked(found: list[float]) -> None:
    """Note how late the event loop comes to a tick, in seconds."""
    while True:
        before = time.perf_counter()
        await asyncio.sleep(_TICK)
        found.append(time.perf_counter() - before - _TICK)


async def files(worker: Worker) -> None:
    """Make all files of one test after another, at the pace of tests that end."""
    for record in variants(CLEAR_RISE):
        for form in Form:
            await worker.run(partial(make, form, record, "en", IMPRINT))
        await asyncio.sleep(_BETWEEN_TESTS_S)


async def measured(folder: Path, asleep: int) -> tuple[list[float], list[float], float, int]:
    """Return how late prompts and ticks were, the seconds of the start, and bytes it took."""
    store = open_store(folder / "wallside.sqlite3")
    conductor = conductor_on(store)
    taking = Taking(store, conductor)
    step = await begun(taking)
    assert step.wake_at is not None
    due = step.wake_at
    first = partial(copied, store, past=False)
    await asyncio.to_thread(first, asleep, due + timedelta(days=1))
    await asyncio.to_thread(first, DUE, due, timedelta(seconds=1), first=asleep)
    # What the copying left in the log would else be brought into the file while prompts are due.
    assert leave_no_trace(store.engine)
    clock = FastClock(anchor=datetime.now(UTC), shown=due - _AHEAD, speed=1.0)
    metrics, late, maker = Noting(), list[float](), Worker("files")
    before, started = memory(), time.perf_counter()
    desk = Desk(
        store=store,
        conductor=conductor,
        channel=Paced(),
        present=lambda effect, locale, kept: Bubble(text="words"),
        clock=clock,
        metrics=metrics,
    )
    async with desk.at_work():
        garbage.spare_what_is_there()  # as the program does when it serves
        start = time.perf_counter() - started
        held = memory() - before
        beside = [asyncio.create_task(ticked(late)), asyncio.create_task(files(maker))]
        deadline = time.perf_counter() + 90
        while len(metrics.late) < DUE and time.perf_counter() < deadline:
            await asyncio.sleep(0.1)
        for task in beside:
            task.cancel()
            with suppress(asyncio.CancelledError):
                await task
    maker.close()
    taking.close()
    return metrics.late, late, start, held


def rows(sizes: tuple[int, ...] = SIZES) -> list[Row]:
    """Return the figures for each number of people asleep."""
    found: list[Row] = []
    for asleep in sizes:
        with tempfile.TemporaryDirectory() as folder:
            late, ticks, start, held = asyncio.run(measured(Path(folder), asleep))
        part = f"{DUE:,} due in a second, {asleep:,} asleep"
        high, lag = quantiles(late, n=100)[-1], quantiles(ticks, n=100)[-1]
        found += [
            Row(
                part=part,
                name="prompt late, 99 %",
                value=high * 1000,
                unit="ms",
                aim="<= 50",
                note=f"median {median(late) * 1000:.1f}, most {max(late) * 1000:.0f}; "
                f"{len(late)} of {DUE} rung",
            ),
            Row(
                part=part,
                name="event loop late, most, files made beside it",
                value=max(ticks) * 1000,
                unit="ms",
                aim="<= 50",
                note=f"median {median(ticks) * 1000:.1f}, 99 % {lag * 1000:.1f}",
            ),
            Row(part=part, name="the desk at work", value=start, unit="s"),
            Row(
                part=part,
                name="memory for 1,000 asleep",
                value=held / asleep,
                unit="kB",
                note="only the alarms of the next minutes are held",
            ),
        ]
    return found


if __name__ == "__main__":
    show(rows(FULL_SIZES if "--full" in sys.argv else SIZES))
