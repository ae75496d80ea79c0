"""What the files of one test cost: `python -m tests.bench.files`.

Every round makes all files of another record, so that nothing comes out of a cache that a real
test would not find filled. Warm: some rounds go before those that count. The time is that of the
processor, all threads together, so what else the machine does takes no part in it. Then the same
on a thread of its own as the courier has it, with an event loop beside it that wakes every
millisecond and notes how late it was; the first row is a loop with nothing beside it, which is
what the machine alone makes it late.
"""

import asyncio
import time
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from statistics import median, quantiles
from typing import Final

from rich.console import Console
from rich.table import Table

from bot.engine.effects import Form
from bot.protocol.record import TestRecord
from bot.reports import Imprint, make
from bot.runtime.worker import Worker
from tests.reports.examples import CLEAR_RISE, CROWDED, EARLY_FALL
from tests.reports.fhir.cases import FULL

IMPRINT: Final = Imprint(reference="HS-0042")

AIM_MS: Final = 60.0
"""All forms of one test, in ms of one core."""

LAG_MS: Final = 25.0
"""How late the event loop may be meanwhile, in ms."""

ROUNDS: Final = 40
WARM: Final = 5
TICK: Final = 0.001
NOTHING: Final = 3.0
RECORDS: Final = {
    "a whole test": CLEAR_RISE,
    "six readings": EARLY_FALL,
    "all there can be": FULL,
    "too much for one page": CROWDED,
}


def variants(record: TestRecord) -> Iterator[TestRecord]:
    """Yield records that differ from a record in their numbers."""
    number = 0
    while True:
        number += 1
        readings = tuple(
            reading
            if reading.values.heart_rate is None
            else replace(
                reading,
                values=replace(reading.values, heart_rate=reading.values.heart_rate + number % 9),
            )
            for reading in record.readings
        )
        yield replace(record, number=number, readings=readings)


def made(record: TestRecord) -> Iterator[tuple[Form, float]]:
    """Make every form of a test, in the order it is handed over, and yield what each cost in ms."""
    for form in Form:
        begun = time.process_time()
        make(form, record, "en", IMPRINT)
        yield form, (time.process_time() - begun) * 1000


def measured(record: TestRecord) -> Mapping[Form, list[float]]:
    """Return the milliseconds of each form, a number a round."""
    spent: dict[Form, list[float]] = {form: [] for form in Form}
    for number, variant in zip(range(WARM + ROUNDS), variants(record), strict=False):
        for form, milliseconds in made(variant):
            if number >= WARM:
                spent[form].append(milliseconds)
    return spent


async def lags(record: TestRecord | None) -> list[float]:
    """Return how late the event loop was at each tick, in ms, while files were made beside it."""
    maker = Worker("maker")
    found: list[float] = []

    async def tick() -> None:
        while True:
            before = time.perf_counter()
            await asyncio.sleep(TICK)
            found.append((time.perf_counter() - before - TICK) * 1000)

    ticking = asyncio.create_task(tick())
    if record is None:
        await asyncio.sleep(NOTHING)
    else:
        for _, variant in zip(range(ROUNDS), variants(record), strict=False):
            for form in Form:
                await maker.run(partial(make, form, variant, "en", IMPRINT))
    ticking.cancel()
    maker.close()
    return found


def main() -> None:
    """Print the figures."""
    console = Console(width=110)
    heads = (*map(str, Form), "least", "median", "most", "median of the aim")
    table = Table("record", *heads, title=f"ms of a core for all forms of a test; aim {AIM_MS:g}")
    for name, record in RECORDS.items():
        spent = measured(record)
        totals = [sum(numbers) for numbers in zip(*spent.values(), strict=True)]
        table.add_row(
            name,
            *(f"{median(numbers):.1f}" for numbers in spent.values()),
            *(f"{kind(totals):.0f}" for kind in (min, median, max)),
            f"{median(totals) / AIM_MS:.2f}",
        )
    console.print(table)
    heads = ("ticks", "median", "99 %", "most", "99 % of the aim")
    table = Table("beside", *heads, title=f"ms that the event loop was late; aim {LAG_MS:g}")
    for name, beside in {"nothing": None, **RECORDS}.items():
        late = asyncio.run(lags(beside))
        high = quantiles(late, n=100)[-1]
        table.add_row(
            name,
            str(len(late)),
            f"{median(late):.2f}",
            f"{high:.1f}",
            f"{max(late):.1f}",
            f"{high / LAG_MS:.2f}",
        )
    console.print(table)


if __name__ == "__main__":
    main()
