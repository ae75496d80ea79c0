"""The stores that the tests hold to the same promises, and the server for one of them."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.runtime.ports import Store
from bot.store import open_store
from bot.store.keys import GivenKeys, new_key
from bot.store.sql import SqlStore
from bot.testing.memory import MemoryStore
from tests.store.looking import empty
from tests.store.server import PostgresServer, postgres_server

KINDS = ("sqlite", "postgres", "memory")


@pytest.fixture(scope="session")
def server() -> Iterator[PostgresServer]:
    """Run a PostgreSQL server; one for each process that asks for it."""
    with postgres_server() as running:
        yield running


@pytest.fixture(scope="session")
def on_postgres(server: PostgresServer) -> Iterator[SqlStore]:
    """Open a store on PostgreSQL that many tests share; each has to leave it empty."""
    opened = open_store(server.url(), GivenKeys(new_key()))
    yield opened
    opened.close()


@pytest.fixture(params=KINDS)
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """Open an empty store, of each kind in turn."""
    match request.param:
        case "sqlite":
            opened = open_store(tmp_path / "wallside.sqlite3")
            yield opened
            opened.close()
        case "postgres":
            shared: SqlStore = request.getfixturevalue("on_postgres")
            yield shared
            empty(shared)
        case _:
            yield MemoryStore()


@pytest.fixture(params=["sqlite", "postgres"])
def sql_store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[SqlStore]:
    """Open an empty store on a database, of each kind in turn."""
    if request.param == "sqlite":
        opened = open_store(tmp_path / "wallside.sqlite3")
        yield opened
        opened.close()
    else:
        shared: SqlStore = request.getfixturevalue("on_postgres")
        yield shared
        empty(shared)


@pytest.fixture(params=["sqlite", "postgres"])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Path | str]:
    """Return where a new database can be, of each kind in turn."""
    if request.param == "sqlite":
        yield tmp_path / "wallside.sqlite3"
    else:
        server: PostgresServer = request.getfixturevalue("server")
        with server.schema() as url:
            yield url
