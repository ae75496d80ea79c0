"""A clinic with nobody in it yet."""

from collections.abc import Iterator

import pytest

from bot.store.sql import SqlStore
from tests.care.clinic import Clinic
from tests.shelf import Shelf


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """Return a place for stores."""
    return Shelf(tmp_path_factory.mktemp("care"))


@pytest.fixture
def store(shelf: Shelf) -> Iterator[SqlStore]:
    """Return a store of its own for a test."""
    opened = shelf.fresh()
    yield opened
    opened.close()


@pytest.fixture
def operated(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the operator's commands work on the clinic's own database."""
    monkeypatch.setenv("WALLSIDE_FOLDER", str(shelf.folder))
    monkeypatch.setenv("WALLSIDE_BOT_NAME", "harbour_street_bot")
    monkeypatch.setenv("WALLSIDE_TEAM", "true")


@pytest.fixture
def clinic(store: SqlStore) -> Clinic:
    """Return a clinic with a team of nobody."""
    return Clinic(store)
