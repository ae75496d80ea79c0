"""SIGKILL under load, at random points, and the store opened again each time."""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from random import Random
from typing import Final

from tests.faults.judge import Quiet, Verdict, at_the_time, look, quiet_run
from tests.faults.people import Arrival, arrivals
from tests.faults.places import SQLITE, a_folder, a_place, opened
from tests.faults.process import Child
from tests.store.server import PostgresServer

PEOPLE: Final = 12
_LONGEST_S: Final = 0.25
"""How long a process lives at most before it is killed."""

_WORKERS: Final = 3
"""Conversations handled at once on PostgreSQL; SQLite has one writer."""


def workers_on(kind: str) -> int:
    """Return how many conversations are handled at once on a kind of store."""
    return 1 if kind == SQLITE else _WORKERS


@dataclass(frozen=True, slots=True, kw_only=True)
class Campaign:
    """One set of people, on a new store.

    Attributes:
        where: The store.
        plan: What people do.
        quiet: What it comes to when nothing goes wrong.
        journal: Where the outside world is put down.
        workers: How many conversations are handled at once.
    """

    where: Path | str
    plan: dict[str, tuple[Arrival, ...]]
    quiet: Quiet
    journal: Path
    workers: int

    def start(self) -> Child:
        """Start a process from where the last one left it."""
        return Child(self.where, self.plan, self.journal, workers=self.workers)

    def look(self, when: str) -> Verdict:
        """Return what is wrong with the store as it stands."""
        return at_the_time(look(self.where, self.plan, self.quiet, self.journal), when)


@contextmanager
def campaign(
    kind: str, server: PostgresServer | None, seed: int, people: int = PEOPLE
) -> Iterator[Campaign]:
    """Make a new store for new people."""
    plan = arrivals(people, seed)
    quiet = quiet_run(plan)
    with a_folder() as folder, a_place(kind, folder, server) as where:
        opened(where).close()
        yield Campaign(
            where=where,
            plan=plan,
            quiet=quiet,
            journal=folder / "journal",
            workers=workers_on(kind),
        )


def kill(
    kind: str,
    server: PostgresServer | None,
    rounds: int,
    seed: int,
    *,
    people: int = PEOPLE,
    longest: float = _LONGEST_S,
) -> Verdict:
    """Kill processes under load, and look at the store after each.

    Returns:
        What was wrong, added up over all kills; how often a message came twice is counted once a
        store, at its end.
    """
    chance = Random(f"{kind}/{seed}")
    found, kills = Verdict(), 0
    for number in count(seed):
        with campaign(kind, server, number, people) as here:
            while kills < rounds:
                child = here.start()
                time.sleep(chance.uniform(0, longest))
                child.kill()
                if child.ended():
                    break
                kills += 1
                found += _uncounted(here.look(f"{kind}, store {number}, kill {kills}"))
            here.start().wait()
            found += here.look(f"{kind}, store {number}, at the end")
        if kills >= rounds:
            return found
    raise AssertionError("unreachable")


def _uncounted(verdict: Verdict) -> Verdict:
    return Verdict(
        lost=verdict.lost,
        doubled=verdict.doubled,
        disordered=verdict.disordered,
        notes=verdict.notes,
    )
