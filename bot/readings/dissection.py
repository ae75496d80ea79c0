"""Tokens into pieces.

Numbers that are plainly something else (clock times, dates, "5 min", "6/10") are left out here.
"""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Final

from bot.protocol.record import Measure
from bot.readings.element import NAMING, Element
from bot.readings.elements import Elements
from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.pieces import Group, Label, Piece, Pieces, Word
from bot.readings.plausibility import NEVER_A_READING
from bot.readings.shapes import MOST_TIME, Shape, shapes, value
from bot.readings.tokens import Kind, Token

_NAMES: Final[Mapping[Role, tuple[Measure | None, ...]]] = {
    Role.SYSTOLIC: (Measure.SYSTOLIC,),
    Role.DIASTOLIC: (Measure.DIASTOLIC,),
    Role.HEART_RATE: (Measure.HEART_RATE,),
    Role.BEATS: (Measure.HEART_RATE,),
    Role.OVER_NOTHING: (Measure.SYSTOLIC,),
    Role.UNDER_NOTHING: (Measure.DIASTOLIC,),
    Role.PRESSURE: (Measure.SYSTOLIC, Measure.DIASTOLIC),
}
_AMOUNTS: Final = frozenset({Role.AMOUNT, Role.PERCENT})
_UNITS: Final = _AMOUNTS | {Role.TIME}
_UNKNOWN: Final = frozenset({Role.HEDGE, Role.PLAIN}) | _UNITS
_SAID: Final = frozenset({Role.NOT_NOW, Role.THEIRS, Role.CORRECTION, Role.AGAIN, Role.SAME})
_MAY_TOUCH_BEFORE: Final = NAMING | {Role.MERCURY}
_MAY_TOUCH_AFTER: Final = _MAY_TOUCH_BEFORE | _UNITS | {Role.HALF_DAY}
_MOST_PERCENT: Final = 100
_MOST_PRIME: Final = NEVER_A_READING.high
_LAST_COUNT: Final = 10  # design choice: "reading 11" would be asked about
_LAST_HOUR: Final = 12
_MEDICINES: Final = (
    *("sartan", "pril", "olol", "dipine", "dipino", "thiazide", "tiazida", "statin", "statina"),
    *("gliptin", "gliptina", "gliflozin", "gliflozina"),
)
"""Ends of the names of medicines for heart and pressure: stems of the WHO's list (from memory)."""

_SECONDS: Final = frozenset().union(*(language.seconds for language in LANGUAGES))
_WITHIN: Final = frozenset().union(*(language.within for language in LANGUAGES)) | {"/"}
_STROKES: Final = frozenset("/-·.")
_KEPT: Final = 8
"""Messages in pieces to keep: each is looked at several times, one after the other."""


@lru_cache(maxsize=_KEPT)
def take_apart(tokens: tuple[Token, ...]) -> Pieces:
    """Return the pieces of a message."""
    return _Reader(Elements(tokens)).read()


