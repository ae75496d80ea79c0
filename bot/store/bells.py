"""The bell between processes that share a PostgreSQL database: `NOTIFY`, and nothing of our own.

It carries names that chance made, and instants. Whatever is not heard is found by looking: the
leader does so every few seconds.
"""

import threading
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from typing import Any, Final

from sqlalchemy import Engine

from bot.runtime.alone import NoBell
from bot.runtime.ports import Bell, Woken
from bot.store.transaction import transaction

_CHANNEL: Final = "'wallside ' || current_schema()"
"""One channel for each clinic's part of a database."""

_LOOKED_UP_S: Final = 0.5
"""Seconds after which a listener sees that it is to end."""

_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)
_INSTANT: Final = timedelta(microseconds=1)
_LONGEST: Final = 7_000
"""Bytes; PostgreSQL carries less than 8,000 (its documentation of NOTIFY)."""


def bell_of(engine: Engine) -> Bell:
    """Return the bell of a database; where one process has it to itself, it rings for nobody."""
    return ServerBell(engine) if engine.dialect.name == "postgresql" else NoBell()


def written(woken: Woken) -> str:
    """Return what was woken as text; nothing, which means all, if it is too much."""
    words = [
        f"{name} {'-' if at is None else (at - _EPOCH) // _INSTANT}"
        for name, at in woken
        if name and " " not in name
    ]
    text = "\n".join(words)
    return text if len(text.encode()) <= _LONGEST else ""


def read(text: str) -> Woken:
    """Return what was woken."""
    pairs = (line.split(" ") for line in text.splitlines())
    return tuple(
        (name, None if at == "-" else _EPOCH + timedelta(microseconds=int(at)))
        for name, at in pairs
    )


class ServerBell:
    """Rings through a PostgreSQL server."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def ring(self, woken: Woken) -> None:
        """Say what was put down.

        Raises:
            UnavailableError: The database is gone.
        """
        with transaction(self._engine) as connection:
            text = f"SELECT pg_notify({_CHANNEL}, %(said)s)"
            connection.exec_driver_sql(text, {"said": written(woken)})

    def listen(self, heard: Callable[[Woken], None]) -> Callable[[], None]:
        """Call back whenever it rings, on a thread of its own."""
        over = threading.Event()
        thread = threading.Thread(target=self._listen, args=(heard, over), name="bell", daemon=True)
        thread.start()

        def end() -> None:
            over.set()
            thread.join(timeout=10 * _LOOKED_UP_S)

        return end

    def _listen(self, heard: Callable[[Woken], None], over: threading.Event) -> None:
        while not over.is_set():
            try:
                self._hear(heard, over)
            except Exception:  # gone; what rings meanwhile is found by looking
                over.wait(_LOOKED_UP_S)

    def _hear(self, heard: Callable[[Woken], None], over: threading.Event) -> None:
        connection = self._engine.raw_connection()
        connection.detach()  # it is no longer the pool's: it must not be lent to anybody else
        driver: Any = connection.dbapi_connection
        try:
            driver.autocommit = True
            (name,) = driver.execute(f"SELECT quote_ident({_CHANNEL})").fetchone()
            driver.execute(f"LISTEN {name}")
            heard(())  # whatever rang before
            while not over.is_set():
                for notify in driver.notifies(timeout=_LOOKED_UP_S, stop_after=1):
                    heard(read(notify.payload))
        finally:
            with suppress(Exception):
                driver.close()
