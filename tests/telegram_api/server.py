"""A Telegram Bot API server for tests, on a port of its own.

    async with BotApiServer(token=TOKEN) as server:          # on this event loop
    with BotApiServerThread(token=TOKEN) as server:          # on a thread of its own

The bot under test, in this process or another, is pointed at `server.base_url`.
"""

import asyncio
import threading
import time
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from types import TracebackType
from typing import Any, Final, Self, assert_never

from aiohttp import web

from tests.telegram_api.account import Account
from tests.telegram_api.chats import Chat
from tests.telegram_api.content import MAX_UPLOAD_BYTES
from tests.telegram_api.delivery import WebhookPoster, get_updates
from tests.telegram_api.faults import Cut, Fault, Faults, FloodLimits, Refuse
from tests.telegram_api.methods import METHODS
from tests.telegram_api.person import Person
from tests.telegram_api.wire import ApiError, Arguments, Json, Upload, read_arguments

TOKEN: Final = "123456789:AAEhBOweik6ad9r_QXMENQjcrGbqCr4K-bc"
"""A token of the right form, of no bot."""

_NAMES: Final = {name.lower(): name for name in (*METHODS, "getUpdates")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """One call as it arrived, and what became of it.

    Attributes:
        method: In the platform's own spelling.
        arguments: The parameters as text, the way they came, and the files.
        at: Unix time of its arrival.
        status: HTTP status of the answer; `None` if the connection was cut.
        body: The answer, also one that never arrived; `None` if nothing was done.
    """

    method: str
    arguments: Arguments
    at: float
    status: int | None
    body: Json | None
    fault: Fault | None

    @property
    def params(self) -> Json:
        """The parameters with those that hold JSON decoded."""
        return self.arguments.decoded()

    @property
    def files(self) -> Mapping[str, Upload]:
        """The uploaded files by the name of their part."""
        return self.arguments.uploads


class BotApiServer:
    """The platform as one bot and the people writing to it know it.

    Args:
        token: The only token it takes.
        username: The bot's.
        clock: Unix time, for the dates in messages.
        first_update_id: Where the numbering of updates begins.
        flood_limits: Refuse calls that come too fast.
        webhook_retry_delay: Seconds before the second repetition of a failed webhook post.
    """

    def __init__(
        self,
        *,
        token: str = TOKEN,
        username: str = "harbour_street_bot",
        clock: Callable[[], float] = time.time,
        first_update_id: int = 700_000_001,
        flood_limits: FloodLimits | None = None,
        webhook_retry_delay: float = 0.05,
    ) -> None:
        self.token = token
        self.faults = Faults()
        self.flood_limits = flood_limits
        self.account = Account(
            token=token, username=username, clock=clock, first_update_id=first_update_id
        )
        self.url = ""
        self._calls: list[Call] = []
        self._poster = WebhookPoster(self.account, webhook_retry_delay)
        self._posting: asyncio.Task[None] | None = None
        self._runner: web.AppRunner | None = None

    async def __aenter__(self) -> Self:
        app = web.Application(client_max_size=MAX_UPLOAD_BYTES + 1024 * 1024)
        app.router.add_route("*", "/bot{token:[^/]+}/{method}", self._answer)
        app.router.add_get("/file/bot{token:[^/]+}/{path:.+}", self._download)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.5)
        await self._runner.setup()
        await web.TCPSite(self._runner, "127.0.0.1", 0).start()
        self.url = f"http://127.0.0.1:{self._runner.addresses[0][1]}"
        self._posting = asyncio.create_task(self._poster.run())
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        with self.account.changes.made():
            self.account.poll.begin(ApiError(500, "Internal Server Error: restart"))
        if self._posting is not None:
            self._posting.cancel()
            with suppress(asyncio.CancelledError):
                await self._posting
        if self._runner is not None:
            await self._runner.cleanup()

    @property
    def base_url(self) -> str:
        """What python-telegram-bot takes as `base_url`."""
        return f"{self.url}/bot"

    @property
    def base_file_url(self) -> str:
        """What python-telegram-bot takes as `base_file_url`."""
        return f"{self.url}/file/bot"

    @property
    def calls(self) -> tuple[Call, ...]:
        """Every call that has been answered or cut off, in the order of that."""
        with self.account.changes.held():
            return tuple(self._calls)

    def calls_of(self, method: str) -> tuple[Call, ...]:
        """Return the calls of one method."""
        return tuple(call for call in self.calls if call.method == method)

    def person(
        self, chat_id: int = 5001, first_name: str = "Robin", language_code: str | None = "en"
    ) -> Person:
        """Return the person with that chat; a new one has not written to the bot yet."""
        with self.account.changes.made():
            chat = Chat(chat_id=chat_id, first_name=first_name, language_code=language_code)
            return Person(self.account, self.account.chats.setdefault(chat_id, chat))

    def redeliver_last(self) -> None:
        """Deliver the update the bot got last once more, under the same number."""
        with self.account.changes.made():
            self.account.updates.repeat_last()

    def expire_callback_queries(self) -> None:
        """Make every tap not answered yet too old to answer."""
        with self.account.changes.made():
            self.account.expire_queries()

    async def _answer(self, request: web.Request) -> web.StreamResponse:
        at = self.account.clock()
        given = request.match_info["method"]
        method = _NAMES.get(given.lower(), given)
        try:
            self._check_token(request)
            arguments = await read_arguments(request)
        except ApiError as error:
            return _respond(error.status, error.body)
        chat_id = arguments.text("chat_id")
        seconds, fault = self.faults.take(method, chat_id)
        await asyncio.sleep(seconds)
        status: int | None
        body: Json | None
        match fault:
            case None:
                status, body = await self._perform(method, arguments)
            case Refuse(refusal):
                status, body = refusal.status, refusal.body
            case Cut(performed):
                status = None
                body = (await self._perform(method, arguments))[1] if performed else None
            case _:
                assert_never(fault)
        with self.account.changes.made():
            self._calls.append(
                Call(
                    method=method,
                    arguments=arguments,
                    at=at,
                    status=status,
                    body=body,
                    fault=fault,
                )
            )
        if status is None or body is None:
            return _cut_off(request)
        return _respond(status, body)

    async def _perform(self, method: str, arguments: Arguments) -> tuple[int, Json]:
        try:
            return 200, {"ok": True, "result": await self._result(method, arguments)}
        except ApiError as error:
            return error.status, error.body

    async def _result(self, method: str, arguments: Arguments) -> Any:
        if method == "getUpdates":
            return await get_updates(self.account, arguments)
        perform = METHODS.get(method)
        if perform is None:
            raise ApiError(404, "Not Found: method not found")
        with self.account.changes.made():
            if self.flood_limits is not None:
                self.flood_limits.check(method, arguments.text("chat_id"))
            return perform(self.account, arguments)

    def _check_token(self, request: web.Request) -> None:
        if request.match_info["token"] != self.token:
            raise ApiError(401, "Unauthorized")

    async def _download(self, request: web.Request) -> web.StreamResponse:
        try:
            self._check_token(request)
        except ApiError as error:
            return _respond(error.status, error.body)
        with self.account.changes.held():
            for stored in self.account.files.values():
                if stored.path == request.match_info["path"]:
                    return web.Response(body=stored.content)
        return _respond(404, ApiError(404, "Not Found").body)


