"""Tokens with the role that the vocabulary gives them, and what stands next to what."""

from dataclasses import dataclass
from typing import Final

from bot.readings.labels import JOINS, Join, Role, role_at
from bot.readings.tokens import Kind, Token

NAMING: Final = frozenset(
    {
        Role.SYSTOLIC,
        Role.DIASTOLIC,
        Role.HEART_RATE,
        Role.BEATS,
        Role.PRESSURE,
        Role.OTHER,
        Role.SATURATION,
    }
)
"""Roles of words that name a number."""

_NUMBERS: Final = frozenset({Kind.NUMBER, Kind.ODD})
_PARTING: Final = frozenset({Role.DIVIDER, Role.SIGN})


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


class Elements:
    """The elements of a message. Asking beyond its ends is allowed and finds nothing."""

    def __init__(self, tokens: tuple[Token, ...]) -> None:
        self._tokens = tokens
        self._all: list[Element] = []
        position = 0
        while position < len(tokens):
            role, length = role_at(tokens, position) or (None, 1)
            kind, last = tokens[position].kind, position + length - 1
            self._all.append(Element(kind=kind, role=role, first=position, last=last))
            position += length

    def __len__(self) -> int:
        return len(self._all)

    def __getitem__(self, position: int) -> Element:
        return self._all[position]

    def at(self, position: int) -> Element | None:
        """Return the element at a position, if there is one."""
        return self._all[position] if 0 <= position < len(self._all) else None

    def key(self, position: int) -> str:
        """Return the first token's key; empty where there is no element."""
        element = self.at(position)
        return "" if element is None else self._tokens[element.first].key

    def role(self, position: int) -> Role | None:
        """Return the role, if there is an element and it has one."""
        element = self.at(position)
        return None if element is None else element.role

    def is_number(self, position: int) -> bool:
        """Return whether there is a number."""
        element = self.at(position)
        return element is not None and element.number

    def tight_before(self, position: int) -> bool:
        """Return whether no space stands between the element before and this one."""
        element = self.at(position)
        return element is not None and self._tokens[element.first].tight

    def tight(self, position: int) -> bool:
        """Return whether no space stands on either side of an element."""
        return self.tight_before(position) and self.tight_before(position + 1)

    def parts(self, position: int) -> bool:
        """Return whether the element (or the end) parts what is before from what is after."""
        element = self.at(position)
        if element is None:
            return True
        if element.kind is not Kind.BREAK:
            return element.role in _PARTING
        # The dot of an abbreviated label, as in "sys. 124", parts nothing.
        return not (self.key(position) == "." and self.role(position - 1) in NAMING)

    def join(self, position: int) -> tuple[Join, int] | None:
        """Return what joins the number before `position` to the next, and where that one is."""
        element = self.at(position)
        if element is None:
            return None
        if element.role is Role.MERCURY and self.role(position + 1) is not Role.MERCURY:
            found = self.join(position + 1)
            return found if found is not None and found[0] in {Join.PAIR, Join.WIDE} else None
        arrow = self.key(position) in {"-", "."} and self.key(position + 1) in {">", "."}
        if arrow and self.is_number(position + 2):
            return Join.RANGE, position + 2
        if element.kind is Kind.BREAK or element.first != element.last:
            return None
        join = JOINS.get(self.key(position))
        if join is None or not self.is_number(position + 1):
            return None
        if join in {Join.DOT, Join.COMMA} and not self.tight(position):
            return None
        if join is Join.LINK and not self.tight(position):
            join = Join.DASH
        if join is Join.PAIR and not self.tight(position) and element.kind is Kind.MARK:
            join = Join.WIDE
        return join, position + 1
