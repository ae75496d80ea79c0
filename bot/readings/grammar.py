"""Named and unnamed numbers into one reading."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.binding import Binding, Place
from bot.readings.context import APART, DIVIDED, Weighed, gap
from bot.readings.drafts import Draft, StuckError
from bot.readings.language import Join
from bot.readings.outcome import Problem
from bot.readings.pieces import Group, Piece
from bot.readings.plausibility import (
    LIKE_SATURATION,
    POSSIBLE,
    PULSE_PRESSURE,
    heart_rate_may_lead,
)

_S: Final = Measure.SYSTOLIC
_D: Final = Measure.DIASTOLIC
_H: Final = Measure.HEART_RATE
_ORDER: Final = (_S, _D, _H)
_PRESSURES: Final = frozenset({_S, _D})
_NAMED_WHOLE: Final[frozenset[frozenset[Measure | None]]] = frozenset(
    {_PRESSURES, frozenset({_H, None}), frozenset(_ORDER)}
)
_HIGHEST: Final = max(bounds.high for bounds in POSSIBLE.values())


def draft(weighed: Weighed, binding: Binding, known: Values, into: Draft) -> None:
    """Put together the reading that one way to take the labels gives.

    Args:
        weighed: The message.
        binding: The way to take its labels.
        known: The numbers given before.
        into: Where the numbers go; on `StuckError` it holds those found so far.

    Raises:
        StuckError: It comes to no reading.
    """
    for (place, cell), measure in binding.named.items():
        if measure is not None:
            _put_named(weighed, place, cell, measure, into)
    if binding.halved:
        place, cell = binding.halved[0]
        raise StuckError(Problem.WHICH_NUMBER, _group(weighed.items, place).shape.numbers[cell])
    bare: list[Place] = []
    for place, item in enumerate(weighed.items):
        if not isinstance(item, Group) or item.foreign:
            continue
        named = {
            cell: binding.named[place, cell]
            for cell in range(len(item.shape.numbers))
            if (place, cell) in binding.named
        }
        if not named and item.odd and Join.PAIR in item.shape.joins:
            raise StuckError(Problem.WHICH_NUMBER, unclear=True)
        if named:
            _complete(item, place, named, into)
            if place in weighed.suspects and not into.named.issuperset(into.of(place)):
                raise StuckError(Problem.WHICH_NUMBER, unclear=True)
        elif not item.odd and place not in weighed.suspects:
            if _ends_range(weighed.items, place, binding):
                raise StuckError(Problem.WHICH_NUMBER, unclear=True)
            bare += _unnamed(item, place, into)
    _fill(weighed.items, bare, known, into)


def _ends_range(items: Sequence[Piece], place: int, binding: Binding) -> bool:
    """Return whether a number after a dash may be the far end of a range, as in "hr 70 - 75"."""
    before, after = items[place - 1], _group(items, place)
    return (
        after.dashed
        and len(after.shape.numbers) == 1
        and isinstance(before, Group)
        and len(before.shape.numbers) == 1
        and (place - 1, 0) in binding.named
    )


def _put_named(weighed: Weighed, place: int, cell: int, measure: Measure, into: Draft) -> None:
    group = _group(weighed.items, place)
    number = group.shape.numbers[cell]
    if group.odd or place in weighed.hedged:
        raise StuckError(Problem.WHICH_NUMBER, None if group.odd else number)
    if measure is _H and group.mercury and len(group.shape.numbers) == 1:
        raise StuckError(Problem.WHICH_NUMBER, number)
    into.put(measure, number, place)
    into.named.add(measure)


def _complete(group: Group, place: int, named: Mapping[int, Measure | None], into: Draft) -> None:
    """Take the rest of a group of which some numbers have a name."""
    numbers, joins = group.shape.numbers, group.shape.joins
    if group.odd or len(numbers) == 1:
        return
    names = frozenset(named.values())
    if len(named) == len(numbers) and names in _NAMED_WHOLE:
        return
    form = _form(joins)
    if len(named) == len(numbers):
        # Labels and numbers do not go together, so no label of this message can be trusted.
        into.numbers.clear()
        raise StuckError(Problem.WHICH_NUMBER)
    if form is None or any(form[cell] is not name for cell, name in named.items()):
        into.drop(place)
        raise StuckError(Problem.WHICH_NUMBER)
    if joins[form.index(_S)] is not Join.PAIR and not (names >= _PRESSURES or group.beats):
        into.drop(place)
        raise StuckError(Problem.WHICH_NUMBER)
    for measure, number in zip(form, numbers, strict=True):
        into.put(measure, number, place)


def _form(joins: Sequence[Join]) -> tuple[Measure, ...] | None:
    """Return what numbers joined like this are, in order."""
    match tuple(joins):
        case (_,):
            return (_S, _D)
        case (Join.LINK, Join.PAIR):
            return (_H, _S, _D)
        case (_, _):
            return _ORDER
        case _:
            return None


def _form_is_plain(numbers: Sequence[int], joins: Sequence[Join]) -> bool:
    """Return whether three numbers joined like this can only be meant in one order."""
    match tuple(joins):
        case (Join.PAIR, Join.PAIR):
            return numbers[0] > numbers[1]
        case (Join.LINK, Join.PAIR):
            return False  # a rate and a pair, or the wrong marks in a row of three
        case _:
            return True


def _unnamed(group: Group, place: int, into: Draft) -> Iterable[Place]:
    """Take what a group says by itself; return the numbers that are still bare."""
    numbers, joins = group.shape.numbers, group.shape.joins
    cells = [(place, cell) for cell in range(len(numbers))]
    if len(numbers) > len(_ORDER):
        raise StuckError(Problem.TOO_MANY)
    if Join.PAIR not in joins:
        return cells
    form = _form(joins) or ()
    loosely = group.shape.loose and len(numbers) == 3 and heart_rate_may_lead(*numbers)
    if loosely or not _form_is_plain(numbers, joins):
        raise StuckError(Problem.WHICH_NUMBER, unclear=True)
    if clash := into.numbers.keys() & set(form):
        for measure in clash - into.named:
            del into.numbers[measure]
        raise StuckError(Problem.TOO_MANY)
    for measure, number in zip(form, numbers, strict=True):
        into.put(measure, number, place)
    into.bare |= len(numbers) == len(_ORDER)
    return ()


def _fill(items: Sequence[Piece], bare: Sequence[Place], known: Values, into: Draft) -> None:
    """Take bare numbers for what is missing, where only one thing can be meant."""
    if not bare:
        return
    if len(bare) == 1 and len(into.numbers) == len(_ORDER):
        # A cuff and an oximeter that show the same heart rate.
        place, cell = bare[0]
        if _group(items, place).shape.numbers[cell] == into.numbers[_H]:
            into.sources.add((_H, place))
            return
    numbers = [_group(items, place).shape.numbers[cell] for place, cell in bare]
    if len(into.numbers) + len(bare) > len(_ORDER):
        raise StuckError(Problem.TOO_MANY)
    measures = _meant(numbers, known, into)
    beyond = next((number for number in numbers if number > _HIGHEST), None)
    if beyond is not None and (measures is None or beyond > 999):
        raise StuckError(Problem.IMPOSSIBLE, beyond)
    if measures is None:
        lone = numbers[0] if len(numbers) == 1 else None
        raise StuckError(Problem.WHICH_NUMBER, lone, unclear=True)
    gaps = [gap(items, first, second) for first, second in pairwise(bare)]
    if gaps and gaps[0] == APART:
        raise StuckError(Problem.WHICH_NUMBER)
    if gaps and gaps[0] > min(gaps):
        raise StuckError(Problem.WHICH_NUMBER, unclear=True)
    if any(_by_odd(items, place) or _by_loose_pair(items, place) for place, _ in bare):
        raise StuckError(Problem.WHICH_NUMBER, unclear=True)
    for measure, (place, cell) in zip(measures, bare, strict=True):
        group = _group(items, place)
        number = group.shape.numbers[cell]
        unit_differs = measure is _H and group.mercury
        if unit_differs or (measure is _H and group.bracketed and _is_mean(number, into)):
            raise StuckError(Problem.WHICH_NUMBER, number)
        into.put(measure, number, place)
    into.bare = True


def _by_odd(items: Sequence[Piece], place: int) -> bool:
    """Return whether a bare number stands right next to one that was spoilt."""
    sides = [(place - 1, place), (place + 1, place + 1)]
    return any(
        isinstance(item := items[side], Group)
        and item.odd
        and not item.foreign
        and gap(items, *pair) < DIVIDED
        for side, later in sides
        if 0 <= side < len(items)
        for pair in [((later - 1, 0), (later, 0))]
    )


def _by_loose_pair(items: Sequence[Piece], place: int) -> bool:
    """Return whether a bare number and a pair may be three in a row, as in "124 76 / 72"."""
    numbers = _group(items, place).shape.numbers
    after = items[place + 1] if place + 1 < len(items) else None
    before = items[place - 1] if place > 0 else None
    if len(numbers) > 1:
        return False
    if isinstance(before, Group) and before.shape.loose and len(before.shape.numbers) == 2:
        return heart_rate_may_lead(*before.shape.numbers, numbers[0])
    if not (isinstance(after, Group) and Join.PAIR in after.shape.joins):
        return False
    # Even "155 104/48" may be 155/104 and a rate of 48.
    second = after.shape.numbers[1:] if after.touching or not after.divided else ()
    rate = len(second) == 1 and second[0] in POSSIBLE[_H]
    loose = after.shape.loose or after.dashed or rate
    return loose and numbers[0] - after.shape.numbers[0] in PULSE_PRESSURE


def _meant(numbers: Sequence[int], known: Values, into: Draft) -> tuple[Measure, ...] | None:
    """Return what bare numbers must be, in order; `None` when they could be several things."""
    found = frozenset(into.numbers)
    left = tuple(measure for measure in _ORDER if measure not in found)
    if len(numbers) == len(_ORDER):
        turned = numbers[0] <= numbers[1] or heart_rate_may_lead(*numbers)
        return None if turned else _ORDER
    if found:
        return left if len(numbers) == len(left) and left in {(_H,), (_S, _D)} else None
    missing = missing_from(known)
    if len(numbers) == 1:
        return missing if len(missing) == 1 else None
    if not _PRESSURES.issubset(missing):
        return None
    unsure = numbers[0] in LIKE_SATURATION or numbers[0] <= numbers[1]
    return None if _H in missing and unsure else (_S, _D)


def missing_from(known: Values) -> tuple[Measure, ...]:
    """Return what a new message may be expected to give: what is missing, or else all."""
    given = {_S: known.systolic, _D: known.diastolic, _H: known.heart_rate}
    return tuple(measure for measure in _ORDER if given[measure] is None) or _ORDER


def _is_mean(number: int, into: Draft) -> bool:
    """Return whether a number in brackets may be the mean pressure, as monitors print it."""
    if not into.numbers.keys() >= _PRESSURES:
        return False
    return into.numbers[_D] < number < into.numbers[_S]


def _group(items: Sequence[Piece], place: int) -> Group:
    group = items[place]
    if not isinstance(group, Group):
        raise TypeError(place)
    return group
