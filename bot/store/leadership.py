"""Who sends and keeps time: one process for each bot, however many share its database.

The messenger allows one bot about thirty messages a second, so that one sender is enough, and
with one sender the order of a person's messages cannot be lost. Clinics spread over machines,
since each bot has its own leader.

On PostgreSQL the leader holds an advisory lock on a connection of its own. The server drops that
connection when it has been silent for `SILENCE`: so a process that hangs, or a machine that is
gone, is followed by another within seconds, and it needs no clock but the server's. A leader
that wakes up late knows by its own clock that it may have been followed. One whose writer alone
hangs lets go by itself, and ends what its own sessions hang in: their locks would else keep the
next one from its first step.

On SQLite there is one machine, and the lock is on a file beside the database.
"""

import hashlib
import os
import time
from collections.abc import Callable
from contextlib import suppress
from datetime import timedelta
from pathlib import Path
from typing import Any, Final

import structlog
from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError

from bot.runtime.ports import Leadership

SILENCE: Final = timedelta(seconds=5)
"""After this much silence of the leader another may follow (design choice: prompts are then
a few seconds late, and a pause of the machine for a second changes nothing)."""

HANGS: Final = timedelta(seconds=7)
"""A writer that has not got on for this long hangs (design choice). It is more than a try may wait
for a lock (`_SETTINGS` in postgres.py), so that waiting for others is never taken for hanging; a
backlog is not, since each piece of it that is done counts, and a store that is away is not, since
the pauses between two tries are nobody's work."""

TRUST: Final = 0.6
"""For which share of `SILENCE` a leader trusts that it still leads without having asked."""

AFRESH: Final = 0.2
"""Which share of `SILENCE` an answer may be old before the server is asked again."""

_END_OURS: Final = """
SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity
WHERE application_name = current_setting('application_name') AND pid <> pg_backend_pid()
AND usename = current_user AND xact_start < clock_timestamp() - %s * interval '1 second'
"""
"""Ends the sessions of this process (`connect` in postgres.py gives it a name of its own) whose
transaction is as old."""

_log = structlog.get_logger("wallside.lead")


def tick() -> float:
    """Return seconds of a clock that runs on while the process or the whole machine sleeps."""
    return time.clock_gettime(getattr(time, "CLOCK_BOOTTIME", time.CLOCK_MONOTONIC))


def leadership(engine: Engine, bot: str) -> Leadership:
    """Return the leadership for a bot among all that share a database.

    Args:
        engine: An engine on the database.
        bot: Names the bot; not secret.
    """
    if engine.dialect.name == "postgresql":
        return ServerLeadership(engine, bot)
    path = Path(str(engine.url.database))
    mark = hashlib.sha256(bot.encode()).hexdigest()[:12]
    return FileLeadership(path.with_name(f"{path.name}-leader-{mark}"))


