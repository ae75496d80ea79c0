"""Updates posted by Telegram: only Telegram's, once each, and not lost when switching."""

import asyncio
import io
import json
import socket
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from pathlib import Path

import aiohttp
import pytest
import telegram

from bot.bootstrap import desk_for
from bot.channels.telegram.inbound import address_of
from bot.channels.telegram.polling import poll, signed_in, unhook
from bot.channels.telegram.webhook import LARGEST, PATH, Hook, listening
from bot.engine.context import Context
from bot.engine.events import WordsGiven
from bot.errors import SettingsError
from bot.runtime.clock import FastClock, SystemClock
from bot.runtime.desk import Desk
from bot.store import open_store
from bot.store.sql import SqlStore
from bot.testing.channel import KeepingChannel
from tests.telegram_api import BotApiServer, Person

SECRET = "harbour-street-0123456789"
HEADER = "X-Telegram-Bot-Api-Secret-Token"


@pytest.fixture
async def server() -> AsyncIterator[BotApiServer]:
    """Run the Bot API server."""
    async with BotApiServer() as running:
        yield running


def a_free_port() -> int:
    """Return a port that nobody listens at."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


def hook(port: int = 0) -> Hook:
    """Return a webhook without TLS, as behind a proxy."""
    url = f"http://127.0.0.1:{port}{PATH}"
    return Hook(url=url, secret=SECRET, host="127.0.0.1", port=port)


@asynccontextmanager
async def running(server: BotApiServer, folder: Path) -> AsyncIterator[tuple[Desk, telegram.Bot]]:
    """Run a desk on a store of its own, beside the bot that fetches or is posted to."""
    store = open_store(folder / "wallside.sqlite3")
    desk = desk_for(store, KeepingChannel(), SystemClock(), Context())
    bot = telegram.Bot(server.token, base_url=server.base_url)
    async with signed_in(bot), desk.at_work():
        yield desk, bot
    store.close()


def words(folder: Path, person: Person) -> list[str]:
    """Return what the store holds of a person's words, in order."""
    store: SqlStore = open_store(folder / "wallside.sqlite3")
    with store.unit() as unit:
        stored = unit.load(address_of(person.chat_id))
    events = store.history(stored.conversation.id).events if stored else ()
    store.close()
    return [event.text for event in events if isinstance(event, WordsGiven)]


async def all_taken(server: BotApiServer) -> None:
    """Wait until Telegram has nothing more to deliver."""
    await server.account.changes.until(lambda: not len(server.account.updates), 10)


async def test_only_what_shows_the_secret_is_taken(server: BotApiServer, tmp_path: Path) -> None:
    """No secret, a wrong one, something too large and what is no update change nothing."""
    update = {"update_id": 1}
    async with running(server, tmp_path) as (desk, bot):
        taken: list[object] = []

        async def take(inbound: object) -> None:
            taken.append(inbound)

        del desk
        port = a_free_port()
        async with listening(bot, SystemClock(), take, hook(port)), aiohttp.ClientSession() as web:
            at, shown = f"http://127.0.0.1:{port}{PATH}", {HEADER: SECRET}
            statuses = []
            for headers, body in (
                ({}, update),
                ({HEADER: "guess"}, update),
                ({HEADER: "é"}, update),
                (shown, ["no update"]),
                (shown, {"update_id": "x", "message": 3}),
                (shown, {"pad": "x" * LARGEST}),
                (shown, update),
            ):
                content = io.BytesIO(json.dumps(body).encode())
                async with web.post(at, data=content, headers=headers) as answer:
                    statuses.append(answer.status)
            async with web.get(at) as answer:
                statuses.append(answer.status)
    assert statuses == [403, 403, 403, 200, 200, 413, 200, 405]
    assert taken == []


async def test_switching_to_a_webhook_and_back_loses_nothing(
    server: BotApiServer, tmp_path: Path
) -> None:
    """What was written while nobody listened, and what is posted twice, counts once, in order."""
    person = server.person()
    clock = SystemClock()
    async with running(server, tmp_path) as (desk, bot):
        person.writes("/start")
        polling = asyncio.create_task(poll(bot, clock, desk.take))
        person.writes("one")
        await all_taken(server)
        polling.cancel()
        person.writes("two")
        port = a_free_port()
        async with listening(bot, clock, desk.take, hook(port)):
            person.writes("three")
            await all_taken(server)
        person.writes("four")
        await unhook(bot)
        polling = asyncio.create_task(poll(bot, clock, desk.take))
        person.writes("five")
        await all_taken(server)
        polling.cancel()
    assert words(tmp_path, person) == ["one", "two", "three", "four", "five"]


async def test_an_update_that_could_not_be_kept_is_posted_again(
    server: BotApiServer, tmp_path: Path
) -> None:
    """While the store fails Telegram is told so, and delivers again once it works."""
    person = server.person()
    async with running(server, tmp_path) as (desk, bot):
        failures = iter([OSError("disk full"), OSError("disk full")])

        async def take(inbound: object) -> object:
            if (failure := next(failures, None)) is not None:
                raise failure
            return await desk.take(inbound)  # type: ignore[arg-type]

        async with listening(bot, SystemClock(), take, hook(a_free_port())):
            person.writes("/start")
            person.writes("kept after all")
            await all_taken(server)
    assert words(tmp_path, person) == ["kept after all"]


async def test_a_taken_address_is_named(server: BotApiServer, tmp_path: Path) -> None:
    """An address where somebody else listens is named with the setting to change."""
    async with running(server, tmp_path) as (desk, bot):
        clock = FastClock(anchor=datetime.now(UTC), shown=datetime.now(UTC), speed=1)
        with socket.socket() as taken:
            taken.bind(("127.0.0.1", 0))
            taken.listen()
            with pytest.raises(SettingsError, match="WALLSIDE_WEBHOOK_LISTEN"):
                async with listening(bot, clock, desk.take, hook(taken.getsockname()[1])):
                    pass
