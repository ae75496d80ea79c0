"""`python -m tests.faults`: prints the fault matrix; 1 if anything was lost.

Nothing but this machine is needed: PostgreSQL is started from a wheel. `--rounds` is how often
SIGKILL falls, on each store; other faults, which take longer each, come less often.
"""

import argparse
import json
import sys
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from functools import partial
from typing import Final

from rich.console import Console
from rich.table import Table

from tests.faults.at_work import step_clock_at_work, suspend_at_work
from tests.faults.clocks import step_clock, suspend
from tests.faults.disks import (
    Fault,
    no_room_for_any_file,
    no_room_in_the_file,
    reading_only,
    trouble,
)
from tests.faults.full import no_room_for_tables, no_room_for_the_log
from tests.faults.judge import Verdict
from tests.faults.kills import kill
from tests.faults.places import POSTGRES, SQLITE
from tests.faults.power import lose_power
from tests.faults.server import restart
from tests.store.server import PostgresServer, postgres_server

KILLS: Final = 200
SEED: Final = 20260302

_LESS_OFTEN: Final = 8
"""One of the slower faults for so many kills."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One fault on one store.

    Attributes:
        fault: What it is.
        store: On which store.
        times: How often it happened.
        verdict: What it did.
        seconds: How long it took to find out.
    """

    fault: str
    store: str
    times: int
    verdict: Verdict
    seconds: float


Clocked = Callable[[str, PostgresServer | None, int, int], Verdict]
Judged = Callable[[], tuple[int, Verdict]]


def rows(rounds: int, seed: int, server: PostgresServer) -> list[tuple[str, str, Judged]]:
    """Return what is to be found out: fault, store, and how."""
    fewer = max(1, rounds // _LESS_OFTEN)

    def failing(kind: str, fault: Fault) -> tuple[int, Verdict]:
        found, times = trouble(kind, server if kind == POSTGRES else None, fault, fewer, seed)
        return times, found

    def full(fault: Callable[[int, int], tuple[Verdict, int]]) -> tuple[int, Verdict]:
        found, times = fault(fewer, seed)
        return times, found

    def clocked(fault: Clocked, kind: str) -> tuple[int, Verdict]:
        return fewer, fault(kind, server if kind == POSTGRES else None, fewer, seed)

    def powerless() -> tuple[int, Verdict]:
        found, torn = lose_power(rounds, seed)
        return rounds + torn, found

    planned: list[tuple[str, str, Judged]] = [
        ("SIGKILL under load", SQLITE, lambda: (rounds, kill(SQLITE, None, rounds, seed))),
        ("SIGKILL under load", POSTGRES, lambda: (rounds, kill(POSTGRES, server, rounds, seed))),
        ("power lost: database and log copied, torn", SQLITE, powerless),
        ("file cannot grow", SQLITE, lambda: failing(SQLITE, no_room_in_the_file)),
        ("write fails half-way", SQLITE, lambda: failing(SQLITE, no_room_for_any_file)),
        ("may only read", SQLITE, lambda: failing(SQLITE, reading_only)),
        ("may only read", POSTGRES, lambda: failing(POSTGRES, reading_only)),
        ("disk full: tables cannot grow", POSTGRES, partial(full, no_room_for_tables)),
        ("disk full: log cannot be written", POSTGRES, partial(full, no_room_for_the_log)),
        ("server killed and back", POSTGRES, lambda: (fewer, restart(server, fewer, seed))),
    ]
    for kind in (SQLITE, POSTGRES):
        planned += [
            ("clock set by 1 min to 3 h", kind, partial(clocked, step_clock, kind)),
            ("stood still for 10 min", kind, partial(clocked, suspend, kind)),
            (
                "clock set by 1 to 30 min, desk at work",
                kind,
                partial(clocked, step_clock_at_work, kind),
            ),
            ("stood still for 10 min, desk at work", kind, partial(clocked, suspend_at_work, kind)),
        ]
    return planned


def main() -> int:
    """Find out and print; returns 1 if anything was lost, doubled or out of order."""
    asked = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    asked.add_argument("--rounds", type=int, default=KILLS, help="SIGKILLs on each store")
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--only", default="", help="faults whose name has these words")
    asked.add_argument("--json", action="store_true")
    given = asked.parse_args()
    found: list[Row] = []
    errors = Console(stderr=True)
    with postgres_server() as server:
        for fault, store, judged in rows(given.rounds, given.seed, server):
            if given.only not in fault:
                continue
            begun = time.monotonic()
            times, verdict = judged()
            took = time.monotonic() - begun
            found.append(
                Row(fault=fault, store=store, times=times, verdict=verdict, seconds=round(took, 1))
            )
            wrong = len(verdict.notes) or "nothing"
            errors.print(f"{fault}, {store}: {times} in {took:.0f} s, {wrong} wrong")
    if given.json:
        sys.stdout.write(json.dumps([asdict(row) for row in found], indent=2) + "\n")
    else:
        show(found)
    return int(any(not row.verdict.clean for row in found))


def show(found: list[Row]) -> None:
    """Print the matrix, and what each of the faults was."""
    table = Table(title="What each fault loses")
    for heading in ("fault", "store"):
        table.add_column(heading)
    for heading in ("times", "lost", "doubled", "out of order", "sent again, unknown", "s"):
        table.add_column(heading, justify="right")
    for row in found:
        verdict = row.verdict
        table.add_row(
            row.fault,
            row.store,
            str(row.times),
            *(str(n or "nothing") for n in (verdict.lost, verdict.doubled, verdict.disordered)),
            str(verdict.unsure),
            f"{row.seconds:.0f}",
        )
    console = Console()
    console.print(table)
    for row in found:
        for note in row.verdict.notes:
            console.print(f"{row.fault}: {note}", style="red")


if __name__ == "__main__":
    raise SystemExit(main())
