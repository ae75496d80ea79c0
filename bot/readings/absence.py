"""Numbers said to be missing: "no pulse shown", "la baja no se ve", "120/??".

What names such a number names nothing in the message, and no other number may take its place.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from bot.protocol.record import Measure
from bot.readings.element import Element
from bot.readings.labels import JOINS
from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.tokens import Kind, Token

_PRESSURES: Final = frozenset({Measure.SYSTOLIC, Measure.DIASTOLIC})

_NAMES: Final[Mapping[Role | None, frozenset[Measure]]] = MappingProxyType(
    {
        **dict.fromkeys(
            (Role.SYSTOLIC, Role.UPPER, Role.TOP, Role.HIGHEST), frozenset({Measure.SYSTOLIC})
        ),
        **dict.fromkeys(
            (Role.DIASTOLIC, Role.LOWER, Role.BOTTOM, Role.FOOT, Role.LOWEST),
            frozenset({Measure.DIASTOLIC}),
        ),
        Role.HEART_RATE: frozenset({Measure.HEART_RATE}),
        Role.PRESSURE: _PRESSURES,
    }
)

_HALVES: Final[Mapping[Role | None, Measure]] = MappingProxyType(
    {Role.OVER_NOTHING: Measure.DIASTOLIC, Role.UNDER_NOTHING: Measure.SYSTOLIC}
)

_SMALL: Final = frozenset({Role.FILLER, Role.POINTER, Role.SELF, Role.COUNTER})
_NEGATIONS: Final = frozenset().union(*(language.negations for language in LANGUAGES))
_SEEN: Final = frozenset().union(*(language.seen for language in LANGUAGES))
_GONE: Final = frozenset().union(*(language.gone for language in LANGUAGES))
_MARKS: Final = frozenset("?-_*x…")
_NOT_AVAILABLE: Final = ["n", "/", "a"]
_ENDS: Final = frozenset({",", ";", "\n", "."})
_NONE: Final[tuple[frozenset[int], frozenset[Measure]]] = frozenset(), frozenset()
_BUT: Final = frozenset({"but", "only", "pero", "solo", "solamente"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """What a message says to be missing.

    Attributes:
        positions: The elements that say so.
        measures: What is missing.
    """

    positions: frozenset[int] = frozenset()
    measures: frozenset[Measure] = frozenset()


def absent(elements: Sequence[Element], tokens: Sequence[Token]) -> Absence:
    """Return what a message says to be missing."""
    halves = frozenset(_HALVES[element.role] for element in elements if element.role in _HALVES)
    positions: set[int] = set()
    measures = set(halves)
    keys = [[token.key for token in tokens[e.first : e.last + 1]] for e in elements]
    for clause in _clauses(elements, keys):
        said, missing = _missing(elements, keys, clause)
        positions.update(said)
        measures |= missing
    for position in range(len(elements)):
        if blank := _blank(elements, keys, position):
            positions.update(blank)
            measures |= _NAMES[elements[position].role]
    return Absence(positions=frozenset(positions), measures=frozenset(measures))


def _blank(
    elements: Sequence[Element], keys: Sequence[Sequence[str]], position: int
) -> range | None:
    """Return the elements of "dia --" or "pulse: n/a", if one begins here."""
    if elements[position].role not in _NAMES or _hangs_on(elements, keys, position - 1):
        return None
    first = position + 1
    first += first < len(elements) and elements[first].role is Role.POINTER
    first_keys = [
        "" if element.number else each[0]
        for element, each in zip(elements[first : first + 3], keys[first : first + 3], strict=True)
    ]
    blanks = 0
    while first + blanks < len(elements) and _is_mark(elements, keys, first + blanks):
        blanks += 1
    marks = 3 if first_keys == _NOT_AVAILABLE else blanks
    after = elements[first + marks] if first + marks < len(elements) else None
    ends = after is None or after.role in _NAMES or keys[first + marks][0] in _ENDS
    return range(position, first + marks) if marks and ends else None


def _is_mark(elements: Sequence[Element], keys: Sequence[Sequence[str]], position: int) -> bool:
    return not elements[position].number and keys[position][0] in _MARKS


def _clauses(elements: Sequence[Element], keys: Sequence[Sequence[str]]) -> Iterator[range]:
    """Yield the stretches without a number, a comma, a stop or an "and" in them."""
    first = 0
    for position in range(len(elements) + 1):
        if position < len(elements) and not _parts(elements[position], keys[position]):
            continue
        if position > first:
            yield range(first, position)
        first = position + 1


def _parts(element: Element, keys: Sequence[str]) -> bool:
    return (
        element.number
        or element.kind is Kind.BREAK
        or element.role in {Role.DIVIDER, Role.SIGN, *_HALVES}
        or keys[0] in _BUT
    )


def _missing(
    elements: Sequence[Element], keys: Sequence[Sequence[str]], clause: range
) -> tuple[Collection[int], frozenset[Measure]]:
    """Return what a clause says to be missing, and the elements that say so.

    Nothing is, if it does not or says more than that.
    """
    named = [position for position in clause if elements[position].role in _NAMES]
    if not named:
        return _NONE
    first, last = named[0], named[-1]
    before = keys[clause.start : first]
    after = keys[last + 1 : clause.stop]
    if any(not _small(elements[p], keys[p]) for p in range(first, last + 1) if p not in named):
        return _NONE
    if not all(_small(elements[p], keys[p]) for p in range(last + 1, clause.stop)):
        return _NONE
    begins = _hangs_on(elements, keys, clause.start - 1)
    ends = clause.stop < len(elements) and elements[clause.stop].number
    said_before = _negated(before) and _near(elements, keys, clause, first)
    said_after = (_negated(after) and _last_seen(after)) or _is_gone(after)
    shown = bool(after) and after[-1][-1] in _SEEN | _GONE
    if ends and not after and said_before and _has_seen(before):
        # "no sale la baja 124": the number is not of what is missing.
        return frozenset(), _names(elements, named)
    if ends and not (shown and elements[clause.stop - 1].role is not Role.POINTER):
        return _NONE
    if begins and first == clause.start:
        return _NONE
    if not (said_before or said_after):
        return _NONE
    return clause, _names(elements, named)


def _names(elements: Sequence[Element], named: Sequence[int]) -> frozenset[Measure]:
    return frozenset().union(*(_NAMES[elements[position].role] for position in named))


def _has_seen(words: Sequence[Sequence[str]]) -> bool:
    return any(key in _SEEN for keys in words for key in keys)


def _hangs_on(elements: Sequence[Element], keys: Sequence[Sequence[str]], before: int) -> bool:
    """Return whether a number right before a clause may be the one that its first word names."""
    if before < 0 or not elements[before].number:
        return False
    if before > 0 and elements[before - 1].role in _NAMES:
        return False
    return before < 2 or JOINS.get(keys[before - 1][0]) is not Join.PAIR


def _near(
    elements: Sequence[Element], keys: Sequence[Sequence[str]], clause: range, first: int
) -> bool:
    """Return whether only small words stand between what says no and the first name."""
    said = max(
        position
        for position in range(clause.start, first)
        if _negated([keys[position]]) or _is_gone([keys[position]])
    )
    return all(_small(elements[position], keys[position]) for position in range(said, first))


def _small(element: Element, keys: Sequence[str]) -> bool:
    return element.role in _SMALL or all(
        key in _NEGATIONS or key in _SEEN or key in _GONE for key in keys
    )


def _negated(words: Sequence[Sequence[str]]) -> bool:
    return any(key in _NEGATIONS or key in _GONE for keys in words for key in keys)


def _is_gone(words: Sequence[Sequence[str]]) -> bool:
    return any(key in _GONE for keys in words for key in keys)


def _last_seen(words: Sequence[Sequence[str]]) -> bool:
    """Return whether something after a "no" says what the number does not do."""
    keys = [key for each in words for key in each]
    said = next((place for place, key in enumerate(keys) if key in _NEGATIONS), len(keys))
    return any(key in _SEEN for key in keys[said + 1 :])
