"""`python -m tests.fuzz --runs N`: hostile input against every door, and the counts.

Every run is made of bytes from a seed; with `--guided` they come from atheris, which looks for
bytes that reach new code of ours, if it is installed (its wheel needs no compiler). What breaks
a law is printed with the seed or the bytes that show it again. 1 if anything was found.
"""

import argparse
import hashlib
import io
import logging
import sys
import time
import traceback
import tracemalloc
from dataclasses import dataclass, field
from random import Random
from typing import Final

from rich.console import Console
from rich.table import Table

from bot.logs import configure_logs
from tests.fuzz.doors import DOORS, Door
from tests.fuzz.draw import ENOUGH
from tests.fuzz.texts import CANARY

SEED: Final = 20260302
SLOWEST_S: Final = 2.0
"""Seconds of the processor for one run, with many messages of 4096 characters in it."""

LARGEST: Final = 64 * 2**20
"""Bytes that one run may hold at once beyond what it began with."""

_WEIGHED: Final = 10
"""One run in so many is weighed: tracing memory makes it several times slower."""


@dataclass(slots=True)
class Count:
    """What a door came to."""

    runs: int = 0
    slowest: float = 0.0
    largest: int = 0
    found: dict[str, str] = field(default_factory=dict)


class Logs:
    """All that any logger says meanwhile."""

    def __init__(self) -> None:
        self.said = io.StringIO()

    def __enter__(self) -> "Logs":
        self._stderr, sys.stderr = sys.stderr, self.said
        configure_logs()
        self._handler = logging.StreamHandler(self.said)
        logging.getLogger().addHandler(self._handler)
        return self

    def __exit__(self, *_: object) -> None:
        logging.getLogger().removeHandler(self._handler)
        sys.stderr = self._stderr

    def leaked(self) -> bool:
        """Whether a word of somebody's was said since the last look."""
        said = self.said.getvalue()
        self.said.seek(0)
        self.said.truncate()
        return CANARY in said


def tried(door: Door, content: bytes, count: Count, name: str, logs: Logs) -> None:
    """Run a door once, and put down what was found."""
    weighed = count.runs % _WEIGHED == 0
    if weighed:
        tracemalloc.start()
    begun = time.process_time()
    try:
        door(content)
    except Exception as error:
        last = traceback.extract_tb(error.__traceback__)[-1]
        what = f"{type(error).__name__}: {error} ({last.filename.rpartition('/')[2]}:{last.lineno})"
        count.found.setdefault(what[:300], name)
    took = time.process_time() - begun
    if weighed:
        count.largest = max(count.largest, tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    else:
        count.slowest = max(count.slowest, took)
        if took > SLOWEST_S:
            count.found.setdefault(f"takes {took:.1f} s", name)
    if count.largest > LARGEST:
        count.found.setdefault(f"holds {count.largest >> 20} MiB", name)
    if logs.leaked():
        count.found.setdefault("words of a person's are in a log", name)
    count.runs += 1


def seeded(runs: int, seed: int, only: str) -> dict[str, Count]:
    """Run every door with bytes from a seed."""
    counts = {name: Count() for name in DOORS if only in name}
    with Logs() as logs:
        for name, count in counts.items():
            door, share = DOORS[name]
            for number in range(max(1, runs // share)):
                content = Random(f"{name}/{seed}/{number}").randbytes(ENOUGH)
                tried(door, content, count, f"seed {seed}, run {number}", logs)
    return counts


def guided(runs: int, only: str) -> int:
    """Let atheris look for bytes that reach new code; it ends the process itself."""
    try:
        import atheris
    except ModuleNotFoundError:
        Console(stderr=True).print("atheris is not installed: pip install atheris")
        return 2
    names = [name for name in DOORS if only in name]
    count, logs = Count(), Logs()

    def one(content: bytes) -> None:
        name = names[hashlib.blake2b(content, digest_size=1).digest()[0] % len(names)]
        before = len(count.found)
        tried(DOORS[name][0], content, count, content.hex(), logs)
        if len(count.found) > before:
            Console().print(name, list(count.found.items())[-1])

    atheris.instrument_all()
    with logs:
        atheris.Setup([sys.argv[0], f"-runs={runs}", f"-max_len={ENOUGH}", "-len_control=0"], one)
        atheris.Fuzz()
    return 0


def main() -> int:
    """Run and print; 1 if anything was found."""
    asked = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    asked.add_argument("--runs", type=int, default=2000)
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--only", default="", help="doors whose name has these words")
    asked.add_argument("--guided", action="store_true")
    given = asked.parse_args()
    if given.guided:
        return guided(given.runs, given.only)
    counts = seeded(given.runs, given.seed, given.only)
    table = Table(title="Hostile input")
    table.add_column("door")
    for heading in ("runs", "found", "slowest, ms", "most memory, MiB"):
        table.add_column(heading, justify="right")
    for name, count in counts.items():
        found = str(len(count.found) or "nothing")
        most = f"{count.largest / 2**20:.1f}"
        table.add_row(name, str(count.runs), found, f"{count.slowest * 1000:.0f}", most)
    console = Console()
    console.print(table)
    for name, count in counts.items():
        for what, where in count.found.items():
            console.print(f"{name}: {what} [{where}]", markup=False, highlight=False)
    return int(any(count.found for count in counts.values()))


if __name__ == "__main__":
    raise SystemExit(main())
