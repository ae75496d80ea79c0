"""Fetches updates. An update is confirmed to Telegram only once it is durable here."""

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from typing import Final

import structlog
from telegram import Bot, BotCommand, Update
from telegram.error import BadRequest, Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram.inbound import KINDS, inbound_from
from bot.errors import SettingsError, WallsideError
from bot.runtime.ports import Clock, Inbound
from bot.texts import LANGUAGES, render

_log = structlog.get_logger("wallside.telegram")

_LONG_POLL_S: Final = 25
_PAUSE_S: Final = 3.0
_TRIES: Final = 3
"""How often something is tried with an update that none of our errors explains."""
_COMMANDS: Final = (
    "start", "stop", "where", "symptom", "fix", "results", "companion", "language", "help",
)  # fmt: skip


async def poll(
    bot: Bot,
    clock: Clock,
    take: Callable[[Inbound], Awaitable[object]],
    fetched: Callable[[], None] = lambda: None,
) -> None:
    """Fetch updates for ever; cancel to stop.

    Args:
        bot: Whose updates.
        clock: The time.
        take: Makes an arrival durable.
        fetched: Called when Telegram has answered.

    Raises:
        SettingsError: Telegram does not know the token.
    """
    offset: int | None = None
    while True:
        try:
            updates = await bot.get_updates(
                offset=offset,
                timeout=_LONG_POLL_S,
                read_timeout=_LONG_POLL_S + 10,
                allowed_updates=list(KINDS),
            )
        except InvalidToken:
            raise SettingsError(UNKNOWN_BOT) from None
        except Conflict:
            _log.warning("another program polls with this token, or a webhook is set")
            await asyncio.sleep(_PAUSE_S)
            continue
        except RetryAfter as error:
            wait = error.retry_after
            await asyncio.sleep(wait if isinstance(wait, int) else wait.total_seconds())
            continue
        except TelegramError as error:
            _log.warning("could not fetch updates", error=type(error).__name__)
            await asyncio.sleep(_PAUSE_S)
            continue
        fetched()
        for update in updates:
            await _take(update, clock, take)
            offset = update.update_id + 1
            await acknowledge_tap(update)


async def _take(update: Update, clock: Clock, take: Callable[[Inbound], Awaitable[object]]) -> None:
    """Make an update durable. One that cannot be taken at all must not hold up all others."""
    tries = 0
    while True:
        try:
            inbound = inbound_from(update, clock)
            if inbound is not None:
                await take(inbound)
        except WallsideError as error:  # the store's trouble, which passes: nothing is left out
            _log.error("an update could not be kept yet", error=type(error).__name__)
        except Exception:
            tries += 1
            _log.exception("an update could not be taken", tries=tries)
            if tries == _TRIES:
                return
        else:
            return
        await asyncio.sleep(_PAUSE_S)


async def acknowledge_tap(update: Update) -> None:
    """End the little clock on the button. Best effort: old taps can no longer be answered."""
    if update.callback_query is None:
        return
    try:
        await update.callback_query.answer()
    except BadRequest:
        return
    except TelegramError as error:
        _log.info("could not answer a tap", error=type(error).__name__)


async def unhook(bot: Bot) -> None:
    """Take away a webhook that an earlier start has set; what waits there is kept and fetched.

    Raises:
        SettingsError: Telegram does not know the token.
    """
    try:
        await bot.delete_webhook(drop_pending_updates=False)
    except InvalidToken:
        raise SettingsError(UNKNOWN_BOT) from None
    except TelegramError as error:
        _log.warning("could not take the webhook away", error=type(error).__name__)


async def sign_in(bot: Bot) -> None:
    """Open the bot's connection; waits for as long as Telegram cannot be reached.

    Raises:
        SettingsError: Telegram does not know the token.
    """
    while True:
        try:
            await bot.initialize()
        except InvalidToken:
            raise SettingsError(UNKNOWN_BOT) from None
        except TelegramError as error:
            _log.warning("could not reach Telegram", error=type(error).__name__)
            await asyncio.sleep(_PAUSE_S)
        else:
            return


@asynccontextmanager
async def signed_in(bot: Bot) -> AsyncIterator[None]:
    """Hold the bot's connection open; waits for as long as Telegram cannot be reached.

    Raises:
        SettingsError: Telegram does not know the token.
    """
    await sign_in(bot)
    try:
        yield
    finally:
        await bot.shutdown()


async def introduce(bot: Bot) -> None:
    """Tell Telegram the commands, described in every language.

    Raises:
        SettingsError: Telegram does not know the token.
    """
    try:
        for language in LANGUAGES:
            commands = [BotCommand(c, render(f"command.{c}", {}, language)) for c in _COMMANDS]
            await bot.set_my_commands(
                commands, language_code=None if language == LANGUAGES[0] else language
            )
    except InvalidToken:
        raise SettingsError(UNKNOWN_BOT) from None
    except TelegramError as error:
        _log.warning("could not set the list of commands", error=type(error).__name__)


UNKNOWN_BOT: Final = (
    "Telegram does not know this token. Set WALLSIDE_TOKEN to the one that BotFather gave you."
)
