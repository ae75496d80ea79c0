"""A server, a person, and two independent clients for it.

aiogram builds hundreds of models when it is imported, which takes seconds: it is imported where it
is used, so that only those pay who need it.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import TYPE_CHECKING

import aiohttp
import pytest
import telegram
from telegram.request import HTTPXRequest

from tests.telegram_api import BotApiServer, Person

if TYPE_CHECKING:
    import aiogram


@pytest.fixture
async def server() -> AsyncIterator[BotApiServer]:
    """A running server."""
    async with BotApiServer() as running:
        yield running


@pytest.fixture
def robin(server: BotApiServer) -> Person:
    """A person whose chat is open: they have sent /start, and that update is confirmed."""
    person = server.person()
    person.writes("/start")
    server.account.updates.clear()
    return person


@pytest.fixture
async def grams(server: BotApiServer) -> AsyncIterator[aiogram.Bot]:
    """The server as aiogram talks to it."""
    import aiogram
    from aiogram.client.session.aiohttp import AiohttpSession
    from aiogram.client.telegram import TelegramAPIServer

    class PlainSession(AiohttpSession):
        """aiogram's session without its quarter-second farewell to TLS connections."""

        async def close(self) -> None:
            if self._session is not None:
                await self._session.close()

    session = PlainSession(api=TelegramAPIServer.from_base(server.url), timeout=5)
    async with aiogram.Bot(server.token, session=session) as bot:
        yield bot


@pytest.fixture
async def ptb(server: BotApiServer) -> AsyncIterator[telegram.Bot]:
    """The server as python-telegram-bot talks to it."""
    bot = telegram.Bot(
        server.token,
        base_url=server.base_url,
        base_file_url=server.base_file_url,
        request=_plain_request(),
        get_updates_request=_plain_request(),
    )
    async with bot:
        yield bot


def _plain_request() -> HTTPXRequest:
    """Return what sends requests, without loading the certificates it will not need."""
    return HTTPXRequest(httpx_kwargs={"verify": False})


@pytest.fixture
async def http() -> AsyncIterator[aiohttp.ClientSession]:
    """No client at all: the wire."""
    async with aiohttp.ClientSession() as session:
        yield session
