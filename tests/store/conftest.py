"""The stores that the tests hold to the same promises, and the server for one of them."""

import shutil
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


@pytest.fixture(scope="session")
def new_files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a new SQLite database and its keys, to be copied."""
    folder = tmp_path_factory.mktemp("new")
    open_store(folder / "wallside.sqlite3").close()
    return folder


@pytest.fixture
def on_sqlite(new_files: Path, tmp_path: Path) -> Iterator[SqlStore]:
    """Open an empty store on a SQLite file."""
    for file in new_files.iterdir():
        shutil.copy(file, tmp_path)
    opened = open_store(tmp_path / "wallside.sqlite3")
    yield opened
    opened.close()


@pytest.fixture(params=KINDS)
def store(request: pytest.FixtureRequest) -> Iterator[Store]:
    """Open an empty store, of each kind in turn."""
    if request.param == "memory":
        yield MemoryStore()
        return
    opened: SqlStore = request.getfixturevalue(f"on_{request.param}")
    yield opened
    empty(opened)


@pytest.fixture(params=["sqlite", "postgres"])
def sql_store(request: pytest.FixtureRequest) -> Iterator[SqlStore]:
    """Open an empty store on a database, of each kind in turn."""
    opened: SqlStore = request.getfixturevalue(f"on_{request.param}")
    yield opened
    empty(opened)


@pytest.fixture(params=["sqlite", "postgres"])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Path | str]:
    """Return where a new database can be, of each kind in turn."""
    if request.param == "sqlite":
        yield tmp_path / "wallside.sqlite3"
    else:
        server: PostgresServer = request.getfixturevalue("server")
        with server.schema() as url:
            yield url
