"""Messages that lean on numbers given before: "no, 128", "the same", "over 77"."""

from dataclasses import replace

from bot.protocol.record import Measure, Values
from bot.readings.dissection import take_apart
from bot.readings.drafts import values_of
from bot.readings.labels import JOINS
from bot.readings.language import Join
from bot.readings.outcome import Doubt, Doubtful, Outcome, Problem, Understood, Unreadable
from bot.readings.pieces import Group, Label, Pieces
from bot.readings.plausibility import doubt, possible
from bot.readings.slips import slip
from bot.readings.taking import taken
from bot.readings.tokens import Kind, Token


def repeated(
    tokens: tuple[Token, ...], outcome: Unreadable, before: Values | None
) -> Doubtful | None:
    """Read words that say no more than that the numbers are those of the last reading.

    They are always asked about: numbers nobody typed are not kept unasked.
    """
    if outcome.problem is not Problem.NO_NUMBERS or before is None or not before.complete:
        return None
    pieces = take_apart(tokens)
    if not pieces.same or any(not isinstance(item, Label) for item in pieces.items):
        return None
    return Doubtful(values=before, doubt=Doubt.SAME_AS_BEFORE)


def repaired(
    text: str,
    tokens: tuple[Token, ...],
    known: Values,
    before: Values | None,
    *,
    beside: bool = False,
) -> Outcome | None:
    """Read "no, 128": the one number of those given before that 128 is a slip away from.

    It is asked about, since it names no measure, but where it stands `beside` a whole reading.
    """
    pieces = take_apart(tokens)
    number = _lone(pieces)
    base = before if known.empty else known
    if number is None or base is None:
        return None
    given = {
        Measure.SYSTOLIC: base.systolic,
        Measure.DIASTOLIC: base.diastolic,
        Measure.HEART_RATE: base.heart_rate,
    }
    meant = [
        measure
        for measure, old in given.items()
        if old is not None and possible(measure, number) and slip(str(old), str(number))
    ]
    if len(meant) != 1:
        return None
    values = values_of({meant[0]: number})
    odd = doubt(values, base)
    if odd is not None:
        return Doubtful(values=values, doubt=odd[0], correction=True)
    if beside and base.complete:
        return Understood(values=values, correction=True)
    return Doubtful(values=values, doubt=Doubt.CORRECTION, correction=True)


def continued(text: str, tokens: tuple[Token, ...], known: Values) -> Outcome | None:
    """Read "over 77" where the systolic pressure was given before: the other half of the pair."""
    stroke = len(tokens) > 1 and JOINS.get(tokens[0].key) is Join.PAIR
    if not stroke or known.systolic is None or known.diastolic is not None:
        return None
    begun = replace(
        tokens[0], kind=Kind.NUMBER, key=str(known.systolic), end=tokens[0].start, tight=False
    )
    outcome = taken(text, (begun, *tokens), Values(heart_rate=known.heart_rate))
    if not isinstance(outcome, Understood) or outcome.values.diastolic is None:
        return None
    return replace(outcome, values=replace(outcome.values, systolic=None))


def _lone(pieces: Pieces) -> int | None:
    """Return the number of a correction that holds just one, and no other word."""
    match pieces.items:
        case (Group(odd=False, foreign=False) as group,) if pieces.correction:
            numbers = group.shape.numbers
            return numbers[0] if len(numbers) == 1 and not (group.beats or group.mercury) else None
        case _:
            return None
