"""Records that name nobody: other references, moved dates, none of the person's words."""

import hashlib
import hmac
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date, timedelta
from enum import Enum
from typing import Any, Final

from bot.exporting.choosing import Sent
from bot.protocol.record import TestRecord

LONGEST_MOVE: Final = 364
"""Days by which dates are moved back at most; at least one (design choice: about a year, so that
no season is left)."""

LEAST_OF_KEY: Final = 32
"""Bytes that a key has at least: those of the hash (RFC 2104, section 3, from memory)."""

_DIGITS: Final = 16
"""Hexadecimal digits of a code: 64 bits, so that two people in a clinic get the same by no chance
worth counting."""

_KEPT: Final = frozenset({("Reading", "slot"), ("ProtocolRef", "id")})
"""The texts of a record that are ours and not the person's; every other text is left out."""


@dataclass(frozen=True, slots=True)
class Disguise:
    """What one key makes of references and dates; the same each time.

    Attributes:
        key: Secret, never in a file that goes out.

    Raises:
        ValueError: The key is too short.
    """

    key: bytes

    def __post_init__(self) -> None:
        if len(self.key) < LEAST_OF_KEY:
            raise ValueError(f"a key has at least {LEAST_OF_KEY} bytes")

    def code(self, name: str) -> str:
        """Return what stands for somebody: `R-0123456789abcdef`."""
        return f"R-{self._made_of('person', name).hex()[:_DIGITS]}"

    def days(self, name: str) -> int:
        """Return by how many whole days somebody's dates are moved back."""
        return 1 + int.from_bytes(self._made_of("days", name)[:8]) % LONGEST_MOVE

    def of(self, sent: Sent) -> Sent:
        """Return somebody's tests as nobody's."""
        by = timedelta(days=self.days(sent.name))
        code = self.code(sent.name)
        return Sent(id=code, name=code, records=tuple(_disguised(r, by) for r in sent.records))

    def _made_of(self, what: str, name: str) -> bytes:
        return hmac.digest(self.key, f"{what}\0{name}".encode(), hashlib.sha256)


def _disguised(record: TestRecord, by: timedelta) -> TestRecord:
    hidden = _hidden(record, by)
    assert isinstance(hidden, TestRecord)
    return hidden


def _hidden(value: object, by: timedelta) -> Any:
    """Return a part of a record with its instants moved and the person's texts left out.

    Raises:
        TypeError: It is of a kind that nobody has thought of here, so nothing slips through.
    """
    match value:
        case Enum() | None | bool() | int() | float() | timedelta():
            return value
        case str():
            return None
        case date():
            return value - by
        case tuple():
            return tuple(_hidden(inner, by) for inner in value if not _is_text(inner))
        case _ if is_dataclass(value) and not isinstance(value, type):
            kind = type(value).__name__
            return replace(
                value,
                **{
                    field.name: _hidden(getattr(value, field.name), by)
                    for field in fields(value)
                    if (kind, field.name) not in _KEPT
                },
            )
        case _:
            raise TypeError(f"cannot be disguised: {type(value).__name__}")


def _is_text(value: object) -> bool:
    return isinstance(value, str) and not isinstance(value, Enum)
