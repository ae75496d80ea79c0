"""A second look: numbers whose own labels and marks leave no doubt, whatever words are around.

It reads what the first look asks about for a word it does not know, and asks where the first
look passed a number by that nothing accounts for.
"""

from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.accounts import account, elsewhere
from bot.readings.context import leads_a_number, weigh
from bot.readings.dissection import take_apart
from bot.readings.drafts import values_of
from bot.readings.languages import LANGUAGES
from bot.readings.outcome import Doubtful, Outcome, Problem, Understood, Unreadable
from bot.readings.pieces import Group, Label, Pieces
from bot.readings.plausibility import SATURATION, doubt, possible, possible_somewhere
from bot.readings.tokens import Token
from bot.readings.unused import unused

_DOUBTS: Final = frozenset().union(*(language.doubts for language in LANGUAGES))
_WHOLE: Final = frozenset(Measure)
_MOST_TOKENS: Final = 10
"""A longer message without a pressure may be about anything (design choice)."""


def evident(
    text: str, tokens: tuple[Token, ...], known: Values, before: Values | None
) -> Understood | Doubtful | None:
    """Read a message in which each number is one thing only, by what stands right beside it.

    No word of it may deny, doubt, choose, or speak of another time.

    Args:
        text: The message.
        tokens: Its tokens; number words are numbers already.
        known: The numbers of this reading that were given before.
        before: The numbers of the last reading, if there is one.
    """
    pieces = take_apart(tokens)
    if pieces.not_now or pieces.same or not _DOUBTS.isdisjoint(token.key for token in tokens):
        return None
    if any(leads_a_number(pieces.items, place) for place in range(len(pieces.items))):
        return None
    weighed = weigh(pieces.items)
    found = account(weighed, tokens)
    if found is None or pieces.absent & found.numbers.keys():
        return None
    if pieces.theirs and found.numbers.keys() != _WHOLE:
        return None
    alone = found.numbers.keys() == {Measure.HEART_RATE}
    if alone and (len(tokens) > _MOST_TOKENS or any(token.key == "?" for token in tokens)):
        return None
    values = values_of(found.numbers)
    rest = unused(text, tokens, pieces.soft, (weighed.items[place] for place in found.places))
    odd = doubt(values, known, before)
    if odd is None:
        return Understood(
            values=values, rest=rest, correction=pieces.correction, again=pieces.again
        )
    return Doubtful(
        values=values,
        doubt=odd[0],
        suggested=odd[1],
        rest=rest,
        correction=pieces.correction,
        again=pieces.again,
    )


def accounted(
    outcome: Outcome,
    text: str,
    tokens: tuple[Token, ...],
    known: Values,
    before: Values | None,
) -> Outcome:
    """Return an outcome if it accounts for each number; else what the second look makes of it."""
    if not isinstance(outcome, Understood) or not outcome.rest:
        return outcome
    left = _left(take_apart(tokens), outcome.values)
    if not left:
        return outcome
    second = evident(text, tokens, known, before)
    if second is not None and second.values.updated(outcome.values) == second.values:
        return second
    rates = any(possible(Measure.HEART_RATE, number) for number in left)
    paired = outcome.values.systolic is not None and outcome.values.diastolic is not None
    return Unreadable(
        problem=Problem.WHICH_NUMBER,
        number=left[0] if len(left) == 1 else None,
        understood=Values(
            systolic=outcome.values.systolic if paired else None,
            diastolic=outcome.values.diastolic if paired else None,
            heart_rate=None if rates else outcome.values.heart_rate,
        ),
    )


def _left(pieces: Pieces, values: Values) -> list[int]:
    """Return the numbers that may be part of a reading, are not of `values`, and nothing else."""
    taken = {values.systolic, values.diastolic, values.heart_rate}
    left: list[int] = []
    for place, item in enumerate(pieces.items):
        if not isinstance(item, Group) or elsewhere(item) or _named_otherwise(pieces, place):
            continue
        for number in item.shape.numbers:
            if number not in taken and possible_somewhere(number):
                left.append(number)
    return left


def _named_otherwise(pieces: Pieces, place: int) -> bool:
    """Return whether the name of something else stands right beside a lone number."""
    items, group = pieces.items, pieces.items[place]
    sides = (
        items[place - 1] if place and not group.broken else None,
        items[place + 1] if place + 1 < len(items) and not items[place + 1].broken else None,
    )
    numbers = group.shape.numbers if isinstance(group, Group) else ()
    return any(
        isinstance(side, Label)
        and side.names == (None,)
        and not (side.share and any(number not in SATURATION for number in numbers))
        for side in sides
    )