class FileLeadership:
    """A lock on a file. It goes with the process, however that ends."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: int | None = None

    def acquire(self, hung_for: float = 0.0) -> bool:
        """Try to lead; True if we do. The file is ours alone, so a hung writer is no matter."""
        del hung_for
        if self._file is not None:
            return True
        file = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        if _locked(file):
            self._file = file
            return True
        os.close(file)
        return False

    def held(self, hung_for: float = 0.0) -> bool:
        """Whether we lead; that a writer hangs changes nothing, since nobody could follow."""
        del hung_for
        return self._file is not None

    def trusted(self) -> bool:
        """Whether we may still act on the last answer."""
        return self._file is not None

    def release(self) -> None:
        """Let another lead."""
        if self._file is not None:
            os.close(self._file)
            self._file = None


class ServerLeadership:
    """An advisory lock of PostgreSQL, on a connection that the server drops when it is silent."""

    def __init__(
        self,
        engine: Engine,
        bot: str,
        *,
        silence: timedelta = SILENCE,
        hangs: timedelta = HANGS,
        tick: Callable[[], float] = tick,
    ) -> None:
        """Take the database and the bot.

        Args:
            engine: An engine on the database.
            bot: Names the bot.
            silence: After how much silence another may follow.
            hangs: A writer that has not got on for so long hangs.
            tick: Seconds of a clock that runs on while the process is stopped.
        """
        self._silence = silence.total_seconds()
        self._hangs = hangs.total_seconds()
        self._engine = engine
        self._bot = bot
        self._tick = tick
        self._connection: Any = None
        self._waiting: Any = None
        self._asked_at = 0.0

    def acquire(self, hung_for: float = 0.0) -> bool:
        """Try to lead; True if we do. A database that is gone has no leader."""
        if self._connection is not None:
            return self.held(hung_for)
        if hung_for > self._hangs:
            self._drop()
            return False
        asked_at = self._tick()
        try:
            connection = self._locked()
        except Exception as error:
            if _is_of_the_database(self._engine, error):
                return False
            raise
        self._connection, self._asked_at = connection, asked_at
        return connection is not None

    def held(self, hung_for: float = 0.0) -> bool:
        """Whether we lead; with a writer that hangs, no more."""
        if self._connection is None:
            return False
        if hung_for > self._hangs:
            self._give_up(hung_for)
            return False
        now = self._tick()
        silent = now - self._asked_at
        if silent < AFRESH * self._silence:
            return True
        if silent > TRUST * self._silence:
            self._drop()  # we may have been followed: whatever the server would say now
            return False
        try:
            self._connection.execute("SELECT 1")
        except Exception as error:
            self._drop()
            if _is_of_the_database(self._engine, error):
                return False
            raise
        self._asked_at = now
        return True

    def trusted(self) -> bool:
        """Whether we may still act on the last answer."""
        if self._connection is None:
            return False
        return self._tick() - self._asked_at <= TRUST * self._silence

    def release(self) -> None:
        """Let another lead, at once."""
        connection, self._connection = self._connection, None
        if connection is not None:
            with suppress(Exception):  # closing alone lets go as well, a little later
                connection.execute("SELECT pg_advisory_unlock_all()")
                connection.close()
        self._drop()

    def _give_up(self, hung_for: float) -> None:
        """Let another lead, and end what our own sessions hang in, so that nothing is locked."""
        _log.warning("the writer hangs: another may lead", seconds=round(hung_for, 1))
        connection, self._connection = self._connection, None
        with suppress(Exception):  # a session that cannot be ended now is the server's to end
            connection.execute(_END_OURS, (self._hangs,))
        with suppress(Exception):
            connection.close()
        self._drop()

    def _drop(self) -> None:
        """Close what is open."""
        for connection in (self._connection, self._waiting):
            if connection is not None:
                with suppress(Exception):
                    connection.close()
        self._connection = self._waiting = None

    def _locked(self) -> Any:
        """Return a connection that holds the lock; `None` when somebody else leads."""
        if self._waiting is None:
            self._waiting = self._opened()
        try:
            row = self._waiting.execute(
                "SELECT pg_try_advisory_lock(hashtextextended(current_schema() || ' ' || %s, 0))",
                (f"wallside {self._bot}",),
            ).fetchone()
        except Exception:
            self._drop()
            raise
        if not row[0]:
            return None  # the connection is kept for the next try
        driver, self._waiting = self._waiting, None
        return driver

    def _opened(self) -> Any:
        """Return a connection that the server drops when it is silent."""
        connection = self._engine.raw_connection()
        connection.detach()  # it is no longer the pool's: it must not be lent to anybody else
        driver: Any = connection.dbapi_connection
        try:
            driver.autocommit = True
            driver.execute(f"SET idle_session_timeout = {int(self._silence * 1000)}")
        except Exception:
            connection.close()
            raise
        return driver


def _is_of_the_database(engine: Engine, error: Exception) -> bool:
    driver: Any = engine.dialect.dbapi
    return isinstance(error, SQLAlchemyError | driver.Error)


def _locked(file: int) -> bool:
    """Lock an open file for this process; False when another has it."""
    try:
        import fcntl  # noqa: PLC0415 - not every system has it
    except ModuleNotFoundError:
        return True  # there, one process is all that is run
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
