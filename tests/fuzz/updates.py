"""Any JSON at all, most of it near to what the messenger posts."""

from typing import Any, Final

from tests.fuzz.draw import Draw
from tests.fuzz.texts import any_text

_NUMBERS: Final = (0, 1, -1, 2**31, 2**53, 2**63, -(2**63), 10**30, 1.5, 1e308, 1772442000)
_KEYS: Final = (
    "update_id", "message", "edited_message", "callback_query", "chat", "from", "text", "caption",
    "date", "edit_date", "id", "type", "data", "message_id", "entities", "photo", "voice",
    "language_code", "first_name", "is_bot", "reply_to_message", "my_chat_member", "poll", "zq",
)  # fmt: skip


def any_update(draw: Draw) -> Any:
    """Return an update, somewhat or wholly wrong."""
    whole = _sound(draw)
    for _ in range(draw.pick((0, 0, 1, 1, 2, 4))):
        whole = _spoiled(draw, whole)
    return whole


def _sound(draw: Draw) -> Any:
    number = 1 + draw.below(1000)
    chat = {"id": 777, "type": draw.pick(("private", "private", "group", "supergroup", "channel"))}
    person = {
        "id": 777,
        "is_bot": draw.often(3),
        "first_name": any_text(draw, 64) or "a",
        "language_code": draw.pick(("en", "es", "es-MX", "xx", "", any_text(draw, 8))),
    }
    message: dict[str, Any] = {"message_id": 1 + draw.below(50), "date": 1772442000, "chat": chat}
    message["from"] = person
    match draw.below(6):
        case 0 | 1:
            message["text"] = any_text(draw)
        case 2:
            message["text"] = f"/start {any_text(draw, 80)}"
        case 3:
            message["caption"] = any_text(draw, 1024)
        case 4:
            message["photo"] = [
                {"file_id": "a", "file_unique_id": "b", "width": 1, "height": 1},
            ]
        case _:
            message["text"] = any_text(draw, 32)
            message["entities"] = [
                {"type": "bold", "offset": draw.below(5000), "length": draw.below(5000)}
            ]
    match draw.below(4):
        case 0:
            return {"update_id": number, "edited_message": {**message, "edit_date": 1772442005}}
        case 1:
            tapped = {"id": "1", "from": person, "chat_instance": "1", "data": any_text(draw, 64)}
            return {"update_id": number, "callback_query": {**tapped, "message": message}}
        case _:
            return {"update_id": number, "message": message}


def _spoiled(draw: Draw, value: Any) -> Any:
    """Return a JSON value with something in it changed."""
    if draw.often(12):
        return any_json(draw, 2)
    if isinstance(value, dict) and value:
        key = draw.pick(sorted(value))
        if draw.often(15):
            return {k: v for k, v in value.items() if k != key}
        if draw.often(10):
            return {**value, draw.pick(_KEYS): any_json(draw, 2)}
        return {**value, key: _spoiled(draw, value[key])}
    if isinstance(value, list) and value:
        place = draw.below(len(value))
        return [*value[:place], _spoiled(draw, value[place]), *value[place + 1 :]]
    return any_json(draw, 1)


def any_json(draw: Draw, depth: int) -> Any:
    """Return any JSON value."""
    match draw.below(8 if depth else 5):
        case 0:
            return None
        case 1:
            return draw.often(50)
        case 2:
            return draw.pick(_NUMBERS)
        case 3 | 4:
            return any_text(draw, 200)
        case 5:
            return [any_json(draw, depth - 1) for _ in range(draw.below(4))]
        case _:
            return {draw.pick(_KEYS): any_json(draw, depth - 1) for _ in range(draw.below(5))}
