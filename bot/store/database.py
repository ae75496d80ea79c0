"""Opening a database: the settings that durability rests on, and its revision."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any, Final

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, create_engine, event
from sqlalchemy.exc import DBAPIError

from bot.errors import DatabaseError
from bot.store.sql import SqlStore

_MIGRATIONS: Final = Path(__file__).parent / "migrations"
_TOO_NEW: Final = (
    "The database is at revision {found}, which this program does not know: a newer "
    "Wallside wrote it. Install that version, or restore a backup made before it."
)
_BUSY_MS: Final = 10_000


def open_store(path: Path) -> SqlStore:
    """Return the store in a SQLite file, brought to the present revision.

    Raises:
        DatabaseError: The file is of a newer program, or cannot be used.
    """
    engine = connect(path)
    try:
        upgrade(engine)
    except DBAPIError as error:
        engine.dispose()
        raise DatabaseError(f"The database {path} cannot be used: {error.orig}") from error
    except DatabaseError:
        engine.dispose()
        raise
    return SqlStore(engine)


def connect(path: Path) -> Engine:
    """Return an engine on a SQLite file: write-ahead log, a full sync at each commit."""
    engine = create_engine(f"sqlite:///{path}")
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def _on_connect(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # we begin transactions ourselves, see _on_begin
    for pragma in (
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
        f"busy_timeout={_BUSY_MS}",
    ):
        connection.execute(f"PRAGMA {pragma}").close()


def _on_begin(connection: Any) -> None:
    # At once the write lock: a transaction that reads first and writes later could fail half-way.
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def upgrade(engine: Engine) -> None:
    """Bring the database to the present revision.

    Raises:
        DatabaseError: It was written by a newer program.
    """
    config = _config()
    found = revision(engine)
    if found is not None and found not in _known(config):
        raise DatabaseError(_TOO_NEW.format(found=found))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def revision(engine: Engine) -> str | None:
    """Return the revision that the database is at; `None` for an empty one."""
    with engine.begin() as connection:
        return MigrationContext.configure(connection).get_current_revision()


def revision_of(path: Path) -> str | None:
    """Return the revision of a database file, which is only read.

    Raises:
        DatabaseError: It is of a newer program.
        sqlite3.DatabaseError: It is no database.
    """
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as connection:
        tables = "SELECT count(*) FROM sqlite_master WHERE name = 'alembic_version'"
        if not connection.execute(tables).fetchone()[0]:
            return None
        row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    found = row[0] if row else None
    if found not in {None, *_known(_config())}:
        raise DatabaseError(_TOO_NEW.format(found=found))
    return found


def newest_revision() -> str | None:
    """Return the revision that this program writes."""
    return ScriptDirectory.from_config(_config()).get_current_head()


def _known(config: Config) -> set[str]:
    return {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config
