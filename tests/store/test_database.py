"""The database: its settings, its revision, and what is said when it does not fit."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlmodel import SQLModel

from bot.errors import DatabaseError
from bot.store import open_store, tables
from bot.store.database import connect, open_engine
from bot.store.revisions import newest_revision, revision


def test_migrations_make_the_tables_that_the_program_uses(tmp_path: Path) -> None:
    """After all migrations nothing is left to be migrated."""
    engine = open_engine(tmp_path / "a.sqlite3")
    assert tables.ConversationRow.__tablename__ in SQLModel.metadata.tables
    with engine.begin() as connection:
        context = MigrationContext.configure(connection)
        differences = compare_metadata(context, SQLModel.metadata)
    engine.dispose()
    assert differences == []


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    """A database at the present revision is left as it is."""
    path = tmp_path / "a.sqlite3"
    open_store(path).close()
    open_store(path).close()
    engine = connect(path)
    assert revision(engine) == newest_revision()
    engine.dispose()


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


def test_database_of_a_newer_program_is_refused(tmp_path: Path) -> None:
    """An unknown revision is refused with words that help, and nothing is changed."""
    path = tmp_path / "a.sqlite3"
    open_store(path).close()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    with pytest.raises(DatabaseError, match="newer Wallside"):
        open_store(path)


def test_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    """A file of another kind is refused in words, and left as it is."""
    path = tmp_path / "a.sqlite3"
    path.write_bytes(b"this is no database, only a letter to a friend" * 100)
    before = path.read_bytes()
    with pytest.raises(DatabaseError, match="cannot be used"):
        open_store(path)
    assert path.read_bytes() == before
