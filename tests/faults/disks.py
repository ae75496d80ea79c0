"""Disks that are full or may not be written to, now and then, while the load goes on.

What fails is put down as not done and is tried again, as the desk does. No rights are needed:
SQLite is told the greatest size of its file; the system the greatest size of any file of this
process; a connection that it may only read. On PostgreSQL new transactions may only read, as
after a change-over to a server that stands by.
"""

import resource
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any, Final

from sqlalchemy import Engine

from tests.faults.journal import Journal, Seen, seen_in
from tests.faults.judge import Verdict, at_the_time, judge
from tests.faults.kills import campaign
from tests.faults.load import Load
from tests.faults.places import opened
from tests.store.server import PostgresServer

_TRIES: Final = 4
"""How often something fails before there is room again."""

_BETWEEN: Final = 20
"""At most so many things are done between two times of trouble."""

_HALF_A_COMMIT: Final = 5000
"""Bytes: one page of the log and a little."""

_JOURNAL: Final = 200_000
"""Bytes that the journal of what the outside world saw never comes to."""

Fault = Callable[[Engine, bool], None]
"""Brings a trouble about, or ends it."""


@dataclass(slots=True)
class _Trouble:
    """Comes and goes."""

    chance: Random
    switch: Callable[[bool], None]
    rounds: int
    until: int
    failed: int = 0
    times: int = 0
    is_on: bool = False

    def after(self) -> None:
        """Something was done: perhaps the trouble begins."""
        self.until -= 1
        if not self.is_on and self.until <= 0 and self.times < self.rounds:
            self.switch(True)
            self.is_on, self.failed = True, 0

    def in_trouble(self) -> None:
        """Something failed: perhaps the trouble is over."""
        self.failed += 1
        if self.failed == 1:
            self.times += 1
        if self.failed >= _TRIES:
            self.end()

    def end(self) -> None:
        """Let it be over."""
        self.switch(False)
        self.is_on, self.until = False, self.chance.randint(1, _BETWEEN)


def trouble(
    kind: str,
    server: PostgresServer | None,
    fault: Fault,
    rounds: int,
    seed: int,
    *,
    people: int = 12,
) -> tuple[Verdict, int]:
    """Put a store under load whose disk fails now and then.

    Returns:
        What was wrong at the end, and how often it failed.
    """
    chance = Random(f"{kind}/{seed}")
    found, times, number = Verdict(), 0, seed
    while times < rounds:
        number += 1
        with campaign(kind, server, number, people) as here, closing(opened(here.where)) as store:
            failing = _Trouble(
                chance=chance,
                switch=lambda on, engine=store.engine: fault(engine, on),  # type: ignore[misc]
                rounds=rounds - times,
                until=chance.randint(1, _BETWEEN),
            )
            with Journal(here.journal) as journal:
                Load(
                    store=store,
                    plan=here.plan,
                    journal=journal,
                    in_trouble=failing.in_trouble,
                    after=failing.after,
                ).run(Seen())
            failing.end()
            times += failing.times
            seen = seen_in(here.journal)
            found += at_the_time(judge(store, here.plan, here.quiet, seen), f"store {number}")
    return found, times


def no_room_in_the_file(engine: Engine, on: bool) -> None:
    """Let SQLite's file not grow: "database or disk is full"."""
    with _raw(engine) as cursor:
        ((pages,),) = cursor.execute("PRAGMA page_count").fetchall()
        cursor.execute(f"PRAGMA max_page_count = {pages if on else 2**30}").fetchall()


def no_room_for_any_file(engine: Engine, on: bool) -> None:
    """Let no file of this process grow past what the log has now: a write fails half-way."""
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    log = Path(f"{engine.url.database}-wal")
    size = max(log.stat().st_size + _HALF_A_COMMIT, _JOURNAL) if on else most
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, most))


def reading_only(engine: Engine, on: bool) -> None:
    """Let nothing be written."""
    with _raw(engine) as cursor:
        if engine.dialect.name == "sqlite":
            cursor.execute(f"PRAGMA query_only = {int(on)}")
        else:
            cursor.execute(
                "SELECT set_config('default_transaction_read_only', %s, false)",
                ("on" if on else "off",),
            )


@contextmanager
def _raw(engine: Engine) -> Iterator[Any]:
    """Yield a cursor on the connection that the load uses: there is one, in one thread."""
    connection = engine.raw_connection()
    try:
        cursor = connection.cursor()
        yield cursor
        cursor.close()
        connection.commit()
    finally:
        connection.close()
