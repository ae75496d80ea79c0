"""What a cuff and a heart-rate source show of what is true.

The figures stand here again, beside those of `bot.findings.noise`, and are not taken from there: so
the cohort does not follow when the findings change what they assume.
"""

from dataclasses import dataclass
from math import sqrt
from random import Random
from typing import Final, assert_never

from bot.cohort.courses import Body
from bot.protocol.circumstances import Cuff, RateSource
from bot.protocol.record import Values

MODEL_BIAS: Final = 5.0
"""The largest mean error of a model of cuff that passes validation, in mmHg (ISO 81060-2: found);
drawn evenly up to it either way, the same at every reading: design choice."""

CUFF_SD: Final = 8.0
"""SD of the error over people and readings, in mmHg (ISO 81060-2: found)."""

NEW_SHARE: Final = 0.25
"""Share of that variance that is new at each reading; the rest is a person's own. Design choice."""

PRESSURES_TOGETHER: Final = 0.5
"""How closely the errors of the two pressures move together. Design choice."""

OXIMETER_SD: Final = 3.0
"""Beats a minute: makers give about ±3 at rest (found), read as an SD."""

CUFF_RATE: Final = 0.05
"""A cuff's heart rate lies within ±5 % (from memory, not verified), evenly."""

WATCH_SD: Final = 4.0
"""Beats a minute. Design choice; no source."""

FINGERS_SD: Final = 5.0
"""Beats a minute, counted by hand. Design choice; no source."""

WRIST_FACTOR: Final = 1.5
"""How much larger a wrist cuff's new errors are. Design choice; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """The devices of one person.

    Attributes:
        cuff: Where it sits, as told.
        rate_source: What the heart rate is read from, as told.
        bias: What it adds to every pressure.
        new_sd: SD of what is new at each pressure.
    """

    cuff: Cuff | None
    rate_source: RateSource | None
    bias: Body
    new_sd: float


def draw_kit(chance: Random) -> Kit:
    """Draw somebody's devices."""
    (cuff,) = chance.choices((Cuff.UPPER_ARM, Cuff.WRIST, None), weights=(86, 11, 3))
    (source,) = chance.choices((*RateSource, None), weights=(38, 44, 10, 5, 3))
    systolic, diastolic = _pair(CUFF_SD * sqrt(1 - NEW_SHARE), chance)
    return Kit(
        cuff=cuff,
        rate_source=source,
        bias=Body(
            0.0,
            systolic + chance.uniform(-MODEL_BIAS, MODEL_BIAS),
            diastolic + chance.uniform(-MODEL_BIAS, MODEL_BIAS),
        ),
        new_sd=CUFF_SD * sqrt(NEW_SHARE) * (WRIST_FACTOR if cuff is Cuff.WRIST else 1.0),
    )


def measure(body: Body, kit: Kit, chance: Random) -> Values:
    """Draw what the displays show of what is true."""
    systolic, diastolic = _pair(kit.new_sd, chance)
    shown = Body(
        body.rate + _rate_error(body.rate, kit.rate_source, chance),
        body.systolic + kit.bias.systolic + systolic,
        body.diastolic + kit.bias.diastolic + diastolic,
    ).possible()
    return Values(
        systolic=round(shown.systolic),
        diastolic=round(shown.diastolic),
        heart_rate=round(shown.rate),
    )


def _rate_error(rate: float, source: RateSource | None, chance: Random) -> float:
    match source:
        case RateSource.CUFF:
            return rate * chance.uniform(-CUFF_RATE, CUFF_RATE)
        case RateSource.OXIMETER:
            return chance.gauss(0.0, OXIMETER_SD)
        case RateSource.WATCH | None:
            return chance.gauss(0.0, WATCH_SD)
        case RateSource.FINGERS:
            return chance.gauss(0.0, FINGERS_SD)
        case _:
            assert_never(source)


def _pair(sd: float, chance: Random) -> tuple[float, float]:
    """Draw the errors of two pressures."""
    shared = sqrt(PRESSURES_TOGETHER) * chance.gauss(0.0, 1.0)
    apart = sqrt(1 - PRESSURES_TOGETHER)
    return (
        sd * (shared + apart * chance.gauss(0.0, 1.0)),
        sd * (shared + apart * chance.gauss(0.0, 1.0)),
    )
