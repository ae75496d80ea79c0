"""Takes updates that Telegram posts. Each is answered with 200 only once it is durable here.

Telegram repeats what was not answered so; the inbox takes a repetition for what it is.
"""

import asyncio
import hmac
import json
import ssl
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import structlog
from aiohttp import web
from telegram import Bot
from telegram.error import InvalidToken, TelegramError

from bot.channels.telegram.inbound import KINDS, inbound_from
from bot.channels.telegram.polling import UNKNOWN_BOT, acknowledge_tap
from bot.channels.telegram.updates import update_from
from bot.errors import SettingsError
from bot.runtime.ports import Clock, Inbound

_log = structlog.get_logger("wallside.telegram")

PATH: Final = "/telegram"
"""Where updates are taken."""

LARGEST: Final = 1024 * 1024
"""Bytes of one update; a message has at most 4096 characters, so that this is ample."""

_SHOWN: Final = "X-Telegram-Bot-Api-Secret-Token"
_PAUSE_S: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """How Telegram reaches us.

    Attributes:
        url: The public address, which leads to `PATH` here.
        secret: What Telegram has to show with each update.
        host: Where to listen.
        port: Where to listen; 0 for any that is free.
        certificate, key: Files for our own TLS; without them a proxy in front has to do it.
    """

    url: str
    secret: str
    host: str
    port: int
    certificate: Path | None = None
    key: Path | None = None


def application(
    bot: Bot, clock: Clock, take: Callable[[Inbound], Awaitable[object]], secret: str
) -> web.Application:
    """Return what answers Telegram's posts, and nobody else's.

    Args:
        bot: To make updates with, and to answer taps.
        clock: The time.
        take: Makes an arrival durable.
        secret: What has to come with each update; compared in constant time.

    Raises:
        ValueError: There is no secret.
    """
    if not secret:
        raise ValueError("a webhook without a secret would take anybody's word")
    expected = secret.encode()

    async def posted(request: web.Request) -> web.Response:
        if not hmac.compare_digest(request.headers.get(_SHOWN, "").encode(), expected):
            return web.Response(status=403)
        try:
            body = await request.read()
            update = update_from(json.loads(body), bot)
        except web.HTTPRequestEntityTooLarge:
            return web.Response(status=413)
        except Exception as error:  # whatever it is, it is no update we could ever take
            # Anything but 200 would have it repeated, and hold up what comes after it.
            _log.error("what was posted is no update", error=type(error).__name__)
            return web.Response()
        if update is None:
            return web.Response()
        inbound = inbound_from(update, clock)
        try:
            if inbound is not None:
                await take(inbound)
        except Exception as error:  # whatever it is, it is not durable: Telegram has to repeat it
            _log.error("an update could not be kept", error=type(error).__name__)
            return web.Response(status=500)
        await acknowledge_tap(update)
        return web.Response()

    app = web.Application(client_max_size=LARGEST)
    app.router.add_post(PATH, posted)
    return app


@asynccontextmanager
async def listening(
    bot: Bot, clock: Clock, take: Callable[[Inbound], Awaitable[object]], hook: Hook
) -> AsyncIterator[int]:
    """Listen, and have Telegram post to us; yields the port. What is under way is finished.

    Raises:
        SettingsError: The address is taken, the certificate cannot be used, or Telegram refuses.
    """
    runner = web.AppRunner(
        application(bot, clock, take, hook.secret), access_log=None, handle_signals=False
    )
    await runner.setup()
    try:
        site = web.TCPSite(runner, hook.host, hook.port, ssl_context=_tls(hook))
        try:
            await site.start()
        except OSError as error:
            raise SettingsError(
                f"Cannot listen at {hook.host}:{hook.port}: {error.strerror}. "
                "Set WALLSIDE_WEBHOOK_LISTEN to an address that is free."
            ) from None
        await _announce(bot, hook)
        yield runner.addresses[0][1]
    finally:
        await runner.cleanup()


def _tls(hook: Hook) -> ssl.SSLContext | None:
    if hook.certificate is None:
        return None
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    try:
        context.load_cert_chain(hook.certificate, hook.key)
    except (OSError, ssl.SSLError) as error:
        raise SettingsError(
            f"The certificate {hook.certificate} cannot be used: {error}. "
            "Set WALLSIDE_TLS_CERTIFICATE and WALLSIDE_TLS_KEY to files in PEM form."
        ) from None
    return context


async def _announce(bot: Bot, hook: Hook) -> None:
    """Tell Telegram where to post; waits for as long as it cannot be reached."""
    while True:
        try:
            await bot.set_webhook(
                hook.url,
                secret_token=hook.secret,
                allowed_updates=list(KINDS),
                drop_pending_updates=False,
                certificate=hook.certificate,
            )
        except InvalidToken:
            raise SettingsError(UNKNOWN_BOT) from None
        except TelegramError as error:
            if "webhook" in str(error).lower():
                raise SettingsError(f"Telegram refuses WALLSIDE_WEBHOOK: {error}") from None
            _log.warning("could not set the webhook", error=type(error).__name__)
            await asyncio.sleep(_PAUSE_S)
        else:
            return
