"""SQLite: the settings that durability rests on, and leaving nothing behind of what is deleted."""

from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Engine, create_engine, event, text

from bot.store.prepared import Prepared

_BUSY_MS: Final = 10_000

_BEGIN: Final = Prepared(text("BEGIN IMMEDIATE"))
_BEGIN_READING: Final = Prepared(text("BEGIN"))

SNAPSHOT: Final = "wallside_snapshot"
"""The execution option of a connection that only reads, all of it as at one instant."""


def connect(path: Path) -> Engine:
    """Return an engine on a SQLite file: write-ahead log, a full sync at each commit."""
    engine = create_engine(f"sqlite:///{path}")
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def locks_whole(connection: Connection) -> bool:
    """Whether a transaction locks the whole database as it begins, so that no row needs a lock."""
    return connection.dialect.name == "sqlite"


def leave_no_trace(engine: Engine) -> bool:
    """Bring the write-ahead log into the file and empty it, so that it holds nothing deleted.

    False when somebody else is reading: then the log is emptied another time.
    """
    busy, *_ = _raw(engine, "PRAGMA wal_checkpoint(TRUNCATE)")[0]
    return not busy


def rewrite(engine: Engine) -> None:
    """Write the whole file anew, without what was left in it by deleting and changing."""
    _raw(engine, "VACUUM")
    leave_no_trace(engine)


def _raw(engine: Engine, statement: str) -> list[Any]:
    """Run a statement outside any transaction."""
    connection = engine.raw_connection()
    try:
        cursor = connection.cursor()
        rows: list[Any] = cursor.execute(statement).fetchall()
        cursor.close()
        return rows
    finally:
        connection.close()


def _on_connect(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # we begin transactions ourselves, see _on_begin
    for pragma in (
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
        "secure_delete=ON",  # what is deleted is overwritten
        f"busy_timeout={_BUSY_MS}",
    ):
        connection.execute(f"PRAGMA {pragma}").close()


def _on_begin(connection: Any) -> None:
    # At once the write lock: a transaction that reads first and writes later could fail half-way.
    reads_only = connection.get_execution_options().get(SNAPSHOT, False)
    (_BEGIN_READING if reads_only else _BEGIN).run(connection)
