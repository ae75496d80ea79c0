"""Which label names which number: every way in which it can be meant.

A label may stand before its number or after it, and a message may do both.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, product
from typing import Final

from bot.protocol.record import Measure
from bot.readings.context import gap
from bot.readings.language import Join
from bot.readings.pieces import Group, Label, Piece
from bot.readings.pointing import label_at, no_share, points

Place = tuple[int, int]
"""A number: the place of its group among the pieces, and its place in the group."""

MOST_LABELS: Final = 8
"""More labels beside numbers than this and a message is no single reading (design choice)."""

MOST_NUMBERS: Final = 16
"""The same for numbers; also how far a label reaches."""

_PRESSURES: Final = (Measure.SYSTOLIC, Measure.DIASTOLIC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """One way to read the labels.

    Attributes:
        named: The numbers that have a name; `None` names a number that is no part of a reading.
        labels: The places of the labels that have a part in a reading.
        halved: Numbers named as both pressures where only one number is.
        cost: How far-fetched it is.
    """

    named: Mapping[Place, Measure | None] = field(default_factory=dict)
    labels: frozenset[int] = frozenset()
    halved: tuple[Place, ...] = ()
    cost: int = 0


def too_much(items: Sequence[Piece]) -> bool:
    """Return whether a message has more in it than one reading can."""
    labels = sum(len(run.labels) for run in _runs(items) if run.before or run.after)
    numbers = sum(
        len(item.shape.numbers) for item in items if isinstance(item, Group) and not item.foreign
    )
    return labels > MOST_LABELS or numbers > MOST_NUMBERS


def bindings(items: Sequence[Piece]) -> Iterator[Binding]:
    """Yield every way to read the labels that does not contradict itself."""
    units: dict[Place, Measure | None] = {
        (place, len(item.shape.numbers) - 1): Measure.HEART_RATE
        for place, item in enumerate(items)
        if isinstance(item, Group) and item.beats
    }
    for ways in product(*(tuple(_ways(run, items)) for run in _runs(items))):
        named = dict(units)
        agrees = all(
            named.setdefault(place, name) is name for way in ways for place, name in way.named
        )
        if agrees:
            turns = _turns(items, [turn for way in ways for turn in way.directions])
            yield Binding(
                named=named,
                labels=frozenset(label for way in ways for label in way.labels),
                halved=tuple(place for way in ways for place in way.halved),
                cost=turns + sum(way.cost for way in ways),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Labels that follow one another, with the numbers in their reach."""

    labels: tuple[int, ...]
    before: tuple[Place, ...]
    after: tuple[Place, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to read one run of labels."""

    named: tuple[tuple[Place, Measure | None], ...] = ()
    labels: tuple[int, ...] = ()
    halved: tuple[Place, ...] = ()
    directions: tuple[tuple[int, bool], ...] = ()
    cost: int = 0


def _runs(items: Sequence[Piece]) -> list[_Run]:
    runs: list[_Run] = []
    place = 0
    while place < len(items):
        if not isinstance(items[place], Label):
            place += 1
            continue
        first = place
        while place < len(items) and isinstance(items[place], Label):
            place += 1
        before = list(_reach(items, first - 1, -1))
        after = tuple(_reach(items, place, +1))
        runs.append(
            _Run(
                labels=tuple(range(first, place)),
                before=tuple(reversed(before)),
                after=after,
            )
        )
    return runs


def _reach(items: Sequence[Piece], place: int, step: int) -> Iterator[Place]:
    left = MOST_NUMBERS
    while left > 0 and 0 <= place < len(items) and isinstance(group := items[place], Group):
        cells = [(place, cell) for cell in range(len(group.shape.numbers))]
        yield from cells[::step]
        left -= len(cells)
        place += step


def _ways(run: _Run, items: Sequence[Piece]) -> Iterator[_Way]:
    if not (run.before or run.after):
        yield _Way()
        return
    labels = _naming(run, items)
    for split in range(len(labels) + 1):
        back, on = labels[:split], labels[split:]
        if any(points(items, place, +1) for place in back) or any(
            points(items, place, -1) for place in on
        ):
            continue
        taken_back = _take(back, run.before, items, backward=True)
        taken_on = _take(on, run.after, items, backward=False)
        if taken_back is None or taken_on is None:
            continue
        yield _Way(
            named=(*taken_back.named, *taken_on.named),
            labels=_used(run, items, named=bool(taken_back.named or taken_on.named)),
            halved=(*taken_back.halved, *taken_on.halved),
            directions=tuple(
                (place, place in on)
                for place in (*back, *on)
                if label_at(items, place).names != (None,)
            ),
            cost=taken_back.cost
            + taken_on.cost
            + sum(_divided(items, run.labels[0] - 1, place) for place in back)
            + sum(_divided(items, place, run.labels[-1] + 1) for place in on),
        )


def _divided(items: Sequence[Piece], first: int, last: int) -> int:
    """Return whether something parts one piece from a later one, as a cost."""
    return int(any(items[place].divided for place in range(first + 1, last + 1)))


def _turns(items: Sequence[Piece], directions: Sequence[tuple[int, bool]]) -> int:
    """Count the places where labels that stood behind their numbers come to stand before them.

    Where something parts the two labels, or no number stands between them, a turn is natural.
    """
    return sum(
        on != next_on
        and not _divided(items, place, next_place)
        and any(isinstance(item, Group) for item in items[place:next_place])
        for (place, on), (next_place, next_on) in pairwise(directions)
    )


def _naming(run: _Run, items: Sequence[Piece]) -> list[int]:
    """Return the labels of a run that name numbers: no headings, none said twice."""
    names = [label_at(items, place).names for place in run.labels]
    headed = any(set(name) & set(_PRESSURES) and name != _PRESSURES for name in names)
    kept: list[int] = []
    for place, name in zip(run.labels, names, strict=True):
        if headed and name == _PRESSURES:
            continue
        repeats = bool(kept) and label_at(items, kept[-1]).names == name
        if repeats and name != (None,) and not items[place].divided:
            continue
        kept.append(place)
    return kept


def _used(run: _Run, items: Sequence[Piece], *, named: bool) -> tuple[int, ...]:
    """Return the labels of a run that have a part in a reading."""
    return tuple(place for place in run.labels if named and label_at(items, place).names != (None,))


def _names(labels: Sequence[int], items: Sequence[Piece]) -> tuple[Measure | None, ...]:
    return tuple(name for place in labels for name in label_at(items, place).names)


def _take(
    labels: Sequence[int],
    reach: tuple[Place, ...],
    items: Sequence[Piece],
    *,
    backward: bool,
) -> _Way | None:
    """Give each name the next number in reach; `None` if that cannot be meant."""
    names = _names(labels, items)
    cells = list(reversed(reach)) if backward else list(reach)
    named: list[tuple[Place, Measure | None]] = []
    for name in reversed(names) if backward else names:
        cell = _next(cells, items, foreign=name is None)
        if cell is None:
            if names == _PRESSURES and len(named) == 1:
                return _Way(halved=(named[0][0],))
            return None
        if names == (None,) and not _single(items, cell):
            return _Way(cost=1) if _pair_nearest(items, cell, backward=backward) else None
        if names == (None,) and no_share(items, labels, cell):
            return None
        named.append((cell, name))
    if names == _PRESSURES and cells and not _next_of_kin(items, named, cells[0]):
        return None
    return _Way(named=tuple(named))


def _next_of_kin(
    items: Sequence[Piece], named: Sequence[tuple[Place, Measure | None]], left: Place
) -> bool:
    """Return whether two numbers taken as the pressures belong closer together than a third."""
    first, second = sorted(place for place, _ in named)
    inner = gap(items, first, second)
    return inner < gap(items, left, first) if left < first else inner <= gap(items, second, left)


def _next(cells: list[Place], items: Sequence[Piece], *, foreign: bool) -> Place | None:
    while cells:
        cell = cells.pop(0)
        group = items[cell[0]]
        if isinstance(group, Group) and (foreign or not group.foreign):
            return cell
    return None


def _single(items: Sequence[Piece], cell: Place) -> bool:
    group = items[cell[0]]
    return isinstance(group, Group) and (group.odd or len(group.shape.numbers) == 1)


def _pair_nearest(items: Sequence[Piece], cell: Place, *, backward: bool) -> bool:
    """Return whether a number belongs so firmly to a pair that a single label passes it by."""
    group = items[cell[0]]
    if not isinstance(group, Group) or group.shape.loose:
        return False
    joins = group.shape.joins
    return (
        joins[0] is Join.PAIR if not backward else joins in {(Join.PAIR,), (Join.LINK, Join.PAIR)}
    )
