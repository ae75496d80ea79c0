"""Tokens with the role that the vocabulary gives them, and what stands next to what."""

import unicodedata
from dataclasses import replace
from typing import Final

from bot.protocol.record import Measure
from bot.readings.absence import absent
from bot.readings.element import NAMING, Element
from bot.readings.labels import HOURS, JOINS, role_at
from bot.readings.language import Join, Role
from bot.readings.plausibility import NEVER_A_READING, ORDINARY
from bot.readings.shapes import MOST_TIME, value
from bot.readings.tokens import Kind, Token

_PARTING: Final = frozenset({Role.DIVIDER, Role.SIGN})

_PAIRS: Final = frozenset({Join.PAIR, Join.WIDE})
_LEADING: Final = frozenset(
    {Role.CORRECTION, Role.AGAIN, Role.FILLER, Role.DIVIDER, Role.POINTER, Role.SELF}
)
_WITHIN: Final = frozenset({Role.FILLER, Role.POINTER, Role.AHEAD})
_UPPER: Final = frozenset({Role.UPPER, Role.TOP, Role.HIGHEST, Role.SYSTOLIC})
_LOWER: Final = frozenset({Role.LOWER, Role.BOTTOM, Role.LOWEST, Role.DIASTOLIC, Role.FOOT})
_UNSETTLED: Final = frozenset(
    {
        Role.HIGHEST,
        Role.LOWEST,
        Role.AHEAD,
        Role.UPPER,
        Role.LOWER,
        Role.TOP,
        Role.BOTTOM,
        Role.FOOT,
        Role.MIDDLE,
        Role.PLAIN,
        Role.HEARD,
        Role.KIN,
        Role.SELF,
        Role.CORRECTION,
        Role.AGAIN,
    }
)
_ERROR: Final = frozenset({"e", "er", "ee"})


