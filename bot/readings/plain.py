"""The plainest forms, read at a glance. It gives what the long way gives, or nothing."""

import re
from typing import Final

from bot.protocol.record import Measure, Values
from bot.readings.outcome import Doubtful, Outcome, Understood
from bot.readings.plausibility import POSSIBLE, doubt

_PLAIN: Final = re.compile(r"([0-9]{2,3})/([0-9]{2,3})(?:(?: |, ?)([0-9]{2,3}))?")
_SYSTOLIC: Final = POSSIBLE[Measure.SYSTOLIC]
_DIASTOLIC: Final = POSSIBLE[Measure.DIASTOLIC]
_HEART_RATE: Final = POSSIBLE[Measure.HEART_RATE]


def plain(text: str, known: Values, before: Values | None) -> Outcome | None:
    """Read "124/76", "124/76 72" or "124/76, 72" if each number is possible."""
    found = _PLAIN.fullmatch(text)
    if found is None:
        return None
    systolic, diastolic = int(found[1]), int(found[2])
    heart_rate = None if found[3] is None else int(found[3])
    if systolic not in _SYSTOLIC or diastolic not in _DIASTOLIC:
        return None
    if heart_rate is not None and heart_rate not in _HEART_RATE:
        return None
    values = Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)
    odd = doubt(values, known, before)
    if odd is None:
        return Understood(values=values)
    return Doubtful(values=values, doubt=odd[0], suggested=odd[1])
