"""What a store holds, as whoever has its keys sees it."""

from sqlalchemy import delete, select
from sqlmodel import SQLModel

from bot.runtime.ports import Store
from bot.store.sql import SqlStore
from bot.testing.memory import MemoryStore

TABLES = ("conversation", "event", "outbox", "result", "invitation", "companion_link", "item")
"""Every table that holds something of a person; the team's log holds no more than their ids."""


def held(store: Store) -> dict[str, list[str]]:
    """Return every row of every table that holds something of a person, opened, as text."""
    if isinstance(store, MemoryStore):
        shelves = store.shelves
        return {
            "conversation": [str(row) for row in shelves.conversations.items()],
            "event": [str(event) for events in shelves.events.values() for event in events],
            "outbox": [str(row) for row in shelves.outbox.items()],
            "result": [str(row) for row in shelves.results.items()],
            "invitation": [str(row) for row in shelves.invitations.items()],
            "companion_link": [str(row) for row in shelves.links.items()],
            "item": [str(row) for row in shelves.team.items.items()],
        }
    assert isinstance(store, SqlStore)
    with store.engine.begin() as connection:
        return {
            name: [str(row) for row in connection.execute(select(SQLModel.metadata.tables[name]))]
            for name in TABLES
        }


def dump(store: Store) -> str:
    """Return all that is held of people, opened, as text."""
    return "\n".join(row for rows in held(store).values() for row in rows)


def rows(store: Store) -> dict[str, int]:
    """Count what is held of people."""
    return {name: len(found) for name, found in held(store).items()}


def empty(store: SqlStore) -> None:
    """Delete every row but the keys of marks; the log refuses that, until its guards are down."""
    on_server = store.engine.dialect.name == "postgresql"
    with store.engine.begin() as connection:
        guards: list[tuple[str, str]] = []
        if on_server:
            connection.exec_driver_sql("ALTER TABLE audit DISABLE TRIGGER USER")
        else:
            found = connection.exec_driver_sql(
                "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
            )
            guards = [(name, text) for name, text in found]
            for name, _ in guards:
                connection.exec_driver_sql(f"DROP TRIGGER {name}")
        for table in reversed(SQLModel.metadata.sorted_tables):
            if table.name != "mark_key":
                connection.execute(delete(table))
        for _, text in guards:
            connection.exec_driver_sql(text)
        if on_server:
            connection.exec_driver_sql("ALTER TABLE audit ENABLE TRIGGER USER")
