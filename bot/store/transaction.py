"""One transaction on a database, whose faults are told in the project's own words."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DBAPIError, InterfaceError, InternalError, OperationalError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from bot.errors import ConflictError, UnavailableError

_TRY_AGAIN: Final = frozenset(
    {
        "40001",  # serialization_failure
        "40P01",  # deadlock_detected
        "55P03",  # lock_not_available
    }
)
"""States of PostgreSQL after which the same unit of work may well succeed (its appendix A)."""


@contextmanager
def transaction(engine: Engine) -> Iterator[Connection]:
    """Open a transaction: committed on leaving, rolled back on an exception.

    Raises:
        ConflictError: Another writer was in the way; the same may be tried again.
        UnavailableError: The database is gone, full, or may not be written to.
    """
    try:
        with engine.begin() as connection:
            yield connection
    except (DBAPIError, PoolTimeoutError) as error:
        raise _told(error) from error


@contextmanager
def part(connection: Connection, faults: list[DBAPIError]) -> Iterator[None]:
    """Open a part of a transaction: on an exception it alone is undone.

    A fault of the database itself is noted, since it may have undone the others too; then no
    further part is begun, and the whole is not to be committed.
    """
    if faults:
        raise faults[0]
    run = connection.connection.cursor().execute
    run("SAVEPOINT part")
    try:
        yield
        run("RELEASE part")
    except connection.dialect.loaded_dbapi.Error as error:
        fault = DBAPIError("", None, error)
        faults.append(fault)
        raise fault from error
    except DBAPIError as error:
        faults.append(error)
        raise
    except BaseException:
        run("ROLLBACK TO part")
        run("RELEASE part")
        raise


def _told(error: DBAPIError | PoolTimeoutError) -> Exception:
    if isinstance(error, PoolTimeoutError):
        return UnavailableError("All connections to the database are in use.")
    if getattr(error.orig, "sqlstate", None) in _TRY_AGAIN:
        return ConflictError(type(error.orig).__name__)
    gone = error.connection_invalidated
    if gone or isinstance(error, OperationalError | InterfaceError | InternalError):
        return UnavailableError(f"The database cannot be used just now: {error.orig}")
    return error
