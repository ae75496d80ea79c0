"""Updates posted to a webhook: with the secret, in order, again until accepted."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from typing import TYPE_CHECKING, Any

import pytest
import telegram
from aiohttp import web

from tests.telegram_api import BotApiServer, Person
from tests.telegram_api.wire import Json

if TYPE_CHECKING:
    import aiogram


class Endpoint:
    """A webhook endpoint that answers as told and keeps what it was sent."""

    def __init__(self) -> None:
        self.answers: list[int] = []
        self.posts: list[Json] = []
        self.secrets: list[str | None] = []
        self.url = ""
        self._posted = asyncio.Condition()

    async def receive(self, request: web.Request) -> web.Response:
        """Keep an update and answer with the next planned status, or 200."""
        async with self._posted:
            self.posts.append(await request.json())
            self.secrets.append(request.headers.get("X-Telegram-Bot-Api-Secret-Token"))
            self._posted.notify_all()
        return web.Response(status=self.answers.pop(0) if self.answers else 200)

    async def wait_for_posts(self, count: int) -> list[Json]:
        """Return the posts once there are so many."""
        async with asyncio.timeout(5), self._posted:
            await self._posted.wait_for(lambda: len(self.posts) >= count)
            return self.posts


@pytest.fixture
async def endpoint() -> AsyncIterator[Endpoint]:
    """A running endpoint."""
    receiver = Endpoint()
    app = web.Application()
    app.router.add_post("/hook", receiver.receive)
    runner = web.AppRunner(app, access_log=None)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", 0).start()
    receiver.url = f"http://127.0.0.1:{runner.addresses[0][1]}/hook"
    yield receiver
    await runner.cleanup()


async def test_updates_are_posted_with_the_secret(
    server: BotApiServer, robin: Person, ptb: telegram.Bot, endpoint: Endpoint
) -> None:
    """What waited and what happens next is posted, parses, and leaves nothing pending."""
    robin.writes("one")
    assert await ptb.set_webhook(endpoint.url, secret_token="s3cret_-")
    robin.writes("two")
    posts = await endpoint.wait_for_posts(2)
    updates = [telegram.Update.de_json(post, ptb) for post in posts]
    assert [u.message.text for u in updates if u.message] == ["one", "two"]
    assert endpoint.secrets == ["s3cret_-"] * 2
    await server.account.changes.until(lambda: not len(server.account.updates), 5)
    info = await ptb.get_webhook_info()
    assert (info.url, info.pending_update_count) == (endpoint.url, 0)


async def test_a_refused_update_is_posted_again_and_holds_back_its_chat_only(
    server: BotApiServer, robin: Person, ptb: telegram.Bot, endpoint: Endpoint
) -> None:
    """Non-2xx means again, before that chat's next update; other chats pass."""
    kim = server.person(5002, "Kim")
    endpoint.answers = [500, 302, 404]
    await ptb.set_webhook(endpoint.url)
    robin.writes("one")
    await endpoint.wait_for_posts(3)
    robin.writes("two")
    kim.writes("hello")
    posts = await endpoint.wait_for_posts(6)
    texts = [post["message"]["text"] for post in posts]
    assert texts[:3] == ["one", "one", "one"]
    assert [text for text in texts if text != "hello"] == [*["one"] * 4, "two"]
    assert len({post["update_id"] for post in posts}) == 3
    assert texts.index("hello") < texts.index("two")


async def test_a_failure_shows_in_the_webhook_info(
    robin: Person, ptb: telegram.Bot, grams: aiogram.Bot, endpoint: Endpoint
) -> None:
    """The last error is told with its date, to both clients."""
    endpoint.answers = [503]
    await ptb.set_webhook(endpoint.url, allowed_updates=["message"], max_connections=2)
    robin.writes("one")
    await endpoint.wait_for_posts(2)
    ours, theirs = await ptb.get_webhook_info(), await grams.get_webhook_info()
    message = "Wrong response from the webhook: 503 Service Unavailable"
    assert ours.last_error_message == theirs.last_error_message == message
    assert ours.last_error_date == theirs.last_error_date
    assert ours.allowed_updates == ("message",)
    assert ours.max_connections == theirs.max_connections == 2


async def test_an_endpoint_that_is_down_gets_its_updates_later(
    server: BotApiServer, robin: Person, ptb: telegram.Bot, endpoint: Endpoint
) -> None:
    """Nothing listening is a failure like any other; the update stays."""
    nowhere = endpoint.url.replace("/hook", "/").rsplit(":", 1)[0] + ":9/"
    await ptb.set_webhook(nowhere)
    robin.writes("one")

    def failed() -> Any:
        hook = server.account.webhook
        return hook is not None and hook.last_error

    assert await server.account.changes.until(failed, 5)
    await ptb.set_webhook(endpoint.url)
    (post,) = await endpoint.wait_for_posts(1)
    assert post["message"]["text"] == "one"


async def test_fetching_and_a_webhook_exclude_each_other(
    robin: Person, ptb: telegram.Bot, grams: aiogram.Bot, endpoint: Endpoint
) -> None:
    """Setting a webhook ends a waiting poller; while it is set, fetching gives 409."""
    from aiogram.exceptions import TelegramConflictError

    poll = asyncio.create_task(grams.get_updates(timeout=30))
    await asyncio.sleep(0.05)
    await ptb.set_webhook(endpoint.url)
    with pytest.raises(TelegramConflictError, match="terminated by setWebhook"):
        await poll
    with pytest.raises(telegram.error.Conflict, match="while webhook is active"):
        await ptb.get_updates(timeout=0)
    await ptb.delete_webhook()
    robin.writes("one")
    assert len(await ptb.get_updates(timeout=0)) == 1
    assert endpoint.posts == []


async def test_pending_updates_can_be_dropped(robin: Person, ptb: telegram.Bot) -> None:
    """Deleting the webhook may throw away what waits."""
    robin.writes("one")
    await ptb.delete_webhook(drop_pending_updates=True)
    assert await ptb.get_updates(timeout=0) == ()


async def test_an_update_can_be_posted_twice(
    server: BotApiServer, robin: Person, ptb: telegram.Bot, endpoint: Endpoint
) -> None:
    """A repeated update is posted once more under its old number."""
    await ptb.set_webhook(endpoint.url)
    robin.writes("one")
    await endpoint.wait_for_posts(1)
    await server.account.changes.until(lambda: not len(server.account.updates), 5)
    server.redeliver_last()
    first, second = await endpoint.wait_for_posts(2)
    assert first == second


@pytest.mark.parametrize(
    ("secret", "reason"),
    [("x" * 257, "Secret token is too long"), ("a b", "Secret token contains unallowed")],
)
async def test_a_secret_has_to_fit_its_alphabet(
    ptb: telegram.Bot, secret: str, reason: str
) -> None:
    """Secrets too long or with other characters are refused."""
    with pytest.raises(telegram.error.BadRequest, match=reason):
        await ptb.set_webhook("http://127.0.0.1:1/hook", secret_token=secret)
