"""Messages whose only number is no part of a reading as a whole: "50/50 to be honest", "I'm 72"."""

from collections.abc import Sequence
from typing import Final

from bot.protocol.record import Values
from bot.readings.labels import role_at
from bot.readings.language import Join, Role
from bot.readings.pieces import Group, Label, Piece, Word
from bot.readings.plausibility import AGES
from bot.readings.tokens import Token

_EVENS: Final = (50, 50)

_ASIDES: Final = frozenset({"way", "btw", "old", "nearly", "soon", "retired", "fyi", "fwiw"})


def is_idiom(items: Sequence[Piece], tokens: tuple[Token, ...], known: Values) -> bool:
    """Return whether the only number of a message is even odds among words, or an age.

    It is an age only where no part of a reading was given: else a lone number may be what is
    still missing.
    """
    groups = [item for item in items if isinstance(item, Group)]
    if len(groups) != 1 or any(isinstance(item, Label) for item in items):
        return False
    group = groups[0]
    if group.odd or group.foreign or group.beats or group.mercury:
        return False
    shape = group.shape
    if shape.numbers == _EVENS:
        return shape.joins == (Join.PAIR,) and not shape.loose and len(items) > 1
    if items[0] is group or items[1] is not group or not known.empty:
        return False
    itself = role_at(tokens, items[0].first)
    if itself is None or itself[0] is not Role.SELF or shape.numbers[0] not in AGES:
        return False
    words = [tokens[item.first].key for item in items[2:] if isinstance(item, Word)]
    return len(shape.numbers) == 1 and _ASIDES.issuperset(words)
