"""What Telegram sends, looked at one by one: an update that is none holds up no other.

The library makes all that was fetched into updates at once, and with one that it cannot read it
raises, writes everything to its log, and would fetch the same again for ever.
"""

from typing import Any

import structlog
from telegram import Bot, Update
from telegram.request import HTTPXRequest

_log = structlog.get_logger("wallside.telegram")


class Sieve(HTTPXRequest):
    """The connection on which updates are fetched.

    What cannot be read becomes an update with nothing in it but its number, so that it is confirmed
    with those around it.
    """

    @staticmethod
    def parse_json_payload(payload: bytes) -> dict[str, Any]:
        """Return what Telegram answered, with only updates that can be read.

        Raises:
            TelegramError: It is no JSON.
        """
        answer: Any = HTTPXRequest.parse_json_payload(payload)
        found = answer.get("result") if isinstance(answer, dict) else None
        if isinstance(found, list):
            sound = [_sound(raw) for raw in found]
            return {**answer, "result": [raw for raw in sound if raw is not None]}
        same: dict[str, Any] = answer
        return same


def update_from(raw: Any, bot: Bot | None = None) -> Update | None:
    """Return an update; `None` for what is none, which is noted by its kind alone.

    Args:
        raw: JSON as it came.
        bot: To make it with.
    """
    try:
        update = Update.de_json(raw, bot)
        _hold_to_text(update)
    except Exception as error:  # whatever it is, it is no update we could ever take
        _log.error("what came is no update", error=type(error).__name__)
        return None
    return update


def _hold_to_text(update: Update) -> None:
    """Hold what we read as text to being text: the library takes any JSON for it.

    Raises:
        TypeError: It is not.
    """
    said: list[object] = []
    for message in (update.message, update.edited_message):
        if message is not None:
            said += [message.text, message.caption]
    if update.callback_query is not None:
        said.append(update.callback_query.data)
    if update.effective_user is not None:
        said.append(update.effective_user.language_code)
    if not all(text is None or isinstance(text, str) for text in said):
        raise TypeError("a text is no text")


def _sound(raw: Any) -> dict[str, Any] | None:
    if isinstance(raw, dict) and isinstance(raw.get("update_id"), int):
        return raw if update_from(raw) is not None else {"update_id": raw["update_id"]}
    _log.error("what came is no update", error="without a number")
    return None
