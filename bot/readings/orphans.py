"""Labels that no number is in reach of, and numbers that may have strayed from them."""

from collections.abc import Collection, Iterator, Sequence
from typing import Final

from bot.protocol.record import Measure
from bot.readings.binding import Binding
from bot.readings.pieces import Group, Label, Piece, Word

_PRESSURES: Final = frozenset({Measure.SYSTOLIC, Measure.DIASTOLIC})


def strayed(items: Sequence[Piece], binding: Binding, found: Collection[Measure]) -> bool:
    """Return whether a number may belong to a label that was left without one.

    In "top thing 119 bottom thing 78", a word keeps each label from its number, and 119 stands
    before "bottom".
    """
    for place, measure in _orphans(items):
        if measure in found:
            continue
        if measure in _PRESSURES and not _PRESSURES.isdisjoint(found):
            return True
        after = _after_words(items, place)
        if after is not None and binding.named.get((after, 0)) not in {None, measure}:
            return True
    return False


def _orphans(items: Sequence[Piece]) -> Iterator[tuple[int, Measure]]:
    """Yield the labels of one measure that stand beside no number and no other label."""
    for place, item in enumerate(items):
        if not isinstance(item, Label) or len(item.names) != 1 or item.names[0] is None:
            continue
        sides = (items[place - 1] if place else None, *items[place + 1 : place + 2])
        if not any(isinstance(side, Group | Label) for side in sides):
            yield place, item.names[0]


def _after_words(items: Sequence[Piece], place: int) -> int | None:
    """Return the place of the numbers that follow a label after nothing but words."""
    for after in range(place + 1, len(items)):
        if isinstance(items[after], Group):
            return after
        if not isinstance(items[after], Word) or items[after].broken:
            return None
    return None
