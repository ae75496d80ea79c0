"""A second pulse in the words that were left over: "pulse 66 on the cuff but 73 on my watch"."""

from typing import Final

from bot.protocol.record import Measure
from bot.readings.languages import LANGUAGES
from bot.readings.numerals import spoken
from bot.readings.outcome import Outcome, Problem, Understood, Unreadable
from bot.readings.plausibility import possible
from bot.readings.tokens import Kind, scan

_NEAR: Final = 4
"""How many words after "but" the other number may stand (design choice)."""

_CONTRASTS: Final = frozenset(word for language in LANGUAGES for word in language.contrasts)


def unrivalled(outcome: Outcome) -> Outcome:
    """Return the outcome, or a question where the words left over give the pulse another number."""
    if not isinstance(outcome, Understood) or outcome.values.heart_rate is None:
        return outcome
    tokens = spoken(scan(outcome.rest))
    for place, token in enumerate(tokens):
        if token.key not in _CONTRASTS:
            continue
        for other in tokens[place + 1 : place + 1 + _NEAR]:
            if other.kind is not Kind.NUMBER or not other.key.isdigit():
                continue
            number = int(other.key[:4])
            if number != outcome.values.heart_rate and possible(Measure.HEART_RATE, number):
                return Unreadable(problem=Problem.WHICH_NUMBER, number=number)
    return outcome
