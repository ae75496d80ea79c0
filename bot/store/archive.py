"""Backups: every row as it stands, sealed texts still sealed, in one file for either database.

The file is gzip over lines of JSON: a heading, one line a row, and a last line with the number of
rows and a checksum of all before it. It holds no keys: without them it can be restored, but not
read. A backup of one kind of database can be restored into the other.
"""

import gzip
import hashlib
import json
import os
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any, Final

from sqlalchemy import Connection, Engine, Integer, MetaData, Table, func, insert, inspect, select
from sqlmodel import SQLModel

from bot.errors import DatabaseError
from bot.store.database import open_engine
from bot.store.keys import KeySource
from bot.store.revisions import known, revision_at
from bot.store.sqlite import SNAPSHOT
from bot.store.statements import MARK_KEY
from bot.store.vault import Vault

_FORMAT: Final = 1
_AT_A_TIME: Final = 500
_UNREADABLE: Final = (OSError, EOFError, ValueError, StopIteration, zlib.error)
_DAMAGED: Final = "The backup {path} is damaged or cut short: {what}. Use another one."


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What a backup holds.

    Attributes:
        revision: The revision of its database.
        made_at: When it was begun; it shows the database as it was then.
        rows: How many rows.
    """

    revision: str
    made_at: datetime
    rows: int


Progress = Callable[[int], None]
"""Told how many rows more are done."""


def back_up(engine: Engine, path: Path, *, progress: Progress = lambda _: None) -> Contents:
    """Write a backup of a database that may be in use meanwhile. Nobody waits for it.

    Raises:
        DatabaseError: There is a file of that name, or it cannot be written.
    """
    if path.exists():
        raise DatabaseError(f"There is a file {path} already; choose another name.")
    beside = path.with_name(path.name + ".part")
    try:
        only_mine = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(only_mine, "wb") as file:
            contents = _write(engine, file, progress)
            file.flush()
            os.fsync(file.fileno())
        beside.rename(path)
    except OSError as error:
        raise DatabaseError(f"The backup {path} cannot be written: {error.strerror}.") from error
    finally:
        beside.unlink(missing_ok=True)
    return contents


def contents_of(path: Path) -> Contents:
    """Read a whole backup, to see that it is sound.

    Raises:
        DatabaseError: It is no backup, damaged, or of a newer program.
    """
    return _looked_through(path)[0]


def restore(
    path: Path,
    where: Path | str,
    keys: KeySource,
    *,
    progress: Progress = lambda _: None,
) -> Contents:
    """Put a backup into an empty database, and bring it to the present revision.

    Args:
        path: The backup.
        where: A SQLite file, or the address of a PostgreSQL database.
        keys: The keys that were in use when the backup was made.
        progress: Told how far it is.

    Raises:
        DatabaseError: The backup is not sound, the database is not empty, or the keys do not fit.
        SettingsError: There are no keys.
    """
    contents, mark_keys = _looked_through(path)
    vault = Vault(keys, make=not mark_keys)
    for key in mark_keys:
        vault.unseal(key)  # before anything is made: these have to be the keys of the backup
    engine = open_engine(where, keys, to=contents.revision)
    try:
        with engine.begin() as connection:
            if not _is_new(connection, contents.revision):
                raise DatabaseError(
                    "There is a database already. Restore into a new one: move the old file away, "
                    "or name another folder in WALLSIDE_FOLDER, or another address in "
                    "WALLSIDE_DATABASE."
                )
            _fill(connection, path, progress)
    finally:
        engine.dispose()
    open_engine(where, keys).dispose()
    return contents


def _write(engine: Engine, file: IO[bytes], progress: Progress) -> Contents:
    made_at = datetime.now(UTC)
    digest = hashlib.sha256()
    rows = 0
    with gzip.GzipFile(fileobj=file, mode="wb", compresslevel=6, mtime=0) as packed:

        def write(line: object) -> None:
            text = json.dumps(line, separators=(",", ":")).encode() + b"\n"
            digest.update(text)
            packed.write(text)

        with _snapshot(engine) as connection:
            revision = revision_at(connection)
            assert revision is not None
            tables = _tables(connection)
            write(
                {
                    "wallside-backup": _FORMAT,
                    "revision": revision,
                    "made_at": made_at.isoformat(),
                    "columns": {table.name: table.columns.keys() for table in tables},
                }
            )
            for table in tables:
                names = list(table.primary_key.columns)
                found = connection.execution_options(yield_per=_AT_A_TIME).execute(
                    select(table).order_by(*names)
                )
                for some in found.partitions():
                    for row in some:
                        write([table.name, *row])
                    rows += len(some)
                    progress(len(some))
        last = {"rows": rows, "sha256": digest.hexdigest()}
        packed.write(json.dumps(last).encode() + b"\n")
    return Contents(revision=revision, made_at=made_at, rows=rows)


@contextmanager
def _snapshot(engine: Engine) -> Iterator[Connection]:
    """Open a connection that sees the database as it was at one instant, and hinders nobody."""
    options: dict[str, Any] = (
        {SNAPSHOT: True}
        if engine.dialect.name == "sqlite"
        else {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
    )
    with engine.connect().execution_options(**options) as connection, connection.begin():
        yield connection


def _tables(connection: Connection) -> list[Table]:
    """Return the tables as they stand in the database, those first that others refer to.

    Types are those of the database itself: nothing is opened on the way.
    """
    found = MetaData()
    names = set(SQLModel.metadata.tables) & set(inspect(connection).get_table_names())
    found.reflect(connection, only=sorted(names))
    return found.sorted_tables


def _read(path: Path) -> Iterator[tuple[dict[str, Any], str, list[Any]]]:
    """Yield heading, table and values of every row; sound to the last line, or an error."""
    heading = _heading(path)
    digest = hashlib.sha256()
    rows = 0
    last: Any = None
    try:
        with gzip.open(path, "rb") as lines:
            digest.update(next(lines))
            for text in lines:
                line = json.loads(text)
                if isinstance(line, dict):
                    last = line
                    break
                digest.update(text)
                rows += 1
                yield heading, line[0], line[1:]
            more = next(lines, None)
    except _UNREADABLE as error:
        what = type(error).__name__
        raise DatabaseError(_DAMAGED.format(path=path, what=what)) from error
    if last is None or more is not None:
        raise DatabaseError(_DAMAGED.format(path=path, what="its end is missing"))
    if last != {"rows": rows, "sha256": digest.hexdigest()}:
        raise DatabaseError(_DAMAGED.format(path=path, what="its checksum is another"))


def _looked_through(path: Path) -> tuple[Contents, list[str]]:
    """Return what a sound backup holds, and the sealed keys of its marks."""
    heading, rows, mark_keys = _heading(path), 0, []
    for _, name, values in _read(path):
        rows += 1
        if name == MARK_KEY.name:
            mark_keys.append(values[heading["columns"][name].index("key")])
    made_at = datetime.fromisoformat(heading["made_at"])
    return Contents(revision=heading["revision"], made_at=made_at, rows=rows), mark_keys


def _heading(path: Path) -> dict[str, Any]:
    try:
        with gzip.open(path, "rb") as lines:
            heading = json.loads(next(lines))
    except FileNotFoundError:
        raise DatabaseError(f"There is no file {path}.") from None
    except _UNREADABLE:
        raise DatabaseError(f"{path} is no backup of Wallside.") from None
    if not isinstance(heading, dict) or "wallside-backup" not in heading:
        raise DatabaseError(f"{path} is no backup of Wallside.")
    if heading["wallside-backup"] > _FORMAT:
        raise DatabaseError(f"The backup {path} was made by a newer Wallside; install that one.")
    known(heading["revision"])
    return heading


def _is_new(connection: Connection, revision: str) -> bool:
    """Whether nothing was ever put into a database, and it is at that revision."""
    return revision_at(connection) == revision and all(
        connection.execute(select(func.count()).select_from(table)).scalar() == 0
        for table in _tables(connection)
        if table.name != MARK_KEY.name
    )


def _fill(connection: Connection, path: Path, progress: Progress) -> None:
    tables = {table.name: table for table in _tables(connection)}
    for table in reversed(tables.values()):
        connection.execute(table.delete())  # what a new database begins with
    waiting: list[dict[str, Any]] = []
    of: Table | None = None
    for heading, name, values in _read(path):
        table = tables[name]
        if of is not None and (table is not of or len(waiting) == _AT_A_TIME):
            connection.execute(insert(of), waiting)
            progress(len(waiting))
            waiting = []
        of = table
        waiting.append(dict(zip(heading["columns"][name], values, strict=True)))
    if of is not None and waiting:
        connection.execute(insert(of), waiting)
        progress(len(waiting))
    if connection.dialect.name == "postgresql":
        for table in tables.values():
            _count_on(connection, table)


def _count_on(connection: Connection, table: Table) -> None:
    """Let a table that counts its rows go on after the last of them (PostgreSQL)."""
    (key, *more) = table.primary_key.columns
    if not more and isinstance(key.type, Integer):
        last = select(func.max(key)).scalar_subquery()
        connection.execute(
            select(func.setval(func.pg_get_serial_sequence(table.name, key.name), last))
        )
