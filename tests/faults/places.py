"""Where the stores under test are: a new SQLite file, or a part of a PostgreSQL server."""

import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from itertools import count
from pathlib import Path
from typing import Final

import psycopg

from bot.store import open_store
from bot.store.keys import GivenKeys, KeySource, new_key
from bot.store.sql import SqlStore
from tests.store.server import PostgresServer

KEYS: Final[KeySource] = GivenKeys(new_key())
SQLITE: Final = "SQLite"
POSTGRES: Final = "PostgreSQL"
_NUMBERS: Final = count(1)


def opened(where: Path | str) -> SqlStore:
    """Open a store; all of one run have the same keys."""
    return open_store(where, KEYS)


@contextmanager
def a_folder() -> Iterator[Path]:
    """Yield an empty folder."""
    with tempfile.TemporaryDirectory(prefix="faults-") as name:
        yield Path(name)


@contextmanager
def a_place(kind: str, folder: Path, server: PostgresServer | None) -> Iterator[Path | str]:
    """Yield where a new database of a kind can be."""
    if kind == SQLITE:
        yield folder / "wallside.sqlite3"
        return
    assert server is not None
    name = f"faults{next(_NUMBERS)}"
    # With connections of their own: meanwhile the server may be killed.
    with psycopg.connect(server.url(), autocommit=True) as connection:
        connection.execute(f"CREATE SCHEMA {name}")
    yield f"{server.url()}&options=-csearch_path%3D{name}"
    with psycopg.connect(server.url(), autocommit=True) as connection:
        connection.execute(f"DROP SCHEMA {name} CASCADE")


@contextmanager
def a_store(kind: str, server: PostgresServer | None) -> Iterator[SqlStore]:
    """Yield an empty store of a kind."""
    with (
        a_folder() as folder,
        a_place(kind, folder, server) as where,
        closing(opened(where)) as store,
    ):
        yield store
