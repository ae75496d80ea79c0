"""How likely it is that true changes are at or past a line, given the changes measured."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations, groupby
from math import sqrt
from typing import Final

from bot.findings.comparison import WITHIN_PERSON_SD
from bot.findings.deltas import Held, number
from bot.findings.lines import STANDING_SYSTOLIC_HIGH, SUSTAINED_OVER
from bot.findings.noise import PRESSURE_CORRELATION, change_sd, new_variance, pressure_sd
from bot.findings.normal import below, both_below, either_below
from bot.protocol.circumstances import RateSource
from bot.protocol.record import Measure, Reading

BETWEEN_DAYS_SD: Final = {measure: sqrt(2) * sd for measure, sd in WITHIN_PERSON_SD.items()}
"""SD of the difference between one person's changes on two days; the device's error is in it."""


class Rule(StrEnum):
    """What a probability is of."""

    ONE_CHANGE = "one-change"  # one change, at the reading that shows it best
    TWO_CHANGES = "two-changes"  # two rises at least a minute apart, at the pair that shows it best
    EITHER_PRESSURE = "either-pressure"  # one of the two at least, at the reading that shows it
    RISE_AND_STANDING = "rise-and-standing"  # the rise, and the standing pressure at that reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """How likely the true changes are at or past a line.

    Attributes:
        rule: What the probability is of.
        held: The change that shows it best, held against its limit.
        probability: At the reading, or the two readings, that show it best.
        at_least: The same, however the errors of the two pressures move together.
        at_most: For all readings together, however their errors move together.
        usual: The change that another day starts from; for two changes the smaller one of the pair
            in which that is largest.
        another_day: The probability on another day, at the reading or the two readings that would
            show it best; `None` where a part of it is not known.
    """

    rule: Rule
    held: Held
    probability: float
    at_least: float
    at_most: float
    usual: Held
    another_day: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Measures changes by their error.

    Attributes:
        baseline: The supine reading that they are changes from.
        rate_source: What the heart rate was read from, if told.
    """

    baseline: Reading
    rate_source: RateSource | None

    def sd(self, reading: Reading, measure: Measure) -> float:
        """Return the SD of the error of one change."""
        lying, up = number(self.baseline.values, measure), number(reading.values, measure)
        assert lying is not None
        assert up is not None
        return change_sd(measure, lying, up, self.rate_source)

    def past(self, held: Held) -> float:
        """Return how many SD a change lies past its limit; negative when it falls short."""
        return held.past / self.sd(held.reading, measure_of(held))

    def shared(self, one: Held, other: Held) -> float:
        """Return the correlation of two changes of one measure: the supine reading is in both."""
        measure = measure_of(one)
        lying = number(self.baseline.values, measure)
        assert lying is not None
        variance = new_variance(measure, lying, self.rate_source)
        return variance / (self.sd(one.reading, measure) * self.sd(other.reading, measure))


def measure_of(held: Held) -> Measure:
    """Return which number a change is of."""
    assert held.measure is not None
    return held.measure


def one_change(changes: Sequence[Held], scale: Scale) -> Chance:
    """Return how likely one change is past its limit. They are of one measure, at least one."""
    best = max(changes, key=scale.past)
    probability = below(scale.past(best))
    return Chance(
        rule=Rule.ONE_CHANGE,
        held=best,
        probability=probability,
        at_least=probability,
        at_most=_together([below(scale.past(change)) for change in changes]),
        usual=best,
        another_day=below(_past_between_days(best)),
    )


def two_changes(rises: Sequence[Held], scale: Scale) -> Chance:
    """Return how likely two rises, far enough apart, are both past their limit.

    Where no two are far enough apart, one has to do. The upper bound is of one rise: what was seen
    at one reading only is not clearly absent.
    """

    def likely(pair: tuple[Held, Held]) -> float:
        one, other = pair
        return both_below(scale.past(one), scale.past(other), scale.shared(one, other))

    once = one_change(rises, scale)
    pairs = [
        (one, other)
        for one, other in combinations(rises, 2)
        if abs(one.reading.offset - other.reading.offset) >= SUSTAINED_OVER
    ]
    if not pairs:
        return once
    probability = max(likely(pair) for pair in pairs)
    smaller = max((min(pair, key=_past) for pair in pairs), key=_past)
    return Chance(
        rule=Rule.TWO_CHANGES,
        held=once.held,
        probability=probability,
        at_least=probability,
        at_most=once.at_most,
        usual=smaller,
        another_day=below(_past_between_days(smaller)),
    )


def either_pressure(falls: Sequence[Held], scale: Scale) -> Chance:
    """Return how likely at least one of the two pressures of a reading is past its limit.

    The errors of the two are taken to move together by `PRESSURE_CORRELATION`; the bounds hold
    whatever they do.
    """

    def reading(fall: Held) -> int:
        return fall.reading.number

    readings = [list(group) for _, group in groupby(sorted(falls, key=reading), key=reading)]

    def likely(pressures: Sequence[Held]) -> float:
        return _either([scale.past(fall) for fall in pressures])

    best = max(readings, key=likely)
    deciding = max(best, key=scale.past)
    return Chance(
        rule=Rule.EITHER_PRESSURE,
        held=deciding,
        probability=likely(best),
        at_least=max(below(scale.past(fall)) for fall in falls),
        at_most=_together([below(scale.past(fall)) for fall in falls]),
        usual=deciding,
        another_day=max(
            _either([_past_between_days(fall) for fall in pressures]) for pressures in readings
        ),
    )


def rise_and_standing(rises: Sequence[Held], scale: Scale) -> Chance:
    """Return how likely the systolic rise and the high standing pressure are both there.

    From a pressure as it was read nothing drops out, so the whole error of the cuff counts; the
    standing reading is in both.
    """

    def likely(rise: Held) -> float:
        systolic = rise.reading.values.systolic
        assert systolic is not None
        high = STANDING_SYSTOLIC_HIGH.past(systolic) / pressure_sd()
        shared = new_variance(Measure.SYSTOLIC, systolic, scale.rate_source)
        spread = pressure_sd() * scale.sd(rise.reading, Measure.SYSTOLIC)
        return both_below(high, scale.past(rise), shared / spread)

    best = max(rises, key=likely)
    return Chance(
        rule=Rule.RISE_AND_STANDING,
        held=best,
        probability=likely(best),
        at_least=likely(best),
        at_most=_together([likely(rise) for rise in rises]),
        usual=best,
        another_day=None,
    )


def _either(past: Sequence[float]) -> float:
    """Return how likely one of one or two pressures is past, by how many SD each lies past."""
    if len(past) == 1:
        return below(past[0])
    one, other = past
    return either_below(one, other, PRESSURE_CORRELATION)


def _past(held: Held) -> float:
    return held.past


def _past_between_days(held: Held) -> float:
    return held.past / BETWEEN_DAYS_SD[measure_of(held)]


def _together(probabilities: Sequence[float]) -> float:
    """Return the most that one of several can come to, whatever their dependence (Boole)."""
    return min(1.0, sum(probabilities))
