"""From a Telegram update to an event of ours."""

from datetime import UTC, datetime, timedelta
from typing import Final

from telegram import ChatMemberUpdated, Message, Update
from telegram.constants import ChatMemberStatus, ChatType

from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Event,
    Opened,
    Thing,
    ThingSent,
    Unblocked,
    WordsEdited,
    WordsGiven,
)
from bot.runtime.ports import Clock, Inbound

CHANNEL: Final = "telegram"
KINDS: Final = ("message", "edited_message", "callback_query", "my_chat_member")
"""The kinds of update that are asked for; the last says that somebody has blocked or unblocked us.
"""

_GROUPS: Final = (ChatType.GROUP, ChatType.SUPERGROUP)
_LONGEST_CODE: Final = 64
_QUEUED: Final = timedelta(seconds=5)


def address_of(chat_id: int) -> str:
    """Return our address for a chat."""
    return f"{CHANNEL}:{chat_id}"


def chat_of(address: str) -> int:
    """Return the chat for an address of ours."""
    return int(address.removeprefix(f"{CHANNEL}:"))


def is_group(address: str) -> bool:
    """Whether an address of ours is that of a group: the platform numbers them below zero."""
    return address.startswith(f"{CHANNEL}:-")


def inbound_from(update: Update, clock: Clock) -> Inbound | None:
    """Return the arrival that an update amounts to; `None` for what does not concern us.

    Args:
        update: As fetched.
        clock: The time. Words that waited at the messenger's keep its time stamp.

    From a group only commands and taps are taken; what people say to each other there is none of
    our concern, and goes no further than this.
    """
    chat, person = update.effective_chat, update.effective_user
    if chat is None or chat.type not in (ChatType.PRIVATE, *_GROUPS):
        return None
    group = chat.type in _GROUPS
    event = _event_in_group(update, clock) if group else _event(update, clock)
    if event is None:
        return None
    return Inbound(
        key=f"{CHANNEL}:{update.update_id}",
        address=address_of(chat.id),
        event=event,
        language=person.language_code if person else None,
        group=group,
    )


def _event_in_group(update: Update, clock: Clock) -> Event | None:
    """Return a tap, or a command without its slash and the bot's name; `None` for all else."""
    if update.callback_query is not None:
        return _event(update, clock)
    text = (update.message.text if update.message is not None else None) or ""
    if update.message is None or not text.startswith("/"):
        return None
    first, *others = text.split()
    command, at = first.removeprefix("/").partition("@")[0], _said_at(update.message.date, clock)
    if command == "start":
        return Opened(at=at, code=others[0][:_LONGEST_CODE] if others else None)
    words = " ".join((command, *others))
    return WordsGiven(at=at, text=words, source=str(update.message.message_id))


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
    if update.my_chat_member is not None:
        return _membership(update.my_chat_member, clock)
    return None


def _membership(changed: ChatMemberUpdated, clock: Clock) -> Event | None:
    """Return what it means that our own place in a private chat has changed."""
    at = _said_at(changed.date, clock)
    match changed.new_chat_member.status:
        case ChatMemberStatus.BANNED:
            return Blocked(at=at)
        case ChatMemberStatus.MEMBER:
            return Unblocked(at=at)
        case _:
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
