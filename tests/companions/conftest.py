"""A town with nobody in it."""

from collections.abc import Iterator

import pytest

from bot.store.sql import SqlStore
from tests.companions.people import Town
from tests.shelf import Shelf


@pytest.fixture
def store(shelf: Shelf) -> Iterator[SqlStore]:
    """Open an empty store."""
    opened = shelf.fresh()
    yield opened
    opened.close()


@pytest.fixture
def town(store: SqlStore) -> Town:
    """Return a town in which a test begins at once."""
    return Town(store)
