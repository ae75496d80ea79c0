"""The revision of a database: what it is at, and how it is brought to the present one."""

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from functools import cache
from pathlib import Path
from typing import Final

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine

from bot.errors import DatabaseError
from bot.store import postgres
from bot.store.transaction import transaction
from bot.store.vault import Vault

_IN_TURN: Final = threading.Lock()
"""Alembic's context is one for the whole process, and several databases may be opened at once."""

_MIGRATIONS: Final = Path(__file__).parent / "migrations"
_TOO_NEW: Final = (
    "The database is at revision {found}, which this program does not know: a newer "
    "Wallside wrote it. Install that version, or restore a backup made before it."
)
_ONE_AT_A_TIME: Final = 7_302_190_411_552_880_401
"""Names the lock under which one process migrates while the others wait (PostgreSQL)."""


def upgrade(engine: Engine, vault: Vault, to: str = "head") -> None:
    """Bring the database to a revision.

    Raises:
        DatabaseError: It was written by a newer program.
    """
    config = _config()
    with _to_migrate(engine) as connection:
        config.attributes["connection"] = connection
        config.attributes["vault"] = vault
        with _IN_TURN:
            command.upgrade(config, to)


@contextmanager
def _to_migrate(engine: Engine) -> Iterator[Connection]:
    """Open a transaction in which tables may be made anew, by one process at a time."""
    with engine.connect() as connection:
        if connection.dialect.name == "postgresql":
            with connection.begin():
                connection.exec_driver_sql("SET LOCAL lock_timeout = 0")
                connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_ONE_AT_A_TIME})")
                yield connection
            return
        # A table that is made anew must not take with it what refers to it. SQLite lets this be
        # switched only between transactions (its documentation of ALTER TABLE, section 7).
        file = connection.connection.cursor()
        file.execute("PRAGMA foreign_keys=OFF")
        try:
            with connection.begin():
                yield connection
                if connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
                    raise DatabaseError("The database holds rows that refer to nothing.")
        finally:
            file.execute("PRAGMA foreign_keys=ON")
            file.close()


def revision_at(connection: Connection) -> str | None:
    """Return the revision that a database is at; `None` for an empty one.

    Raises:
        DatabaseError: It was written by a newer program.
    """
    return known(MigrationContext.configure(connection).get_current_revision())


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
        tables = "SELECT count(*) FROM sqlite_master WHERE name = 'alembic_version'"
        if not file.execute(tables).fetchone()[0]:
            return None
        row = file.execute("SELECT version_num FROM alembic_version").fetchone()
    return known(row[0] if row else None)


def known(found: str | None) -> str | None:
    """Return a revision that this program knows.

    Raises:
        DatabaseError: It does not: a newer program wrote it.
    """
    if found is not None and found not in {s.revision for s in _scripts().walk_revisions()}:
        raise DatabaseError(_TOO_NEW.format(found=found))
    return found


def newest_revision() -> str | None:
    """Return the revision that this program writes."""
    return _scripts().get_current_head()


@cache
def _scripts() -> ScriptDirectory:
    return ScriptDirectory.from_config(_config())


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config
