"""The database: its settings, its revision, and what is said when it does not fit."""

from pathlib import Path

import pytest

from bot.errors import DatabaseError
from bot.store import open_store
from bot.store.revisions import newest_revision, revision_of


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    """A database at the present revision is left as it is."""
    path = tmp_path / "a.sqlite3"
    open_store(path).close()
    open_store(path).close()
    assert revision_of(path) == newest_revision()


def test_every_commit_is_synced(tmp_path: Path) -> None:
    """Each connection writes ahead, syncs fully, and holds to foreign keys."""
    store = open_store(tmp_path / "a.sqlite3")
    with store.engine.begin() as connection:
        pragmas = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }
    store.close()
    assert pragmas == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}


def test_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    """A file of another kind is refused in words, and left as it is."""
    path = tmp_path / "a.sqlite3"
    path.write_bytes(b"this is no database, only a letter to a friend" * 100)
    before = path.read_bytes()
    with pytest.raises(DatabaseError, match="cannot be used"):
        open_store(path)
    assert path.read_bytes() == before