def _respond(status: int, body: Json) -> web.Response:
    response = web.json_response(body, status=status)
    retry_after = body.get("parameters", {}).get("retry_after")
    if retry_after is not None:
        response.headers["Retry-After"] = str(retry_after)
    return response


def _cut_off(request: web.Request) -> web.Response:
    if request.transport is not None:
        request.transport.abort()
    return web.Response()


class BotApiServerThread:
    """The same server on a thread of its own, for tests without an event loop.

    Takes the arguments of `BotApiServer`.
    """

    def __init__(self, **arguments: Any) -> None:
        self._server = BotApiServer(**arguments)
        self._started = threading.Event()
        self._stop: Callable[[], object] = lambda: None
        self._thread = threading.Thread(target=self._run, name="bot-api-server", daemon=True)

    def __enter__(self) -> BotApiServer:
        self._thread.start()
        assert self._started.wait(10), "the Bot API server did not start"
        return self._server

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self._stop()
        self._thread.join(10)

    def _run(self) -> None:
        asyncio.run(self._serve())

    async def _serve(self) -> None:
        stopped = asyncio.Event()
        loop = asyncio.get_running_loop()
        self._stop = partial(loop.call_soon_threadsafe, stopped.set)
        async with self._server:
            self._started.set()
            await stopped.wait()
