"""Which numbers may be part of a reading at all, by the words around them."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.protocol.record import Measure
from bot.readings.language import Join
from bot.readings.pieces import Group, Label, Piece, Word
from bot.readings.plausibility import NEVER_A_READING, ORDINARY, ordinary


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """Pieces of a message, weighed.

    Attributes:
        items: The pieces, without the strengths of complaints ("dizzy 6").
        suspects: The groups, by their place in `items`, that only a label makes part of a reading.
        hedged: The suspects that not even a label does.
    """

    items: tuple[Piece, ...]
    suspects: frozenset[int]
    hedged: frozenset[int]


def weigh(pieces: Sequence[Piece]) -> Weighed:
    """Return the pieces with what the words around numbers say about them."""
    items = _without_strengths(pieces)
    suspects: set[int] = set()
    hedged: set[int] = set()
    wary = False
    for place, item in enumerate(items):
        if isinstance(item, Word):
            run = _run_after(items, place)
            groups = [group for index in run if isinstance(group := items[index], Group)]
            if item.hedge or wary or not _self_evident(groups):
                suspects.update(run)
            if item.hedge:
                hedged.update(run)
        elif isinstance(item, Group) and _counts_something(items, place):
            suspects.add(place)
            # A word between two numbers may be a misspelt "over".
            wary |= item.shape.numbers[0] not in NEVER_A_READING
    return Weighed(items=items, suspects=frozenset(suspects), hedged=frozenset(hedged))


def _without_strengths(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    kept: list[Piece] = []
    for place, piece in enumerate(pieces):
        strength = (
            isinstance(piece, Group)
            and not (piece.odd or piece.foreign or piece.beats or piece.broken)
            and len(piece.shape.numbers) == 1
            and piece.shape.numbers[0] in NEVER_A_READING
            and bool(kept)
            and isinstance(kept[-1], Word)
            and not leads_a_number(pieces, place)
        )
        if not strength:
            kept.append(piece)
    return tuple(kept)


def leads_a_number(pieces: Sequence[Piece], place: int) -> bool:
    """Return whether a lone digit may be the first of a number with a space in it ("1 24")."""
    digit, after = pieces[place], pieces[place + 1] if place + 1 < len(pieces) else None
    if not (isinstance(digit, Group) and isinstance(after, Group)) or after.divided:
        return False
    return digit.shape.numbers in {(1,), (2,)} and after.shape.numbers[0] < 100


def _run_after(items: Sequence[Piece], place: int) -> list[int]:
    """Return the places of the groups that follow a word directly."""
    run: list[int] = []
    for index in range(place + 1, len(items)):
        item = items[index]
        if not isinstance(item, Group) or item.broken:
            break
        if not item.foreign:
            run.append(index)
    return run


def _self_evident(groups: Sequence[Group]) -> bool:
    """Return whether numbers look like a reading whatever word stands before them."""
    if not groups:
        return True
    numbers = [number for group in groups for number in group.shape.numbers]
    paired = groups[0].shape.joins[:1] == (Join.PAIR,)
    pairs = sum(group.shape.joins.count(Join.PAIR) for group in groups)
    whole = len(numbers) == 3 if pairs == 0 else paired and len(numbers) in {2, 3}
    if any(group.odd for group in groups) or not whole:
        return False
    return ordinary(numbers[0], numbers[1], numbers[2] if len(numbers) == 3 else None)


TIGHT, SPACED, DIVIDED, APART = range(4)
"""How far apart two numbers may stand."""


def gap(items: Sequence[Piece], first: tuple[int, int], second: tuple[int, int]) -> int:
    """Return how far apart two numbers stand.

    Args:
        items: The pieces.
        first: The place of a number's group, and its place in the group.
        second: The same of a later one.
    """
    if first[0] == second[0]:
        return TIGHT
    if second[0] > first[0] + 1:
        return APART
    return DIVIDED if items[second[0]].divided else SPACED


def _counts_something(items: Sequence[Piece], place: int) -> bool:
    """Return whether a lone number may belong to the word after it, as in "72 stairs"."""
    group = items[place]
    if not isinstance(group, Group) or group.foreign or len(group.shape.numbers) > 1:
        return False
    if group.beats or group.mercury:
        return False
    before = _neighbour(items, place, -1)
    after = _neighbour(items, place, +1)
    named = isinstance(before, Label) and before.names != (None,)
    alone = group.broken or not (isinstance(before, Group) or named)
    low = group.shape.numbers[0] < ORDINARY[Measure.HEART_RATE].low and not named
    return (alone or low) and isinstance(after, Word) and not after.divided


def _neighbour(items: Sequence[Piece], place: int, step: int) -> Piece | None:
    index = place + step
    while 0 <= index < len(items):
        item = items[index]
        if not (isinstance(item, Group) and item.foreign):
            return item
        index += step
    return None
