"""Twelve messages of a person who does a whole test of six readings, as Telegram sends them."""

import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from typing import Any, Final, Protocol

TOKEN: Final = "123456789:AAEhBOweik6ad9r_QXMENQjcrGbqCr4K-bc"
"""A token of the right form, of no bot."""

STEPS: Final = (
    "/start",
    "43",
    "ready",
    "lying down",
    "118/76 68",
    "sitting",
    "116/77 72",
    "standing",
    "117/78 80",
    "115/78 84",
    "116/77 86",
    "118/79 85",
)
"""What is typed, in order."""

TIMED: Final = frozenset({3, 5, 7, 8, 9, 10})
"""The steps after which the person is left alone until a timer rings."""

REST_S: Final = 300
"""Seconds of such a timer with the peers, who all set it and never see it ring here."""

MIDWAY: Final = 6
"""Steps that those have behind them who are in the middle of a test while others are measured."""

FIRST_MIDWAY: Final = 10_000_000
"""The first chat of those; whoever is measured has a smaller number."""

BACKLOG: Final = 100
"""Updates that are handed over at once: what one fetch brings at most."""

PYTHONS: Final = (700, 10, 10)
"""After how many new things Python looks for garbage by itself (its documentation of `gc`)."""

Update = Mapping[str, Any]
_ids = count(1)


def answered(step: int) -> str:
    """Return what a peer answers at a step: as long as an answer of ours."""
    return f"Step {step}. " + "Lie still and breathe normally; I tell you when to measure. " * 3


def said(chat: int, step: int) -> str:
    """Return what a person types at a step: numbers of their own, the same words as others."""
    text = STEPS[step]
    if not text[0].isdigit():
        return text
    if "/" not in text:
        return str(20 + chat % 60)
    systolic, diastolic, rate = (int(number) for number in text.replace("/", " ").split())
    return f"{systolic + chat % 7}/{diastolic} {rate + 12 + chat % 11}"


def update(chat: int, step: int) -> Update:
    """Return the update that a person's message at a step is."""
    return typed(chat, said(chat, step))


def typed(chat: int, text: str) -> Update:
    """Return the update that a message is."""
    number = next(_ids)
    person = {"id": chat, "is_bot": False, "first_name": "Ada", "language_code": "en"}
    message: dict[str, Any] = {
        "message_id": number,
        "date": int(time.time()),
        "chat": {"id": chat, "type": "private", "first_name": "Ada"},
        "from": person,
        "text": text,
    }
    if text.startswith("/"):
        message["entities"] = [{"type": "bot_command", "offset": 0, "length": len(text)}]
    return {"update_id": number, "message": message}


def backlogs(chats: range, step: int) -> Iterator[list[Update]]:
    """Yield what people say at one step, as many together as one fetch brings."""
    for start in range(chats.start, chats.stop, BACKLOG):
        yield [update(chat, step) for chat in range(start, min(start + BACKLOG, chats.stop))]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What of acknowledged updates is there.

    Attributes:
        states: People who stand where their last message had led them.
        words: Messages of theirs that are still known.
        timers: People for whom a timer will ring.
    """

    states: int
    words: int
    timers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a way of holding the conversation is called, and what it promises.

    Attributes:
        name: For the table.
        durable: Whether what it has taken is on disk when it says so.
        holds: What it keeps, in a few words.
        garbage: After how many new things Python looks for garbage with it.
    """

    name: str
    durable: bool
    holds: str
    garbage: tuple[int, int, int] = PYTHONS


class Peer(Protocol):
    """One way of holding the conversation, in this process and without a network."""

    kind: Kind

    async def open(self, folder: Path, midway: int) -> None:
        """Begin in an empty folder, with so many people in the middle of a test."""
        ...

    async def pass_time(self, step: int, chats: range) -> None:
        """Let the time go by that lies before a step. Not measured."""
        ...

    async def take(self, updates: list[Update]) -> None:
        """Take a backlog; on returning all of it may be acknowledged."""
        ...

    async def found(self, chats: range, step: int) -> Found:
        """Return what is there of people whose last acknowledged message was at a step."""
        ...

    async def close(self) -> None:
        """End."""
        ...


class UnavailableError(Exception):
    """A peer that cannot be had on this machine; the message says why."""