class Elements:
    """The elements of a message. Asking beyond its ends is allowed and finds nothing.

    Pictures among the tokens are passed over, as if they were spaces.
    """

    def __init__(self, tokens: tuple[Token, ...]) -> None:
        pictures = [place for place, token in enumerate(tokens) if _is_picture(token)]
        self.pictures = frozenset(pictures)
        tokens = (
            tuple(
                replace(token, tight=False) if place - 1 in self.pictures else token
                for place, token in enumerate(tokens)
            )
            if pictures
            else tokens
        )
        self._tokens = tokens
        self._all: list[Element] = []
        position = 0
        while position < len(tokens):
            if position in self.pictures:
                position += 1
                continue
            role, length = role_at(tokens, position) or (None, 1)
            kind, last = tokens[position].kind, position + length - 1
            if _error_code(tokens, position):
                role = Role.AHEAD
            self._all.append(Element(kind=kind, role=role, first=position, last=last))
            position += length
        self._roles = frozenset(element.role for element in self._all)
        self._three = self._middle()
        self.absence = absent(self._all, tokens)
        for position in self.absence.positions:
            self._all[position] = replace(self._all[position], role=Role.ABSENT)
        for position, element in enumerate(self._all):
            if element.role in _UNSETTLED:
                self._all[position] = replace(element, role=self._settled(position))

    def _settled(self, position: int) -> Role | None:
        """Return the role of an element, where it hangs on the rest of the message."""
        role = self._all[position].role
        match role:
            case Role.MIDDLE:
                return Role.DIASTOLIC if self._three else Role.PLAIN
            case Role.PLAIN if self._complaint_with_a_rate(position):
                return Role.HEART_RATE
            case Role.FOOT | Role.BOTTOM if self._three:
                return Role.HEART_RATE
            case Role.FOOT:
                return Role.DIASTOLIC
            case Role.UPPER | Role.TOP | Role.HIGHEST if self._both_pressures():
                return Role.SYSTOLIC
            case Role.LOWER | Role.BOTTOM if self._both_pressures():
                return Role.DIASTOLIC
            case Role.TOP if self._before_a_number(position):
                return Role.SYSTOLIC
            case Role.BOTTOM if self._before_a_number(position):
                return Role.DIASTOLIC
            case Role.LOWEST if self._both_pressures() and not self._minutes(position):
                return Role.DIASTOLIC if self.is_number(position + 1) else Role.TIME
            case Role.UPPER | Role.LOWER | Role.TOP | Role.BOTTOM:
                return Role.PLAIN
            case Role.HIGHEST:
                return Role.HEDGE
            case Role.LOWEST:
                return Role.TIME
            case Role.KIN:
                return Role.NOT_NOW if self.is_number(position + 1) else Role.PLAIN
            case Role.HEARD:
                return Role.HEART_RATE if self._after_a_pair(position) else Role.PLAIN
            case Role.AHEAD:
                after = (e for e in self._all[position + 1 :] if e.role not in _WITHIN)
                following = next(after, None)
                return role if following is not None and following.number else Role.PLAIN
            case Role.SELF:
                lone = self.is_number(position + 1) and self.join(position + 2) is None
                return Role.HEDGE if lone else Role.FILLER
            case Role.CORRECTION | Role.AGAIN:
                if self._leads(position):
                    return role
                return Role.HEDGE if role is Role.CORRECTION else Role.PLAIN
            case _:
                return role

    def _middle(self) -> bool:
        """Return whether a number stands in the middle, with another one above it."""
        if Role.MIDDLE not in self._roles or self._roles.isdisjoint(_UPPER):
            return False
        return any(
            self.is_number(place - 1)
            or self.is_number(place + 1)
            or (self.role(place + 1) is Role.POINTER and self.is_number(place + 2))
            for place, element in enumerate(self._all)
            if element.role is Role.MIDDLE
        )

    def _complaint_with_a_rate(self, position: int) -> bool:
        """Return whether a complaint of the pulse names a rate, as in "pulse racing at 118"."""
        if self.role(position + 1) is not Role.POINTER or not self.is_number(position + 2):
            return False
        rate = value(self.key(position + 2)) in ORDINARY[Measure.HEART_RATE]
        found = role_at(self._tokens, self._all[position].first, most=1)
        return rate and found is not None and found[0] is Role.HEART_RATE

    def _minutes(self, position: int) -> bool:
        """Return whether the number before an element may be a time."""
        return self.is_number(position - 1) and value(self.key(position - 1)) <= MOST_TIME

    def _both_pressures(self) -> bool:
        """Return whether there are words for either pressure."""
        lower = self._three or not self._roles.isdisjoint(_LOWER)
        return lower and not self._roles.isdisjoint(_UPPER)

    def _before_a_number(self, position: int) -> bool:
        """Return whether a number that can be a pressure follows, at most with an "is" between."""
        place = position + 1 + (self.role(position + 1) is Role.POINTER)
        return self.is_number(place) and value(self.key(place)) > NEVER_A_READING.high

    def _after_a_pair(self, position: int) -> bool:
        """Return whether a number follows, a pair of pressures stands before, and no rate does."""
        pair = any(
            self.is_number(place) and (found := self.join(place + 1)) and found[0] in _PAIRS
            for place in range(position - 2)
        )
        rate = any(element.role in {Role.HEART_RATE, Role.BEATS} for element in self._all)
        return self.is_number(position + 1) and pair and not rate

    def _leads(self, position: int) -> bool:
        """Return whether what says "no" or "again" comes first, and numbers right after it."""
        if any(element.role not in _LEADING for element in self._all[:position]):
            return False
        after = (element for element in self._all[position:] if element.role not in _LEADING)
        following = next((e for e in after if e.kind is not Kind.BREAK), None)
        return following is not None and (following.number or following.role in NAMING)

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
        if join is Join.DOT and self._clock(position):
            join = Join.COLON
        if join is Join.LINK and not self.tight(position):
            join = Join.DASH
        if join is Join.PAIR and not self.tight(position) and element.kind is Kind.MARK:
            join = Join.WIDE
        return join, position + 1

    def _clock(self, position: int) -> bool:
        """Return whether a dot stands in a time of day, as in "a las 7.40"."""
        hour, minute = self.key(position - 1), self.key(position + 1)
        said = (self.key(position - 2),) in HOURS and not self.tight_before(position - 1)
        return said and value(hour) < 24 and len(minute) == 2 and value(minute) < 60


def _error_code(tokens: tuple[Token, ...], position: int) -> bool:
    """Return whether an "E" begins what a cuff shows when it fails, as in "E2"."""
    if tokens[position].key not in _ERROR or position + 1 == len(tokens):
        return False
    return tokens[position + 1].kind is Kind.NUMBER and tokens[position + 1].tight


def _is_picture(token: Token) -> bool:
    """Return whether a token is an emoji or the like."""
    return (
        token.kind is Kind.MARK
        and unicodedata.category(token.key[0]) in {"So", "Sk"}
        and role_at((token,), 0) is None
    )
