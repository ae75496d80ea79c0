"""Which way a label points, where what stands beside it tells."""

from collections.abc import Sequence

from bot.readings.language import Join
from bot.readings.pieces import Group, Label, Piece
from bot.readings.plausibility import LIKE_SATURATION, RARE_SATURATION, SATURATION
from bot.readings.shapes import TOO_LONG


def points(items: Sequence[Piece], place: int, step: int) -> bool:
    """Return whether a label surely names what comes after it (`step` 1) or before it (-1)."""
    label = label_at(items, place)
    if label.forward or label.backward:
        return step == (1 if label.forward else -1)
    after = items[place + 1] if place + 1 < len(items) else None
    before = items[place - 1] if place > 0 else None
    decimal = _is_decimal(after), _is_decimal(before)
    if label.names == (None,) and decimal in {(True, False), (False, True)}:
        # A decimal is no part of a reading, so the name of something else goes to it.
        return step == (1 if decimal[0] else -1)
    if not label.share:
        return False
    if isinstance(after, Group) and after.percent and not after.divided:
        return step == 1
    if isinstance(after, Group) and isinstance(before, Group):
        next_to = before.shape.numbers[-1], after.shape.numbers[0]
        likely = [number in LIKE_SATURATION for number in next_to]
        if likely[0] != likely[1] and next_to[likely[0]] < RARE_SATURATION:
            return step == (1 if likely[1] else -1)
    return isinstance(before, Group) and before.percent and not label.divided and step == -1


def _is_decimal(piece: Piece | None) -> bool:
    return (
        isinstance(piece, Group)
        and piece.shape.odd
        and piece.shape.joins in {(Join.DOT,), (Join.COMMA,)}
        and TOO_LONG not in piece.shape.numbers
    )


def no_share(items: Sequence[Piece], labels: Sequence[int], cell: tuple[int, int]) -> bool:
    """Return whether a label that names a share has a number before it that is none."""
    group = items[cell[0]]
    return (
        isinstance(group, Group)
        and label_at(items, labels[0]).share
        and (group.shape.numbers[cell[1]] not in SATURATION or group.foreign > group.percent)
    )


def label_at(items: Sequence[Piece], place: int) -> Label:
    """Return the label at a place where there is one."""
    label = items[place]
    if not isinstance(label, Label):
        raise TypeError(place)
    return label
