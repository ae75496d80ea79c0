"""How far a number that a device shows may lie from the true one.

An error has two parts. One is the same at every reading of this person with this device: it drops
out of a change, which is the difference of two readings. The other is new at each reading, and a
change holds it twice. A device's published limit holds both, and does not say how much of each.

What is true is meant at the moment of the reading: that a pressure moves from one minute to the
next is not an error. That the cuff is held at heart height each time is assumed; it is not
recorded.
"""

from math import sqrt
from typing import Final, assert_never

from bot.protocol.circumstances import RateSource
from bot.protocol.record import Measure

CUFF_SD: Final = 8.0
"""The largest SD of a cuff's error, in mmHg, with which it still passes validation (ISO 81060-2:
found). The mean error, up to 5, is the same at every reading and drops out of a change. For a cuff
better than the limit all intervals here are too wide, never too narrow."""

NEW_SHARE: Final = 0.25
"""Share of the cuff's error variance that is new at each reading; the rest is the person's own and
drops out of a change. Design choice; nothing published says it. It has to lie below 0.35: two
readings may not differ more by their errors than diastolic changes of one person do between days,
all causes together (SD 6.7, CDISC pilot study: data). The standard's second limit, SD 6.95 for
the mean of three readings of a person, puts it at 0.37 where both limits are just reached (from
memory, not verified)."""

OXIMETER_RATE_SD: Final = 3.0
"""Beats a minute. Makers give about ±3 at rest (found), read as an SD (root mean square, as the
oximeter standard has it: from memory, not verified), all of it new at each reading: design
choice."""

CUFF_RATE_SHARE: Final = 0.05
"""A cuff's heart rate lies within about ±5 % (from memory, not verified), read as a limit, with
each error up to it as likely, and all of it new at each reading: design choice. As an SD it would
leave nothing to the days: with 70 and 100 beats a minute alone 6.1 of the 5.5 to 6.5 found."""

PRESSURE_CORRELATION: Final = 0.5
"""How closely the errors of the two pressures of one reading move together, 0 to 1. Design choice;
no source: they come from the same cuff and the same arm, by one measurement."""

_ROUNDING_VARIANCE: Final = 1 / 12
"""Of a whole number on the display: every true value within half a unit is as likely."""


def new_variance(measure: Measure, shown: float, rate_source: RateSource | None) -> float:
    """Return the variance of what is new in the error of one reading, the rounding included.

    Args:
        measure: Which number.
        shown: The number as it was read; a cuff's rate error grows with it.
        rate_source: What the heart rate was read from. For one without a known figure, or one not
            told, the wider of the known ones holds: design choice.

    Returns:
        In squared units of the number: mmHg or beats a minute.
    """
    match measure:
        case Measure.HEART_RATE:
            return _rate_variance(shown, rate_source) + _ROUNDING_VARIANCE
        case Measure.SYSTOLIC | Measure.DIASTOLIC:
            return NEW_SHARE * CUFF_SD**2 + _ROUNDING_VARIANCE
        case _:
            assert_never(measure)


def change_sd(measure: Measure, lying: float, up: float, rate_source: RateSource | None) -> float:
    """Return the SD of the error of a change: what is new in both of its readings."""
    return sqrt(new_variance(measure, lying, rate_source) + new_variance(measure, up, rate_source))


def pressure_sd() -> float:
    """Return the SD of the error of one pressure as it was read; here nothing drops out."""
    return sqrt(CUFF_SD**2 + _ROUNDING_VARIANCE)


def sourced(rate_source: RateSource | None) -> bool:
    """Return whether there is a figure for the error of a heart rate read so."""
    return rate_source in {RateSource.CUFF, RateSource.OXIMETER}


def _rate_variance(shown: float, rate_source: RateSource | None) -> float:
    cuff = (CUFF_RATE_SHARE * shown) ** 2 / 3
    oximeter = OXIMETER_RATE_SD**2
    match rate_source:
        case RateSource.CUFF:
            return cuff
        case RateSource.OXIMETER:
            return oximeter
        case RateSource.WATCH | RateSource.FINGERS | None:
            return max(cuff, oximeter)
        case _:
            assert_never(rate_source)
