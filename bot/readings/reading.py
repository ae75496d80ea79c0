"""A message into an outcome: one reading, one put right, two of them, or a question."""

from typing import Final

from bot.protocol.record import Values
from bot.readings.evidence import accounted, evident
from bot.readings.instead import instead
from bot.readings.numerals import spoken
from bot.readings.outcome import Outcome, Problem, Unreadable
from bot.readings.parting import several, within
from bot.readings.plain import plain
from bot.readings.repairs import continued, repaired, repeated
from bot.readings.taking import taken
from bot.readings.tokens import scan

_NOTHING: Final = Values()
_UNCLEAR: Final = frozenset({Problem.WHICH_NUMBER, Problem.TOO_MANY})


def read(text: str, known: Values = _NOTHING, before: Values | None = None) -> Outcome:
    """Read what a message says about pressure and heart rate.

    Args:
        text: The message, any text at all.
        known: The numbers of this reading (mmHg, /min) that earlier messages gave; bare numbers
            are taken for those still missing.
        before: The numbers of the last reading, if there is one. A number far from it is asked
            about, and words like "the same" are understood.

    Returns:
        What it comes to. Where a number could be meant in two ways, the answer is a question.
    """
    return plain(text, known, before) or worked_out(text, known, before)


def worked_out(text: str, known: Values, before: Values | None) -> Outcome:
    """Return the same as `read`, always by the long way."""
    tokens = spoken(scan(text))
    outcome = accounted(taken(text, tokens, known, before), text, tokens, known, before)
    if not isinstance(outcome, Unreadable):
        return outcome
    return (
        repeated(tokens, outcome, before)
        or continued(text, tokens, known)
        or instead(text, tokens, known, before)
        or repaired(text, tokens, known, before)
        or within(text, tokens, known, before)
        or (outcome.problem in _UNCLEAR and evident(text, tokens, known, before))
        or several(text, tokens)
        or outcome
    )
