"""From a message of ours to Telegram, and from its errors to what became of the message."""

from collections.abc import Awaitable
from datetime import timedelta
from typing import Final

import httpx
import structlog
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup, InputFile, Message
from telegram.error import (
    BadRequest,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

from bot.channels.telegram.inbound import chat_of
from bot.runtime.ports import Attachment, Bubble, Delivery, Later, Refused, Sent, Unknown

_log = structlog.get_logger("wallside.telegram")

_RECONNECT: Final = timedelta(seconds=3)
_NEVER_LEFT: Final = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout)


class TelegramChannel:
    """Sends through one bot."""

    def __init__(self, bot: Bot) -> None:
        self._bot = bot

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Send a message."""
        chat, keyboard = chat_of(address), _keyboard(bubble)
        if bubble.attachment is None:
            return await _delivery(
                self._bot.send_message(chat_id=chat, text=bubble.text, reply_markup=keyboard)
            )
        upload = _upload(bubble.attachment)
        caption = bubble.text or None
        if bubble.attachment.media_type == "image/png":
            return await _delivery(
                self._bot.send_photo(
                    chat_id=chat, photo=upload, caption=caption, reply_markup=keyboard
                )
            )
        return await _delivery(
            self._bot.send_document(
                chat_id=chat, document=upload, caption=caption, reply_markup=keyboard
            )
        )

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Change a message sent earlier."""
        return await _delivery(
            self._bot.edit_message_text(
                chat_id=chat_of(address),
                message_id=int(ref),
                text=bubble.text,
                reply_markup=_keyboard(bubble),
            )
        )


def _keyboard(bubble: Bubble) -> InlineKeyboardMarkup | None:
    if not bubble.rows:
        return None
    return InlineKeyboardMarkup(
        [
            [
                InlineKeyboardButton(label, url=token)
                if token.startswith("https://")
                else InlineKeyboardButton(label, callback_data=token)
                for label, token in row
            ]
            for row in bubble.rows
        ]
    )


def _upload(attachment: Attachment) -> InputFile:
    return InputFile(attachment.content, filename=attachment.name)


async def _delivery(call: Awaitable[Message | bool]) -> Delivery:
    try:
        message = await call
    except RetryAfter as error:
        wait = error.retry_after
        return Later(wait if isinstance(wait, timedelta) else timedelta(seconds=wait))
    except (Forbidden, BadRequest, InvalidToken) as error:
        _log.warning("refused", error=type(error).__name__)
        return Refused(blocked=isinstance(error, Forbidden))
    except NetworkError as error:  # TimedOut is one of these
        if isinstance(error.__cause__, _NEVER_LEFT):
            return Later(_RECONNECT, everybody=True)
        _log.warning("unknown whether it arrived", error=type(error).__name__)
        return Unknown()
    except TelegramError as error:
        _log.warning("unknown whether it arrived", error=type(error).__name__)
        return Unknown()
    return Sent(str(message.message_id) if isinstance(message, Message) else "")
