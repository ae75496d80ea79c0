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


def _told(error: DBAPIError | PoolTimeoutError) -> Exception:
    if isinstance(error, PoolTimeoutError):
        return UnavailableError("All connections to the database are in use.")
    if getattr(error.orig, "sqlstate", None) in _TRY_AGAIN:
        return ConflictError(type(error.orig).__name__)
    gone = error.connection_invalidated
    if gone or isinstance(error, OperationalError | InterfaceError | InternalError):
        return UnavailableError(f"The database cannot be used just now: {error.orig}")
    return error
