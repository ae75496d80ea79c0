"""A clinic with nobody in it yet.

The store is made once and copied for each test, behind one engine: it is the engine that is slow
to make, and that remembers how statements are compiled.
"""

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from sqlalchemy import Engine, event

from bot.bootstrap import DATABASE
from bot.store.database import connect, open_store
from bot.store.sql import SqlStore
from tests.care.clinic import Clinic


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where the store of the test at hand is, and an empty one."""

    engine: Engine
    database: Path
    empty: Path


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """Return a place for stores, with an empty one at the newest revision."""
    folder = tmp_path_factory.mktemp("care")
    empty, database = folder / "empty.sqlite3", folder / DATABASE
    open_store(empty).close()
    engine = connect(database)
    # What is lost with the power is no matter here, and a full sync is slow.
    event.listen(engine, "connect", lambda raw, _: raw.execute("PRAGMA synchronous=OFF").close())
    return Shelf(engine=engine, database=database, empty=empty)


@pytest.fixture
def store(shelf: Shelf) -> Iterator[SqlStore]:
    """Return a store of its own for a test."""
    for left in shelf.database.parent.glob(f"{DATABASE}*"):
        left.unlink()
    shutil.copyfile(shelf.empty, shelf.database)
    opened = SqlStore(shelf.engine)
    yield opened
    opened.close()


@pytest.fixture
def operated(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the operator's commands work on the clinic's own database."""
    monkeypatch.setenv("WALLSIDE_FOLDER", str(shelf.database.parent))
    monkeypatch.setenv("WALLSIDE_BOT_NAME", "harbour_street_bot")
    monkeypatch.setenv("WALLSIDE_TEAM", "true")


@pytest.fixture
def clinic(store: SqlStore) -> Clinic:
    """Return a clinic with a team of nobody."""
    return Clinic(store)
