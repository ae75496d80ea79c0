"""A clinic with nobody in it yet, on a store that was made once and is copied for each test."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.store.database import connect, open_store
from bot.store.sql import SqlStore
from tests.care.clinic import Clinic


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a database at the newest revision with nothing in it."""
    path = tmp_path_factory.mktemp("care") / "empty.sqlite3"
    open_store(path).close()
    return path


@pytest.fixture
def store(empty: Path, tmp_path: Path) -> Iterator[SqlStore]:
    """Return a store of its own for a test."""
    path = tmp_path / "wallside.sqlite3"
    shutil.copyfile(empty, path)
    opened = SqlStore(connect(path))
    yield opened
    opened.close()


@pytest.fixture
def clinic(store: SqlStore) -> Clinic:
    """Return a clinic with a team of nobody."""
    return Clinic(store)
