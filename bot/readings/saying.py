"""Numbers into the short form that people type, and an example in their own way of typing."""

from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.grammar import missing_from
from bot.readings.numerals import spoken
from bot.readings.outcome import Understood
from bot.readings.reading import read
from bot.readings.tokens import Kind, scan

_EXAMPLE: Final = Values(systolic=124, diastolic=76, heart_rate=72)

_LONGEST: Final = 80
"""A longer message is no pattern for an example (design choice)."""


def echo(values: Values) -> str:
    """Return numbers in a form that no language owns and that reads back as the same numbers."""
    parts: list[str] = []
    match values.systolic, values.diastolic:
        case None, None:
            pass
        case int(systolic), None:
            parts.append(f"sys {systolic}")
        case None, int(diastolic):
            parts.append(f"dia {diastolic}")
        case systolic, diastolic:
            parts.append(f"{systolic}/{diastolic}")
    if values.heart_rate is not None:
        paired = values.systolic is not None and values.diastolic is not None
        parts.append(str(values.heart_rate) if paired else f"hr {values.heart_rate}")
    return " ".join(parts)


def example(known: Values, words: str = "") -> str:
    """Return something to type that gives the numbers still missing (all, if none is).

    Args:
        known: The numbers given so far.
        words: What the person typed for a reading, or a part of one; the example is then in the
            same words and marks, if it can be and is read back as just what is missing.
    """
    missing = missing_from(known)
    wanted = Values(
        systolic=_EXAMPLE.systolic if Measure.SYSTOLIC in missing else None,
        diastolic=_EXAMPLE.diastolic if Measure.DIASTOLIC in missing else None,
        heart_rate=_EXAMPLE.heart_rate if Measure.HEART_RATE in missing else None,
    )
    if words and (own := _like(words, wanted)) and read(own, known) == Understood(values=wanted):
        return own
    match missing:
        case (Measure.SYSTOLIC,):
            return str(_EXAMPLE.systolic)
        case (Measure.DIASTOLIC,):
            return str(_EXAMPLE.diastolic)
        case (Measure.HEART_RATE,):
            return str(_EXAMPLE.heart_rate)
        case _:
            return echo(wanted)


def _like(words: str, wanted: Values) -> str | None:
    """Return a message with its numbers changed to others; `None` where it says more or less."""
    if len(words) > _LONGEST:
        return None
    said = read(words)
    if not isinstance(said, Understood) or said.rest:
        return None
    pairs = (
        (said.values.systolic, wanted.systolic),
        (said.values.diastolic, wanted.diastolic),
        (said.values.heart_rate, wanted.heart_rate),
    )
    if any((old is None) != (new is None) for old, new in pairs):
        return None
    instead = {str(old): str(new) for old, new in pairs if old is not None}
    out, end = "", 0
    for token in spoken(scan(words)):
        if token.kind is Kind.NUMBER:
            if token.key.lstrip("0") not in instead:
                return None
            out += words[end : token.start] + instead[token.key.lstrip("0")]
            end = token.end
    return (out + words[end:]).strip()
