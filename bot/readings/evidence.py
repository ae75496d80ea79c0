"""A second look: numbers whose own labels and marks leave no doubt, whatever words are around.

It reads what the first look asks about for a word it does not know, and asks where the first
look passed a number by that nothing accounts for.
"""

from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.accounts import Account, account
from bot.readings.claims import elsewhere, passable
from bot.readings.context import Weighed, leads_a_number, weigh
from bot.readings.dissection import take_apart
from bot.readings.drafts import values_of
from bot.readings.grammar import missing_from
from bot.readings.labels import role_at
from bot.readings.language import Join, Role
from bot.readings.languages import LANGUAGES
from bot.readings.outcome import Doubtful, Outcome, Problem, Understood, Unreadable
from bot.readings.pieces import Group, Label, Pieces, Word
from bot.readings.plausibility import ORDINARY, SATURATION, doubt, possible, possible_somewhere
from bot.readings.tokens import Token
from bot.readings.unused import unused

_DOUBTS: Final = frozenset().union(*(language.doubts for language in LANGUAGES))
_OWN: Final = frozenset().union(*(language.own for language in LANGUAGES))
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
    if pieces.not_now or pieces.same or _doubted(pieces, tokens):
        return None
    if any(leads_a_number(pieces.items, place) for place in range(len(pieces.items))):
        return None
    weighed = weigh(pieces.items)
    found = account(weighed, tokens) or _only_missing(weighed, tokens, known)
    if found is None or pieces.absent & found.numbers.keys():
        return None
    if pieces.theirs and (found.numbers.keys() != _WHOLE or _mixed(pieces, tokens)):
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


def _only_missing(weighed: Weighed, tokens: tuple[Token, ...], known: Values) -> Account | None:
    """Return the one number of "just the heart one left, 67", where nothing else is missing."""
    if missing_from(known) != (Measure.HEART_RATE,):
        return None
    items = weighed.items
    labels = [place for place, item in enumerate(items) if isinstance(item, Label)]
    groups = [(place, item) for place, item in enumerate(items) if isinstance(item, Group)]
    if len(groups) != 1 or not labels or labels[-1] > groups[0][0]:
        return None
    if any(item.names != (Measure.HEART_RATE,) for item in items if isinstance(item, Label)):
        return None
    place, group = groups[0]
    counts = place + 1 < len(items) and not items[place + 1].divided
    hedged = any(isinstance(item, Word) and not passable(item, tokens) for item in items)
    if group.odd or group.foreign or len(group.shape.numbers) > 1 or counts or hedged:
        return None
    number = group.shape.numbers[0]
    if number not in ORDINARY[Measure.HEART_RATE]:
        return None
    return Account(numbers={Measure.HEART_RATE: number}, places=frozenset({place, *labels}))


def _doubted(pieces: Pieces, tokens: tuple[Token, ...]) -> bool:
    """Return whether a word denies, doubts, chooses, or speaks of another time."""
    labels = {
        at
        for item in pieces.items
        if isinstance(item, Label)
        for at in range(item.first, item.last + 1)
    }
    return any(token.key in _DOUBTS and at not in labels for at, token in enumerate(tokens))


def _mixed(pieces: Pieces, tokens: tuple[Token, ...]) -> bool:
    """Return whether not all of a reading may be somebody else's: "my bp 122/78, my wife's 90"."""
    first = next(item for item in pieces.items if isinstance(item, Group))
    theirs = any(
        (found := role_at(tokens, place)) is not None and found[0] is Role.THEIRS
        for place in range(first.first)
    )
    own = any(token.key in _OWN for token in tokens[first.first :])
    return own or not theirs or len(first.shape.numbers) == 1


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
    """Return the numbers that look like part of a reading, are not of `values`, and nothing else.

    Low ones are left alone ("30 stairs"), and pairs that nobody has for pressures ("100/25").
    """
    taken = {values.systolic, values.diastolic, values.heart_rate}
    return [
        number
        for place, item in enumerate(pieces.items)
        if isinstance(item, Group)
        and not (elsewhere(item) or _is_dose(item) or _named_otherwise(pieces, place))
        for number in item.shape.numbers
        if number not in taken
        and number >= ORDINARY[Measure.HEART_RATE].low
        and possible_somewhere(number)
    ]


def _is_dose(group: Group) -> bool:
    pair = group.shape.joins == (Join.PAIR,)
    return pair and group.shape.numbers[1] < ORDINARY[Measure.DIASTOLIC].low


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
