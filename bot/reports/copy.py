"""The person's own copy of everything that is kept of them, as a file they can read."""

import json
import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time, timedelta
from enum import Enum
from typing import Any, Final, get_args

from bot.booking.plan import Booking
from bot.engine.asides import Aside
from bot.engine.events import Event
from bot.engine.state import Conversation, Stage
from bot.protocol.definition import ProtocolRef
from bot.reports.file import File
from bot.runtime.ports import Kept

_TOLD_APART: Final = frozenset({*get_args(Event), *get_args(Stage), *get_args(Aside)})
"""What is told apart by its kind; the kind is written beside its facts."""


def copy_of(kept: Kept) -> File:
    """Return all that is kept of a person as JSON in UTF-8; the same facts give the same bytes.

    Instants are ISO 8601 in UTC, lengths of time are in seconds, and `null` is what was not told.

    Keys:
        about: What the file is.
        conversation: Its opaque id, language, age band, what was asked last and what is open.
        profile: What is known of the person.
        bookings: The booking that stands, if one does.
        beginning: The conversation as it was when the events begin.
        events: All that happened since, in order, with the person's own words.
        tests: All tests that have ended, oldest first, with every reading and symptom.
    """
    conversation = _plain(kept.conversation)
    whole = {
        "about": "All that Wallside keeps of you",
        "conversation": {key: value for key, value in conversation.items() if key != "profile"},
        "profile": conversation["profile"],
        "bookings": [_plain(booking) for booking in _bookings(kept.conversation)],
        "beginning": _plain(kept.history.beginning),
        "events": _plain(kept.history.events),
        "tests": _plain(kept.results),
    }
    text = json.dumps(whole, ensure_ascii=False, indent=2)
    # A lone half of a surrogate pair has no UTF-8; its escape is what JSON calls it as well.
    content = f"{text}\n".encode(errors="backslashreplace")
    return File(name="wallside-my-data.json", media_type="application/json", content=content)


def _bookings(conversation: Conversation) -> Sequence[Booking]:
    """Return the bookings that the conversation holds, each once."""
    return tuple(dict.fromkeys(_within(conversation)))


def _within(value: object) -> Iterator[Booking]:
    if isinstance(value, Booking):
        yield value
    elif is_dataclass(value):
        for field in fields(value):
            yield from _within(getattr(value, field.name))


def _plain(value: object) -> Any:
    """Return a value as JSON knows it.

    Raises:
        TypeError: It is of a kind that nobody has thought of here, so nothing is left out.
    """
    match value:
        case Enum():
            return value.value
        case None | bool() | int() | float() | str():
            return value
        case datetime():
            return value.astimezone(UTC).isoformat()
        case date() | time():
            return value.isoformat()
        case timedelta():
            return {"seconds": value.total_seconds()}
        case ProtocolRef():
            return str(value)
        case Mapping():
            return {str(_plain(key)): _plain(inner) for key, inner in value.items()}
        case Set():
            return sorted((_plain(inner) for inner in value), key=str)
        case Sequence():
            return [_plain(inner) for inner in value]
        case _ if is_dataclass(value):
            facts = {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
            return {**_kind(value), **facts}
        case _:
            raise TypeError(f"cannot be put in a copy: {type(value).__name__}")


def _kind(value: object) -> dict[str, str]:
    """Return what a fact of several kinds is, in words: `WordsGiven` is "words given"."""
    if type(value) not in _TOLD_APART:
        return {}
    return {"what": re.sub(r"(?<=[a-z])(?=[A-Z])", " ", type(value).__name__).lower()}
