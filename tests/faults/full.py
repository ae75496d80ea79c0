"""A PostgreSQL server whose disk is full, now and then, while the load goes on.

No rights are needed: the system lets no file of the server's processes grow past a size. Until
then what is there can be written over, as on a disk that is full. First its tables cannot grow:
each try fails, and the server goes on. Then its log cannot be written, at which the server stops
at once, as after a crash, and cannot come back before there is room: then it is started again,
as whoever runs it would.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, Final

import psycopg
from sqlalchemy import Engine

from tests.faults.disks import trouble
from tests.faults.judge import Verdict
from tests.faults.places import POSTGRES
from tests.store.server import PostgresServer

_SEGMENT: Final = 2**20
"""Bytes of a file of the log: it is made whole, so that no log could be written with less."""

_FILLS: Final = "event"
"""The table that is made the largest file of all, so that it is the first not to grow: there is
no step without a row of it."""

_AGAIN: Final = f"UPDATE {_FILLS} SET position = position;"
_VERSIONS: Final = 1000
"""Of rows, written at once to fill it."""

_STOPPED_S: Final = 5.0
"""Within how many seconds a server that stops by itself has stopped."""


def no_room_for_tables(rounds: int, seed: int) -> tuple[Verdict, int]:
    """Let no table grow; the server goes on, and what it cannot do it undoes."""

    def fail(server: PostgresServer, engine: Engine, on: bool) -> None:
        server.limit_files(_fill(server, engine) if on else None)

    return _full(fail, rounds, seed)


def no_room_for_the_log(rounds: int, seed: int) -> tuple[Verdict, int]:
    """Let nothing be written at all; the server stops as after a crash."""

    def fail(server: PostgresServer, engine: Engine, on: bool) -> None:
        del engine
        if on:
            server.limit_files(0)
        else:
            server.limit_files(None)
            _revive(server)

    return _full(fail, rounds, seed)


def _full(fail: Any, rounds: int, seed: int) -> tuple[Verdict, int]:
    with _a_server() as server:
        return trouble(POSTGRES, server, lambda engine, on: fail(server, engine, on), rounds, seed)


@contextmanager
def _a_server() -> Iterator[PostgresServer]:
    server = PostgresServer(small_log=True)
    try:
        yield server
    finally:
        server.limit_files(None)
        _revive(server)
        server.remove()


def _fill(server: PostgresServer, engine: Engine) -> int:
    """Make a table the largest file of a server, and return how large that is.

    What fills it was never committed: it is room that is lost until the table is cleaned.
    """
    with engine.connect() as connection:
        ask = connection.exec_driver_sql
        rows = ask(f"SELECT count(*) FROM {_FILLS}").scalar_one()
        while rows:
            ask("CHECKPOINT")  # what is not yet written has to have room
            largest = _largest(server.folder / "data" / "base")
            size = ask(f"SELECT pg_relation_size('{_FILLS}')").scalar_one()
            connection.rollback()
            if size >= largest:
                break
            ask(f"DO $$BEGIN FOR n IN 1..{1 + _VERSIONS // rows} LOOP {_AGAIN} END LOOP; END$$")
            connection.rollback()
    return _largest(server.folder / "data" / "base")


def _largest(folder: Path) -> int:
    """Return the bytes of the largest file in a folder, or of a file of the log."""
    sizes = (entry.stat().st_size for entry in folder.rglob("*") if entry.is_file())
    return max(_SEGMENT, *sizes)


def _revive(server: PostgresServer) -> None:
    """Wait until a server answers again; one that has stopped is started."""
    until = time.monotonic() + _STOPPED_S
    while True:
        with suppress(psycopg.OperationalError), psycopg.connect(server.url(), connect_timeout=2):
            return
        if not server.processes():
            server.start()
            return
        assert time.monotonic() < until, "the server neither answers nor stops"
        time.sleep(0.02)
