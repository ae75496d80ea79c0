"""What a number may be by the labels and the unit right beside it."""

from collections.abc import Iterator, Sequence
from typing import Final

from bot.protocol.record import Measure
from bot.readings.language import Join
from bot.readings.languages import LANGUAGES
from bot.readings.lexicon import STARTERS
from bot.readings.pieces import Group, Label, Piece, Word
from bot.readings.plausibility import LIKELY_SHARE, NEVER_A_READING, SATURATION, WARMTH
from bot.readings.tokens import Token

_H: Final = Measure.HEART_RATE
_MOST_WORDS: Final = 3
"""How many words may stand between a name for the rate and its number (design choice)."""

_APART: Final = frozenset().union(
    *(language.apart | language.negations | language.contrasts for language in LANGUAGES)
)

_TENTHS: Final = 10
"""One digit after a point makes a decimal of it ("98.6"); two may be a pressure ("124.76")."""

_NUMBER_WORDS: Final = tuple(word for word in STARTERS if len(word) > 2)

Claim = tuple[Measure | None, int | None]
"""What a number may be (`None`: no part of a reading), and the place of the label that says so."""


def elsewhere(group: Group) -> bool:
    """Return whether numbers are no part of a reading by themselves: units, counts, decimals."""
    if group.foreign or is_decimal(group):
        return True
    return not group.shape.odd and all(number in NEVER_A_READING for number in group.shape.numbers)


def is_decimal(group: Group) -> bool:
    """Return whether a number has a point in it and is so small, or a temperature."""
    numbers, joins = group.shape.numbers, group.shape.joins
    if not group.shape.odd or joins not in {(Join.DOT,), (Join.COMMA,)}:
        return False
    return numbers[0] in WARMTH or numbers[0] in NEVER_A_READING or numbers[1] < _TENTHS


def named_otherwise(items: Sequence[Piece], place: int) -> list[Claim]:
    """Return the labels right beside a number that is no part of a reading, as claims to it."""
    before = items[place - 1] if place and not items[place].divided else None
    after = items[place + 1] if place + 1 < len(items) else None
    group = items[place]
    itself = isinstance(group, Group) and (group.foreign or is_decimal(group))
    claims: list[Claim] = []
    if isinstance(before, Label) and before.names == (None,):
        claims.append((None, place - 1))
    elif itself:
        claims.append((None, None))  # its unit or its point says enough
    if isinstance(after, Label) and not after.divided and after.names == (None,):
        claims.append((None, place + 1))
    return claims


def own(items: Sequence[Piece], place: int) -> list[Claim]:
    """Return what the unit of a number says that it is, or what it cannot but be."""
    group = items[place]
    if isinstance(group, Group) and elsewhere(group):
        return named_otherwise(items, place)
    return [(_H, None)] if isinstance(group, Group) and group.beats else []


def labels_before(items: Sequence[Piece], place: int, tokens: tuple[Token, ...]) -> Iterator[Claim]:
    """Yield what the labels before a number say that it is."""
    words, share = 0, None
    number = number_at(items, place)
    for at in range(place - 1, -1, -1):
        item = items[at]
        if items[at + 1].divided or isinstance(item, Group):
            break
        if isinstance(item, Word):
            words += 1
            if not passable(item, tokens) or words > _MOST_WORDS or share is not None:
                break
        elif isinstance(item, Label) and len(item.names) == 1:
            name = item.names[0]
            far = name is None or _followed(items, place)
            far |= name is not _H and any(labels_after(items, place))
            if item.backward or (words and far):
                break
            if not item.share:
                yield name, at
                return
            if number in LIKELY_SHARE:
                yield None, at
            share = at
    # "oxygen 79" is one, "the oximeter's pulse 79" another.
    if share is not None and number in SATURATION and number not in LIKELY_SHARE:
        yield None, share


def labels_after(items: Sequence[Piece], place: int) -> Iterator[Claim]:
    """Yield what a label right after a number says that it is."""
    label = items[place + 1] if place + 1 < len(items) else None
    if not isinstance(label, Label) or label.divided or label.forward or len(label.names) > 1:
        return
    if not label.share or number_at(items, place) in LIKELY_SHARE:
        yield label.names[0], place + 1


def passable(word: Word, tokens: tuple[Token, ...]) -> bool:
    """Return whether a word may stand between a name and its number."""
    keys = {token.key for token in tokens[word.first : word.last + 1]}
    spoilt = any(key.startswith(_NUMBER_WORDS) for key in keys)  # "fiftypulse"
    return not (word.hedge or spoilt) and _APART.isdisjoint(keys)


def _followed(items: Sequence[Piece], place: int) -> bool:
    """Return whether a word comes right after a number, which may count what that word names."""
    after = items[place + 1] if place + 1 < len(items) else None
    return isinstance(after, Word) and not after.divided


def number_at(items: Sequence[Piece], place: int) -> int:
    """Return the first number of a group."""
    group = items[place]
    if not isinstance(group, Group):
        raise TypeError(place)
    return group.shape.numbers[0]
