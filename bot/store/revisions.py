"""The revision of a database: what it is at, and whether this program knows it."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, inspect

from bot.errors import DatabaseError
from bot.store import postgres
from bot.store.transaction import transaction

REVISIONS: Final = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008", "0009")
"""All that there ever were, the newest last, as in `migrations`: written out here so that a
database that is at the newest is opened without loading what migrates."""

_TABLE: Final = "alembic_version"
_WHICH: Final = f"SELECT version_num FROM {_TABLE}"  # noqa: S608 - a name of ours
_TOO_NEW: Final = (
    "The database is at revision {found}, which this program does not know: a newer "
    "Wallside wrote it. Install that version, or restore a backup made before it."
)


def revision_at(connection: Connection) -> str | None:
    """Return the revision that a database is at; `None` for an empty one.

    Raises:
        DatabaseError: It was written by a newer program.
    """
    if not inspect(connection).has_table(_TABLE):
        return None
    return known(connection.exec_driver_sql(_WHICH).scalar())


def revision_of(where: Path | str) -> str | None:
    """Return the revision of a database, which is only read.

    Args:
        where: A SQLite file that is there, or the address of a PostgreSQL database.

    Raises:
        DatabaseError: It was written by a newer program, or the server does not answer.
        sqlite3.DatabaseError: It is no database.
    """
    if isinstance(where, str):
        engine = postgres.connect(where)
        try:
            with transaction(engine) as connection:
                return revision_at(connection)
        finally:
            engine.dispose()
    with closing(sqlite3.connect(f"file:{where}?mode=ro", uri=True)) as file:
        tables = "SELECT count(*) FROM sqlite_master WHERE name = ?"
        if not file.execute(tables, (_TABLE,)).fetchone()[0]:
            return None
        row = file.execute(_WHICH).fetchone()
    return known(row[0] if row else None)


def known(found: str | None) -> str | None:
    """Return a revision that this program knows.

    Raises:
        DatabaseError: It does not: a newer program wrote it.
    """
    if found is not None and found not in REVISIONS:
        raise DatabaseError(_TOO_NEW.format(found=found))
    return found


def newest_revision() -> str:
    """Return the revision that this program writes."""
    return REVISIONS[-1]
