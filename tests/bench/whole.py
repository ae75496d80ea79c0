"""What a whole test costs with its files, and what the program costs before it does anything.

`python -m tests.bench.whole`.
"""

import asyncio
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from datetime import timedelta
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path
from statistics import median
from typing import Final

from packaging.requirements import Requirement

from bot.reports.presenting import present
from bot.runtime.ports import Sent
from tests.bench.peers.conversation import STEPS, backlogs
from tests.bench.peers.wallside import Wallside
from tests.bench.rows import Row, show

PEOPLE: Final = 20
_PART: Final = "a whole test"


async def _tests(folder: Path) -> tuple[float, float, int]:
    """Return the milliseconds of the processor for a test, for its messages, and how many."""
    peer = Wallside()
    await peer.open(folder, 0)
    chats = range(1, PEOPLE + 1)
    store, clock = peer.taking.store, peer.taking.clock
    steps, sending, sent = 0.0, 0.0, 0
    for step in range(len(STEPS)):
        spent = time.process_time()
        await peer.pass_time(step, chats)
        for updates in backlogs(chats, step):
            await peer.take(updates)
        steps += time.process_time() - spent
        spent = time.process_time()
        while parcel := store.claim_parcel(clock.at, timedelta(minutes=1)):
            present(parcel.effect, parcel.locale, parcel.kept)
            store.settle(parcel, Sent("r"), clock.at)
            sent += 1
        sending += time.process_time() - spent
    await peer.close()
    return steps * 1000 / PEOPLE, sending * 1000 / PEOPLE, sent // PEOPLE


def tests() -> Iterator[Row]:
    """Yield what a test costs."""
    with tempfile.TemporaryDirectory() as folder:
        steps, sending, sent = asyncio.run(_tests(Path(folder)))
    yield Row(
        part=_PART,
        name="with its files",
        value=steps + sending,
        unit="ms CPU",
        note=f"{steps:.0f} for its steps, {sending:.0f} for {sent} messages put into words, "
        "pictures and files",
    )


def _seconds(*arguments: str) -> float:
    begun = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - begun


def start() -> Iterator[Row]:
    """Yield what it takes until the program is there."""
    part = "the program"
    helps = median(_seconds("-m", "bot", "--help") for _ in range(5))
    bare = median(_seconds("-c", "pass") for _ in range(5))
    yield Row(
        part=part, name="--help", value=helps, unit="s", note=f"{bare:.2f} of it Python itself"
    )
    size, names = installed()
    yield Row(
        part=part,
        name="installed, with all it needs",
        value=size / 1e6,
        unit="MB",
        note=f"{names} packages besides itself",
    )


def installed() -> tuple[int, int]:
    """Return the bytes of the program and all it needs, and how many packages that is."""
    waiting, seen, total = ["wallside"], set[str](), 0
    while waiting:
        name = waiting.pop()
        if name in seen:
            continue
        try:
            package = distribution(name)
        except PackageNotFoundError:
            continue
        seen.add(name)
        for text in package.requires or ():
            wanted = Requirement(text)
            if wanted.marker is None or wanted.marker.evaluate({"extra": ""}):
                waiting.append(wanted.name.lower())
        if name != "wallside":
            files = (Path(str(f.locate())) for f in package.files or ())
            total += sum(f.stat().st_size for f in files if f.is_file())
    here = Path(__file__).resolve().parents[2]
    for folder in ("bot", "locales", "demo_scripts"):
        shipped = (here / folder).rglob("*")
        total += sum(f.stat().st_size for f in shipped if f.suffix != ".pyc" and f.is_file())
    return total, len(seen) - 1


def rows() -> list[Row]:
    """Return all figures."""
    return [*tests(), *start()]


if __name__ == "__main__":
    show(rows())
