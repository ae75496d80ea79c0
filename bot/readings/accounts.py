"""What every number of a message is, by the labels and units right beside it, and nothing else.

Other words do not count here, so that a message is not refused for the company its numbers keep.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from bot.protocol.record import Measure
from bot.readings.claims import (
    Claim,
    elsewhere,
    is_decimal,
    labels_after,
    labels_before,
    named_otherwise,
    number_at,
    own,
)
from bot.readings.context import Weighed
from bot.readings.labels import role_at
from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.pieces import Group, Label, Piece, Word
from bot.readings.plausibility import (
    AGES,
    ORDINARY,
    ordinary,
)
from bot.readings.slips import slip
from bot.readings.tokens import Token

_S: Final = Measure.SYSTOLIC
_D: Final = Measure.DIASTOLIC
_H: Final = Measure.HEART_RATE
_FORMS: Final[Mapping[tuple[Join, ...], tuple[Measure, ...]]] = {
    (Join.PAIR,): (_S, _D),
    (Join.PAIR, Join.PAIR): (_S, _D, _H),
    (Join.PAIR, Join.LINK): (_S, _D, _H),
}

_MOST_SINGLES: Final = 6
"""More numbers than this and a message is looked at no further (design choice)."""


_TYPED: Final = frozenset().union(*(language.typed for language in LANGUAGES))


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """Numbers that are what they are without a doubt, where every other one is something else.

    Attributes:
        numbers: The numbers by what they are.
        places: The pieces that say so.
    """

    numbers: Mapping[Measure, int]
    places: frozenset[int]


def account(weighed: Weighed, tokens: tuple[Token, ...]) -> Account | None:
    """Return what the numbers of a message are; `None` if one of them may be two things, or any."""
    items = weighed.items
    wholes: list[int] = []
    singles: list[int] = []
    aged = False
    for place, item in enumerate(items):
        if not isinstance(item, Group):
            continue
        if elsewhere(item):
            if _stray(items, place):
                return None
            if named_otherwise(items, place):
                singles.append(place)
            continue
        if _age(items, place, tokens):
            aged = True
            continue
        if place in weighed.hedged or item.odd:
            return None
        (singles if len(item.shape.numbers) == 1 else wholes).append(place)
    if len(wholes) > 1 or len(singles) > _MOST_SINGLES:
        return None
    wrong = [place for place in singles if _mistyped(items, place, tokens)]
    claimed = _claimed(items, [place for place in singles if place not in wrong], tokens)
    if claimed is None:
        return None
    numbers, places = claimed
    for place in wholes:
        whole = _whole(items, place)
        if whole is None or any(numbers.get(m, n) != n for m, n in whole.items()):
            return None
        if not {_S, _D}.isdisjoint(numbers):
            return None
        numbers |= whole
        places |= {place}
    if not _likely(numbers) or (aged and len(numbers) < len(ORDINARY)):
        return None
    said = [str(number) for number in numbers.values()]
    if not all(any(slip(str(number_at(items, at)), right) for right in said) for at in wrong):
        return None
    return Account(numbers=numbers, places=frozenset(places))


def _whole(items: Sequence[Piece], place: int) -> dict[Measure, int] | None:
    """Return the numbers of a pair, or of a pair and a rate written as one, if they are likely."""
    group, before = items[place], items[place - 1] if place else None
    if not isinstance(group, Group) or (form := _FORMS.get(group.shape.joins)) is None:
        return None
    named = isinstance(before, Label) and not group.divided and len(before.names) == 1
    if named or (group.shape.loose and len(form) == len(ORDINARY)):
        return None
    return dict(zip(form, group.shape.numbers, strict=True))


def _likely(numbers: Mapping[Measure, int]) -> bool:
    rate = numbers.get(_H)
    if rate is not None and rate not in ORDINARY[_H]:
        return False
    if _S in numbers and _D in numbers:
        return ordinary(numbers[_S], numbers[_D], rate)
    return not {_S, _D} & numbers.keys() and rate is not None


def _claimed(
    items: Sequence[Piece], singles: Sequence[int], tokens: tuple[Token, ...]
) -> tuple[dict[Measure, int], frozenset[int]] | None:
    """Return what lone numbers are, and the pieces that say so.

    Labels stand all before their numbers, or all after, or in the one way that is left.
    """
    before = [own(items, place) or list(labels_before(items, place, tokens)) for place in singles]
    after = [own(items, place) or list(labels_after(items, place)) for place in singles]
    either = [[*first, *second] for first, second in zip(before, after, strict=True)]
    found = [way for claims in (before, after) for way in _ways(claims)] or list(_ways(either))
    outcomes = [_numbers(items, singles, way) for way in found]
    if not outcomes or any(outcome is None or outcome != outcomes[0] for outcome in outcomes):
        return None
    numbers = outcomes[0] or {}
    labels = {label for measure, label in found[0] if measure is not None and label is not None}
    named = {place for place, (name, _) in zip(singles, found[0], strict=True) if name is not None}
    return numbers, frozenset(labels | named)


def _ways(claims: Sequence[Sequence[Claim]]) -> Iterator[tuple[Claim, ...]]:
    """Yield every way to give each number one of its claims, no label twice."""
    for way in product(*claims):
        labels = [label for _, label in way if label is not None]
        if len(labels) == len(set(labels)):
            yield way


def _numbers(
    items: Sequence[Piece], singles: Sequence[int], way: Sequence[Claim]
) -> dict[Measure, int] | None:
    found: dict[Measure, int] = {}
    for place, (measure, _) in zip(singles, way, strict=True):
        number = number_at(items, place)
        if measure is not None and found.setdefault(measure, number) != number:
            return None
    return found


def _age(items: Sequence[Piece], place: int, tokens: tuple[Token, ...]) -> bool:
    """Return whether a number is an age where all of a reading is found beside: "I'm 71 and …"."""
    before, after = items[place - 1] if place else None, items[place + 1 : place + 2]
    if not isinstance(before, Word) or not after or not after[0].divided or items[place].divided:
        return False
    group = items[place]
    lone = isinstance(group, Group) and len(group.shape.numbers) == 1 and not group.odd
    says = role_at(tokens, before.last) == (Role.SELF, 1)
    return lone and says and number_at(items, place) in AGES


def _mistyped(items: Sequence[Piece], place: int, tokens: tuple[Token, ...]) -> bool:
    """Return whether a number was typed wrong, as in "I put 182, it was 128"."""
    before, after = items[place - 1] if place else None, items[place + 1 : place + 2]
    if not isinstance(before, Word) or not after or not after[0].divided:
        return False
    between = range(items[place].last + 1, after[0].first)
    says = any((role_at(tokens, at) or (None,))[0] is Role.POINTER for at in between)
    return says and tokens[before.last].key in _TYPED and not items[place].divided


def _stray(items: Sequence[Piece], place: int) -> bool:
    """Return whether a small number may be a part of one with a space in it: "72 1", "9 93"."""
    group, before = items[place], items[place - 1] if place else None
    if not isinstance(group, Group) or group.foreign or is_decimal(group) or group.broken:
        return False
    after = items[place + 1] if place + 1 < len(items) else None
    named = isinstance(before, Label) and before.names != (None,)
    led = isinstance(after, Group) and not (after.foreign or after.divided)
    return named or led or (isinstance(before, Group) and not before.foreign)
