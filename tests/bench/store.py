"""What the store costs: durable updates a second, for each kind, in ratios of one run.

`python -m tests.bench.store` (PostgreSQL from the tests' own server, with syncs). One update is
what one message of a person comes to: inbox, event, conversation, outbox, alarm, all in one
transaction that is on disk, and the answer claimed and settled. The plain column is the same
SQLite store whose vault seals nothing: the difference is what sealing costs.
"""

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.table import Table

from bot.engine.context import Context
from bot.engine.events import Event, WordsGiven
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Inbound, Sent, Store
from bot.store import open_store
from bot.store.keys import GivenKeys, new_key
from bot.store.vault import Vault
from bot.testing.memory import MemoryStore
from bot.texts import language_for
from tests.store.server import PostgresServer

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
STEPS: Final = ("hello", "34", "ready", "i am lying down", "where", "help", "where", "dizzy")
"""What each person types; the engine's part in it is measured by itself, with the memory store."""

PEOPLE: Final = 40
ROUNDS: Final = 3


class Plain(Vault):
    """A vault that stands open, to measure what sealing costs."""

    def seal(self, text: str) -> str:
        """Return the text as it is."""
        return text

    def unseal(self, sealed: str) -> str:
        """Return the text as it is."""
        return super().unseal(sealed) if sealed.startswith("gAAAA") else sealed


def updates(store: Store, start: int, *, sending: bool) -> tuple[float, float]:
    """Let people type; returns seconds of CPU and by the clock for each message."""
    names = count(start * 1000)
    conductor = Conductor(
        store,
        Context(),
        new_id=lambda: f"c{next(names)}",
        language_for=language_for,
    )
    spent, begun, done = time.process_time(), time.perf_counter(), 0
    for step, words in enumerate(STEPS):
        at = NOW + timedelta(seconds=step)
        for person in range(start, start + PEOPLE):
            event: Event = WordsGiven(at=at, text=words, source=str(step))
            address = f"telegram:{person}"
            conductor.handle(Inbound(key=f"{person} {step}", address=address, event=event))
            done += 1
            while sending and (parcel := store.claim_parcel(at, timedelta(minutes=1))):
                store.settle(parcel, Sent("r"), at)
    return (time.process_time() - spent) / done, (time.perf_counter() - begun) / done


@contextmanager
def sqlite(*, sealed: bool) -> Iterator[Store]:
    """Open a store in a file, as it ships or with nothing sealed."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "a.sqlite3")
        if not sealed:
            vault: Vault = store.engine.dialect._wallside_vault  # type: ignore[attr-defined]
            vault.__class__ = Plain
        yield store
        store.close()


@contextmanager
def postgres() -> Iterator[Store]:
    """Open a store on a server that syncs every commit."""
    server = PostgresServer(syncs=True)
    try:
        store = open_store(server.url(), GivenKeys(new_key()))
        yield store
        store.close()
    finally:
        server.remove()


@contextmanager
def memory() -> Iterator[Store]:
    """Open a store that keeps nothing: what is left is the engine's part."""
    yield MemoryStore()


KINDS: Final[dict[str, Callable[[], object]]] = {
    "memory (engine alone)": memory,
    "SQLite, nothing sealed": lambda: sqlite(sealed=False),
    "SQLite": lambda: sqlite(sealed=True),
    "PostgreSQL": postgres,
}


def main() -> None:
    """Print the table."""
    sending = "--taking-only" not in sys.argv
    table = Table(title=f"Durable updates, {'sent as well' if sending else 'taken only'}")
    for heading in ("store", "a second", "of SQLite", "CPU ms each", "of SQLite"):
        table.add_column(heading, justify="right")
    best: dict[str, tuple[float, float]] = {}
    opened = {name: kind() for name, kind in KINDS.items()}
    stores = {name: each.__enter__() for name, each in opened.items()}  # type: ignore[attr-defined]
    for store in stores.values():
        updates(store, 0, sending=sending)  # what is only paid once
    for number in range(1, ROUNDS + 1):  # in turns, so that all meet the same machine
        for name, store in stores.items():
            found = updates(store, number * 1000, sending=sending)
            best[name] = min(found, best.get(name, found), key=lambda pair: pair[1])
    for each in opened.values():
        each.__exit__(None, None, None)  # type: ignore[attr-defined]
    cpu, wall = best["SQLite"]
    for name, (spent, took) in best.items():
        table.add_row(
            name,
            f"{1 / took:,.0f}",
            f"{wall / took:.2f}",
            f"{spent * 1000:.2f}",
            f"{spent / cpu:.2f}",
        )
    Console().print(table)


if __name__ == "__main__":
    main()
