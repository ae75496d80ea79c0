"""Blocking the bot and letting it back, as the messenger tells of it, fetched and posted."""

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
import telegram
from telegram import Update

from bot.bootstrap import desk_for
from bot.channels.telegram.inbound import address_of, inbound_from
from bot.channels.telegram.outbound import TelegramChannel
from bot.channels.telegram.polling import poll, signed_in
from bot.channels.telegram.webhook import listening
from bot.engine.context import Context
from bot.engine.events import Blocked, Unblocked
from bot.engine.state import Conversation
from bot.runtime.clock import StandingClock, SystemClock
from bot.runtime.ports import Store
from bot.store import open_store
from tests.channels.test_webhook import a_free_port, hook
from tests.telegram_api import BotApiServer, Person
from tests.telegram_api.faults import forbidden


@pytest.fixture
async def server() -> AsyncIterator[BotApiServer]:
    """Run the Bot API server."""
    async with BotApiServer() as running:
        yield running


@asynccontextmanager
async def at_work(server: BotApiServer, folder: Path, port: int = 0) -> AsyncIterator[Store]:
    """Let everything run over a store that stays: fetching, or with a port listening."""
    store, clock = open_store(folder / "wallside.sqlite3"), SystemClock()
    bot = telegram.Bot(server.token, base_url=server.base_url)
    desk = desk_for(store, TelegramChannel(bot), clock, Context())
    async with signed_in(bot), desk.at_work():
        if port:
            async with listening(bot, clock, desk.take, hook(port)):
                yield store
        else:
            polling = asyncio.create_task(poll(bot, clock, desk.take))
            yield store
            polling.cancel()
    store.close()


async def until(store: Store, person: Person, holds: Callable[[Conversation], bool]) -> None:
    """Wait until something holds of a person's conversation."""
    async with asyncio.timeout(10):
        while True:
            with store.unit() as unit:
                stored = unit.load(address_of(person.chat_id))
            if stored is not None and holds(stored.conversation):
                return
            await asyncio.sleep(0.02)


@pytest.mark.parametrize("posted", [False, True])
async def test_the_messenger_says_at_once_that_somebody_blocks_or_unblocks(
    server: BotApiServer, tmp_path: Path, *, posted: bool
) -> None:
    """Before anything is sent in vain; and letting the bot back is enough to be reached again."""
    person = server.person()
    async with at_work(server, tmp_path, a_free_port() if posted else 0) as store:
        person.writes("/start")
        await person.until(lambda p: p.replies, timeout=10)  # no answer is under way any more
        person.blocks()
        await until(store, person, lambda c: c.blocked_at is not None)
        person.unblocks()
        await until(store, person, lambda c: c.blocked_at is None and c.said == 1)


async def test_a_refusal_is_known_after_a_restart_until_the_person_writes(
    server: BotApiServer, tmp_path: Path
) -> None:
    """A 403 alone tells of it; the next process knows it; a word opens the chat."""
    person = server.person()
    server.faults.add(kind=forbidden(), chat_id=person.chat_id, times=1)
    async with at_work(server, tmp_path) as store:
        person.writes("/start")
        await until(store, person, lambda c: c.blocked_at is not None)
    async with at_work(server, tmp_path) as store:
        await until(store, person, lambda c: c.blocked_at is not None)
        person.writes("34")
        await until(store, person, lambda c: c.blocked_at is None and c.age_band is not None)


@pytest.mark.parametrize(
    ("kind", "status", "event"),
    [
        ("private", "kicked", Blocked),
        ("private", "member", Unblocked),
        ("private", "left", None),
        ("supergroup", "kicked", None),
        ("channel", "member", None),
    ],
)
def test_only_a_private_chat_blocks(kind: str, status: str, event: type | None) -> None:
    """That a group has put the bot out is no person's block; other changes say nothing.

    The update is made from the Bot API's documentation of ChatMemberUpdated, from memory.
    """
    user = {"id": 5, "is_bot": False, "first_name": "Robin"}
    bot = {"id": 9, "is_bot": True, "first_name": "Harbour Street"}
    now = datetime.now(UTC)
    update = Update.de_json(
        {
            "update_id": 1,
            "my_chat_member": {
                "chat": {"id": 5, "type": kind},
                "from": user,
                "date": int(now.timestamp()),
                "old_chat_member": {"user": bot, "status": "left"},
                "new_chat_member": {"user": bot, "status": status, "until_date": 0},
            },
        },
        None,
    )
    inbound = inbound_from(update, StandingClock(now))
    assert (None if inbound is None else type(inbound.event)) == event