class _Reader:
    """Walks once over the elements."""

    def __init__(self, elements: Elements) -> None:
        self._elements = elements
        self._items: list[Piece] = []
        self._soft: set[int] = set(elements.pictures)
        self._divided = False
        self._broken = False
        self._said: set[Role] = set()

    def read(self) -> Pieces:
        position = 0
        while position < len(self._elements):
            if self._elements.is_number(position):
                position = self._numbers(position)
            else:
                self._word_or_mark(position)
                position += 1
        return Pieces(
            items=tuple(self._items),
            soft=frozenset(self._soft),
            not_now=Role.NOT_NOW in self._said,
            theirs=Role.THEIRS in self._said,
            correction=Role.CORRECTION in self._said,
            again=Role.AGAIN in self._said,
            same=Role.SAME in self._said,
            absent=self._elements.absence.measures,
        )

    def _add(self, piece: Piece) -> None:
        if self._divided or self._broken:
            piece = replace(piece, divided=self._divided, broken=self._broken)
            self._divided = self._broken = False
        self._items.append(piece)

    def _word_or_mark(self, position: int) -> None:
        element = self._elements[position]
        role, first, last = element.role, element.first, element.last
        if role in _UNKNOWN or (role is None and element.kind is Kind.WORD):
            medicine = role is None and self._elements.key(position).endswith(_MEDICINES)
            hedge = role is Role.HEDGE or medicine
            hedge &= not self._elements.parts(position + 1)
            self._add(Word(first=first, last=last, hedge=hedge))
        elif role is Role.ABSENT:
            self._soft.update(element.span)
            self._divided = True
        elif role in _SAID:
            self._said.add(role)
        elif role in NAMING:
            self._label(position, element, _NAMES.get(role, (None,)))
        else:
            self._soft.update(element.span)
            if self._elements.parts(position):
                self._divided = True
                self._broken |= element.kind is Kind.BREAK

    def _label(self, position: int, element: Element, names: tuple[Measure | None, ...]) -> None:
        elements = self._elements
        hyphen = elements.key(position + 1) in {"-", "·"} and elements.tight(position + 1)
        points = elements.role(position + 1) is Role.POINTER or hyphen
        self._add(
            Label(
                first=element.first,
                last=element.last,
                names=names,
                share=element.role is Role.SATURATION,
                backward=element.role is Role.OVER_NOTHING,
                forward=element.role in {Role.AHEAD, Role.UNDER_NOTHING}
                or (points and elements.is_number(position + 2)),
            )
        )

    def _numbers(self, start: int) -> int:
        """Take the numbers that hang together from here; return the position after them."""
        elements = self._elements
        if self._counts(start):
            return start + 1
        cells = [start]
        joins: list[Join] = []
        after = start + 1
        while (found := elements.join(after)) is not None:
            join, position = found
            count = joins or value(elements.key(start)) in NEVER_A_READING
            if join is Join.COLON and count and not elements.tight_before(position):
                break  # "10:42: 141/90", "minute 1: 141/90": what was measured then
            joins.append(join)
            cells.append(position)
            after = position + 1
        odd = {index for index, cell in enumerate(cells) if elements[cell].kind is Kind.ODD}
        for begin, shape in shapes([elements.key(cell) for cell in cells], joins, odd):
            first, last = cells[begin], cells[begin + len(shape.numbers) - 1]
            if begin > 0:
                self._divided = True
                self._soft.update(elements[first - 1].span)
            dashed = begin > 0 and joins[begin - 1] is not Join.COMMA
            if last != cells[-1]:
                self._group(first, last, shape, dashed=dashed)
            elif shape.other:
                # What is left out takes its unit with it.
                after += elements.role(after) in {*_UNITS, Role.HALF_DAY}
            else:
                self._group(first, last, shape, dashed=dashed)
                after += self._unit(after)
        return after

    def _counts(self, position: int) -> bool:
        """Return whether a number is a count, as in "reading 2: 124/76"."""
        elements = self._elements
        counter = elements.role(position - 1) is Role.COUNTER or elements.key(position - 1) == "#"
        joined = elements.join(position + 1)
        alone = joined is None or joined[0] in {Join.COLON, Join.DASH}
        if not (counter and alone and value(elements.key(position)) <= _LAST_COUNT):
            return False
        self._soft.difference_update(elements[position - 1].span)
        return True

    def _group(self, begin: int, end: int, shape: Shape, *, dashed: bool) -> None:
        if shape.other:
            return
        key = self._elements.key
        self._add(
            Group(
                first=self._elements[begin].first,
                last=self._elements[end].last,
                shape=shape,
                odd=shape.odd or self._spoilt(begin, end),
                dashed=dashed,
                touching=self._touches(begin),
                bracketed=key(begin - 1) in {"(", "["} and key(end + 1) in {")", "]"},
            )
        )

    def _touches(self, begin: int) -> bool:
        """Return whether a mark stands between a number and the one before as within a list."""
        elements = self._elements
        listed = elements.key(begin - 1) in {"|", ";"} or elements.tight(begin - 1)
        picture = elements[begin].first - 1 in elements.pictures
        listed |= picture and elements.tight_before(begin - 1)
        return elements.is_number(begin - 2) and listed

    def _spoilt(self, begin: int, end: int) -> bool:
        """Return whether what stands next to numbers makes them something else."""
        elements = self._elements
        if elements.role(begin - 1) is Role.SIGN:
            plus = elements.key(begin - 1) == "+"
            sum_sign = elements.is_number(begin - 2) and elements.tight_before(begin - 1)
            after_a_pair = sum_sign and elements.join(begin - 3) == (Join.PAIR, begin - 2)
            return not (plus and (after_a_pair or not elements.tight_before(begin)))
        before = begin - 1
        if elements.key(before) in _STROKES and elements.tight(before):
            before -= 1
        return (elements.tight_before(begin) and self._runs_into(before, _MAY_TOUCH_BEFORE)) or (
            elements.tight_before(end + 1) and self._runs_into(end + 1, _MAY_TOUCH_AFTER)
        )

    def _runs_into(self, position: int, allowed: frozenset[Role]) -> bool:
        element = self._elements.at(position)
        if element is None or element.role in allowed:
            return False
        unit = element.role in _UNITS or self._elements.key(position) == "'"
        return element.number or unit or element.kind is Kind.WORD

    def _unit(self, position: int) -> bool:
        """Look at the unit after the last group; return whether there is one."""
        unit, group = self._elements.at(position), self._items[-1]
        if unit is None or not isinstance(group, Group):
            return False
        numbers, joins = group.shape.numbers, group.shape.joins
        whole = replace(group, last=unit.last)
        hour = len(numbers) <= 2 and Join.PAIR not in joins and numbers[0] <= _LAST_HOUR
        prime = self._elements.key(position) == "'" and self._elements.tight_before(position)
        timed = prime or unit.role is Role.TIME or (unit.role is Role.HALF_DAY and hour)
        match unit.role:
            case Role.MERCURY:
                self._items[-1] = replace(whole, mercury=True)
            case Role.BEATS if group.shape.loose and len(numbers) == 2:
                self._part(group, unit)
            case Role.BEATS if Join.PAIR not in joins or len(numbers) == 3:
                odd = group.odd or len(numbers) == 2
                self._items[-1] = replace(whole, beats=not odd, odd=odd)
            case role if (timed or role in _AMOUNTS) and (
                self._misplaced(group, role, timed=timed) or self._runs_on(position + 1)
            ):
                self._items[-1] = replace(whole, odd=True)
            case Role.AMOUNT | Role.PERCENT as role:
                self._items[-1] = replace(whole, foreign=True, percent=role is Role.PERCENT)
            case _ if timed:
                self._leave_out()
                self._count_beats(position)
            case _:
                return False
        return True

    def _part(self, group: Group, unit: Element) -> None:
        """Take "76 / 72 bpm" as the two numbers of a list that it must be."""
        first, second = group.shape.numbers
        self._soft.update(range(group.first + 1, group.last))
        self._items[-1] = replace(group, last=group.first, shape=Shape(numbers=(first,)))
        self._divided = True
        rate = Shape(numbers=(second,))
        odd = group.odd
        self._add(Group(first=group.last, last=unit.last, shape=rate, odd=odd, beats=not odd))

    def _misplaced(self, group: Group, role: Role | None, *, timed: bool) -> bool:
        """Return whether a unit that is not of a reading stands by what should be one."""
        before = self._items[-2] if len(self._items) > 1 else None
        labelled = isinstance(before, Label) and before.names != (None,) and not group.divided
        numbers, joins = group.shape.numbers, group.shape.joins
        return (
            labelled
            or Join.PAIR in joins
            or len(numbers) > 2
            or (role is Role.PERCENT and max(numbers) > _MOST_PERCENT)
            or (timed and role is not Role.HALF_DAY and max(numbers) > _most(role))
        )

    def _runs_on(self, position: int) -> bool:
        """Return whether a number follows without a space, at most with a stroke between."""
        elements = self._elements
        if elements.key(position) in _STROKES and elements.tight(position):
            position += 1
        return elements.is_number(position) and elements.tight_before(position)

    def _count_beats(self, unit: int) -> None:
        """Take "50 in 30 seconds" for a count, which is no rate."""
        key, last = self._elements.key, self._items[-1] if self._items else None
        counted = key(unit) in _SECONDS and key(unit - 2) in _WITHIN
        if counted and isinstance(last, Group) and not self._divided:
            self._items[-1] = replace(last, odd=True, beats=False)

    def _leave_out(self) -> None:
        """Take the last group back, as if it had not been there."""
        gone = self._items.pop()
        self._divided |= gone.divided
        self._broken |= gone.broken


def _most(role: Role | None) -> int:
    """Return the largest number that a unit of time makes a time without a doubt."""
    return MOST_TIME if role is Role.TIME else _MOST_PRIME
