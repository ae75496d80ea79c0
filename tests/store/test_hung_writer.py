"""Two desks on one PostgreSQL: whose writer alone hangs, hands over, and can be used again."""

import asyncio
from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from sqlalchemy import select

from bot.bootstrap import desk_for
from bot.engine.context import Context
from bot.engine.events import Opened, WordsGiven
from bot.runtime.clock import SystemClock
from bot.runtime.desk import Desk
from bot.runtime.ports import Inbound
from bot.store import open_store
from bot.store.bells import bell_of
from bot.store.keys import GivenKeys, new_key
from bot.store.leadership import ServerLeadership
from bot.store.sql import SqlStore
from bot.store.statements import LEAD
from bot.testing.channel import KeepingChannel
from tests.store.server import PostgresServer

HANGS = timedelta(seconds=1.5)
ASKED_TWICE = 1.2
"""Seconds in which whoever does not lead has tried to twice."""

SECONDS = 10.0
"""Far less than the statement below would take."""


def desk_on(store: SqlStore) -> tuple[Desk, KeepingChannel]:
    """Return a desk that soon takes its writer to hang, and what it sends."""
    channel = KeepingChannel()
    lead = ServerLeadership(store.engine, "a", hangs=HANGS)
    bell = bell_of(store.engine)
    desk = desk_for(store, channel, SystemClock(), Context(), leadership=lead, bell=bell)
    return desk, channel


async def until(holds: Callable[[], bool]) -> None:
    """Wait until something holds."""
    async with asyncio.timeout(SECONDS):
        while not holds():
            await asyncio.sleep(0.02)


async def test_writer_that_hangs_alone_is_followed_and_freed(
    server: PostgresServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another leads within seconds, though the statement that hangs has locked the lead's own row.

    The statement is ended, so that the one who hung takes arrivals again; the lead stays where it
    is, and what each is told is sent once.
    """
    hung = list[str]()
    monkeypatch.setattr("bot.runtime.desk._ANSWERS_WITHIN", HANGS.total_seconds() / 3)
    with server.schema() as place:
        keys = GivenKeys(new_key())
        stores = [open_store(place, keys) for _ in range(2)]
        looks = stores[0].next_parcel_at

        def hang() -> datetime | None:
            if hung:
                return looks()
            hung.append("once")
            with stores[0].engine.begin() as connection:
                connection.execute(select(LEAD).with_for_update())
                connection.exec_driver_sql("SELECT pg_sleep(600)")
            raise AssertionError("it was never ended")

        (one, said), (other, said_by_other) = map(desk_on, stores)
        async with one.at_work():
            await until(lambda: one.leading)
            async with other.at_work():
                now = SystemClock().now()
                await other.take(Inbound(key="0", address="test:1", event=Opened(at=now)))
                await until(lambda: len(said.sent) == 1)
                await until(lambda: set(stores[1].waiting().values()) <= {0})
                monkeypatch.setattr(stores[0], "next_parcel_at", hang)
                begins = asyncio.create_task(one.unwell())  # unless the courier was faster
                await until(lambda: hung == ["once"])
                asked = asyncio.create_task(one.unwell())
                await until(lambda: other.leading)
                words = WordsGiven(at=now, text="34", source="1")
                await one.take(Inbound(key="1", address="test:1", event=words))
                await until(lambda: len(said_by_other.sent) == 1)
                await asyncio.sleep(ASKED_TWICE)
                with stores[0].engine.begin() as connection:
                    epochs = connection.execute(select(LEAD.c.epoch)).scalars().all()
                roles = (one.role(), other.role())
                assert await asked != [], "its health says so meanwhile"
                await begins
        for store in stores:
            store.close()
    assert roles == ("standby", "leader")
    assert epochs == [2], "it went from one to the other, once"
    assert len(said.sent) == len(said_by_other.sent) == 1
