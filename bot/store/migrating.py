"""Bringing a database to another revision. Only what has to be brought there loads Alembic."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine

from bot.errors import DatabaseError
from bot.store.vault import Vault

_IN_TURN: Final = threading.Lock()
"""Alembic's context is one for the whole process, and several databases may be opened at once."""

_MIGRATIONS: Final = Path(__file__).parent / "migrations"
_ONE_AT_A_TIME: Final = 7_302_190_411_552_880_401
"""Names the lock under which one process migrates while the others wait (PostgreSQL)."""


def upgrade(engine: Engine, vault: Vault, to: str = "head") -> None:
    """Bring the database to a revision.

    Raises:
        DatabaseError: It was written by a newer program.
    """
    config = alembic_config()
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


def alembic_config() -> Config:
    """Return where Alembic finds the revisions."""
    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config
