"""A town with nobody in it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.store import open_store
from bot.store.sql import SqlStore
from tests.companions.people import Town


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqlStore]:
    """Open an empty store."""
    opened = open_store(tmp_path / "wallside.sqlite3")
    yield opened
    opened.close()


@pytest.fixture
def town(store: SqlStore) -> Town:
    """Return a town in which a test begins at once."""
    return Town(store)
