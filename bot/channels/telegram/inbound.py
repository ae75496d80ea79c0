"""From a Telegram update to an event of ours."""

from datetime import UTC, datetime, timedelta
from typing import Final

from telegram import Message, Update
from telegram.constants import ChatType

from bot.engine.events import (
    ChoiceTapped,
    Event,
    Opened,
    Thing,
    ThingSent,
    WordsEdited,
    WordsGiven,
)
from bot.runtime.ports import Clock, Inbound

CHANNEL: Final = "telegram"
KINDS: Final = ("message", "edited_message", "callback_query")
"""The kinds of update that are asked for."""

_LONGEST_CODE: Final = 64
_QUEUED: Final = timedelta(seconds=5)


def address_of(chat_id: int) -> str:
    """Return our address for a chat."""
    return f"{CHANNEL}:{chat_id}"


def chat_of(address: str) -> int:
    """Return the chat for an address of ours."""
    return int(address.removeprefix(f"{CHANNEL}:"))


def inbound_from(update: Update, clock: Clock) -> Inbound | None:
    """Return the arrival that an update amounts to; `None` for what does not concern us.

    Args:
        update: As fetched.
        clock: The time. Words that waited at the messenger's keep its time stamp.
    """
    chat, person = update.effective_chat, update.effective_user
    if chat is None or chat.type != ChatType.PRIVATE:
        return None
    event = _event(update, clock)
    if event is None:
        return None
    return Inbound(
        key=f"{CHANNEL}:{update.update_id}",
        address=address_of(chat.id),
        event=event,
        language=person.language_code if person else None,
    )


def _event(update: Update, clock: Clock) -> Event | None:
    if update.callback_query is not None:
        return ChoiceTapped(at=clock.now(), token=update.callback_query.data or "")
    if update.edited_message is not None:
        message = update.edited_message
        text = message.text or message.caption
        if text is None:
            return None
        at = _said_at(message.edit_date or message.date, clock)
        return WordsEdited(at=at, text=text, source=str(message.message_id))
    if update.message is not None:
        return _words(update.message, clock)
    return None


def _words(message: Message, clock: Clock) -> Event:
    at = _said_at(message.date, clock)
    if message.text is not None:
        first, *others = message.text.split() or [""]
        if first == "/start":
            return Opened(at=at, code=others[0][:_LONGEST_CODE] if others else None)
        return WordsGiven(at=at, text=message.text, source=str(message.message_id))
    if message.caption is not None:
        return WordsGiven(at=at, text=message.caption, source=str(message.message_id))
    if message.photo:
        return ThingSent(at=at, thing=Thing.PHOTO)
    if message.voice or message.audio or message.video_note:
        return ThingSent(at=at, thing=Thing.VOICE)
    return ThingSent(at=at, thing=Thing.OTHER)


def _said_at(stamp: datetime, clock: Clock) -> datetime:
    """The messenger's stamp counts whole seconds: it is used only when a message had to wait."""
    waited = datetime.now(UTC) - stamp
    return clock.shown_at(stamp) if waited > _QUEUED else clock.now()
