"""Tokens that the vocabulary takes together, with the role that it gives them."""

from dataclasses import dataclass
from typing import Final

from bot.readings.language import Role
from bot.readings.tokens import Kind

NAMING: Final = frozenset(
    {
        Role.SYSTOLIC,
        Role.DIASTOLIC,
        Role.HEART_RATE,
        Role.BEATS,
        Role.PRESSURE,
        Role.OTHER,
        Role.AHEAD,
        Role.SATURATION,
        Role.OVER_NOTHING,
        Role.UNDER_NOTHING,
    }
)
"""Roles of words that name a number."""

_NUMBERS: Final = frozenset({Kind.NUMBER, Kind.ODD})


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """One or more tokens that the vocabulary takes together.

    Attributes:
        kind: The kind of its first token.
        role: What the vocabulary says of it, if it has it.
        first: Its first token.
        last: Its last token.
    """

    kind: Kind
    role: Role | None
    first: int
    last: int

    @property
    def number(self) -> bool:
        """Whether it is a number."""
        return self.role is None and self.kind in _NUMBERS

    @property
    def span(self) -> range:
        """Its tokens."""
        return range(self.first, self.last + 1)
