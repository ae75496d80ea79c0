"""Opening a database, wherever it is: its revision, its keys, and the store on it."""

from pathlib import Path

from sqlalchemy import Engine, inspect
from sqlalchemy.exc import DBAPIError

from bot.errors import DatabaseError
from bot.store import postgres, sqlite
from bot.store.keys import KEY_FILE, GivenKeys, KeyFile, KeySource
from bot.store.marks import read_mark_keys
from bot.store.revisions import newest_revision, revision_at
from bot.store.sql import SqlStore
from bot.store.statements import MARK_KEY
from bot.store.vault import Vault, fit


def open_store(where: Path | str, keys: KeySource | None = None) -> SqlStore:
    """Return the store in a database, brought to the present revision.

    Args:
        where: A SQLite file, or the address of a PostgreSQL database.
        keys: What it is sealed with; without them a key file beside the SQLite file, which is
            made for a new database.

    Raises:
        DatabaseError: It is of a newer program, cannot be used, or the keys do not fit.
        SettingsError: There are no keys that can be used.
    """
    return SqlStore(open_engine(where, keys))


def open_engine(where: Path | str, keys: KeySource | None = None, *, to: str = "head") -> Engine:
    """Return an engine on a database, brought to a revision, with its vault.

    Raises:
        DatabaseError: It is of a newer program, cannot be used, or the keys do not fit.
        SettingsError: There are no keys that can be used.
    """
    engine = connect(where)
    try:
        _open(engine, keys or _keys_beside(where), to)
    except DBAPIError as error:
        engine.dispose()
        name = where if isinstance(where, Path) else engine.url.render_as_string()
        raise DatabaseError(f"The database {name} cannot be used: {error.orig}") from error
    except Exception:
        engine.dispose()
        raise
    return engine


def connect(where: Path | str) -> Engine:
    """Return an engine on a SQLite file or on a PostgreSQL database, as it stands.

    Raises:
        SettingsError: There can be no such database.
    """
    return sqlite.connect(where) if isinstance(where, Path) else postgres.connect(where)


def rewrite(engine: Engine) -> None:
    """Write a database anew, so that nothing is left of what was deleted or changed in it."""
    if engine.dialect.name == "sqlite":
        sqlite.rewrite(engine)
    else:
        postgres.rewrite(engine, whole=True)


def _open(engine: Engine, source: KeySource, to: str) -> None:
    with engine.begin() as connection:
        before = revision_at(connection)
        sealed = inspect(connection).has_table(MARK_KEY.name)
        vault = Vault(source, make=not sealed)
        fit(engine, vault)
        if sealed:
            read_mark_keys(connection, vault)
    if before == newest_revision():
        return
    from bot.store.migrating import upgrade  # noqa: PLC0415 - importing it takes long

    upgrade(engine, vault, to)
    with engine.begin() as connection:
        if inspect(connection).has_table(MARK_KEY.name):
            read_mark_keys(connection, vault)  # another process may have been faster
    if before is not None and not sealed:
        rewrite(engine)  # the words that stood open are not to stay in the file


def _keys_beside(where: Path | str) -> KeySource:
    return KeyFile(where.with_name(KEY_FILE)) if isinstance(where, Path) else GivenKeys("")
