"""Numbers into the short form that people type."""

from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.grammar import missing_from

_EXAMPLE: Final = Values(systolic=124, diastolic=76, heart_rate=72)


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


def example(known: Values) -> str:
    """Return something to type that gives the numbers still missing (all, if none is)."""
    match missing_from(known):
        case (Measure.SYSTOLIC,):
            return str(_EXAMPLE.systolic)
        case (Measure.DIASTOLIC,):
            return str(_EXAMPLE.diastolic)
        case (Measure.HEART_RATE,):
            return str(_EXAMPLE.heart_rate)
        case missing:
            return echo(
                Values(
                    systolic=_EXAMPLE.systolic if Measure.SYSTOLIC in missing else None,
                    diastolic=_EXAMPLE.diastolic if Measure.DIASTOLIC in missing else None,
                    heart_rate=_EXAMPLE.heart_rate if Measure.HEART_RATE in missing else None,
                )
            )
