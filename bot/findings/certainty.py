"""How sure a change is, and how sure that it lies at or past a line.

Two questions are kept apart. How sure is the change that was measured, on this day: `probability`
and `Band`, from the error of the device alone. And would another day show the same: `AnotherDay`,
from how much a person's changes vary between days; it says nothing against this day's number.

A probability is of the true change, given the one measured, with nothing known beforehand: no
share of people who have a condition goes into it, and a person chosen for an extreme number will
as a rule show less of it on another day. It says nothing about a diagnosis.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final, assert_never

from bot.findings.chances import (
    BETWEEN_DAYS_SD,
    Chance,
    Rule,
    Scale,
    either_pressure,
    measure_of,
    one_change,
    rise_and_standing,
    two_changes,
)
from bot.findings.deltas import Deltas, compare, hold, number
from bot.findings.lines import LARGE_SYSTOLIC_FALL, SYSTOLIC_RISE, rise_limit
from bot.findings.noise import sourced
from bot.findings.normal import MIDDLE_95
from bot.findings.pressures import falls
from bot.findings.result import Finding, Findings, Line, Reason, State
from bot.protocol.record import Measure, Reading, TestRecord

CLEAR_FROM: Final = 0.9
"""A change is clearly at or past a line from this probability. Design choice."""

CLEARLY_NOT_UP_TO: Final = 0.1
"""It is clearly not there up to this one. Design choice."""

_JUDGED: Final = frozenset({State.MET, State.MET_ONCE, State.NOT_MET})


class Band(StrEnum):
    """How sure it is that a change lies at or past a line, in three steps."""

    CLEAR = "clear"
    NEAR_THE_LINE = "near-the-line"
    CLEARLY_NOT = "clearly-not"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeCertainty:
    """One change with the error of the device; in beats a minute or mmHg.

    Attributes:
        reading: Number of the standing reading.
        measure: Which number changed.
        size: Standing minus supine.
        sd: SD of its error.
        low: Lower end of the interval that holds the true change with 95 %.
        high: Upper end.
    """

    reading: int
    measure: Measure
    size: int
    sd: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherDay:
    """What another day would show; for context, never against this day's number.

    Attributes:
        size: The change that it starts from; for a sustained rise the smaller of the two.
        sd: SD of the difference between two days: the square root of 2 times the within-person SD.
        low: Lower end of the interval that the same change lies in on 95 % of other days.
        high: Upper end.
        probability: That it would be at or past the line. `None` where the line has a part whose
            variation between days is not known.
    """

    size: int
    sd: float
    low: float
    high: float
    probability: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Certainty:
    """How sure it is on which side of a line a change lies.

    Attributes:
        line: Which line.
        rule: What the probability is of.
        change: The change that decides the finding.
        probability: That the true change is at or past the line, at the reading (or the two
            readings) that show it best.
        at_least: The same, however the errors of the two pressures move together.
        at_most: An upper bound for any of the readings that count for the line, however their
            errors move together: the sum of their probabilities, or 1. For a rise: that even one
            reading is past the line.
        band: Clear by `at_least`, clearly not by `at_most`, else near the line. So a line that
            is met is never clearly not there, and one that is not met is never clear.
        sourced: Whether there is a figure for the device's error; without one the wider of the
            known ones is used.
        another_day: What another day would show.
    """

    line: Line
    rule: Rule
    change: ChangeCertainty
    probability: float
    at_least: float
    at_most: float
    band: Band
    sourced: bool
    another_day: AnotherDay


@dataclass(frozen=True, slots=True, kw_only=True)
class Certainties:
    """How sure the changes of a record are.

    Attributes:
        changes: One for each change that has a number, in the order of the readings.
        lines: One for each line on a change that is met or not met, in the order of `Line`.
        rise_hinges_on_fall: Whether the heart rate rose to its line, and whether that counts
            depends on a pressure fall that is near its own line.
    """

    changes: tuple[ChangeCertainty, ...]
    lines: tuple[Certainty, ...]
    rise_hinges_on_fall: bool

    def on(self, line: Line) -> Certainty | None:
        """Return the certainty on one line; `None` where it is not judged, or not on a change."""
        return next((one for one in self.lines if one.line is line), None)


def band(at_least: float, at_most: float) -> Band:
    """Return the band of a probability known to lie between two bounds."""
    if at_least >= CLEAR_FROM:
        return Band.CLEAR
    return Band.CLEARLY_NOT if at_most <= CLEARLY_NOT_UP_TO else Band.NEAR_THE_LINE


def certainty(record: TestRecord, findings: Findings) -> Certainties:
    """Return how sure the changes of a record are, and the lines on them.

    Args:
        record: The test.
        findings: What `find` says of it.

    Raises:
        KeyError: The record's protocol was never released.
    """
    return _worked_out(record, findings)


@lru_cache(maxsize=16)
def _worked_out(record: TestRecord, findings: Findings) -> Certainties:
    """Work it out once: every form of a result asks for the same."""
    deltas = compare(record)
    if deltas.baseline is None:
        return Certainties(changes=(), lines=(), rise_hinges_on_fall=False)
    source = record.circumstances.rate_source if record.circumstances else None
    scale = Scale(baseline=deltas.baseline, rate_source=source)
    lines = tuple(
        _certain(finding.line, chance, scale)
        for finding in findings.findings
        if finding.state in _JUDGED and (chance := _chance(finding, deltas, scale)) is not None
    )
    return Certainties(
        changes=tuple(
            _change(change.reading, measure, size, scale)
            for change in deltas.changes
            for measure in Measure
            if (size := number(change, measure)) is not None
        ),
        lines=lines,
        rise_hinges_on_fall=_hinges(findings.on(Line.HEART_RATE_RISE), lines),
    )


def _chance(finding: Finding, deltas: Deltas, scale: Scale) -> Chance | None:
    """Return how likely a line that is judged is there; `None` for one that is not on a change."""
    match finding.line:
        case Line.HEART_RATE_RISE:
            limit = rise_limit(deltas.age_band)
            assert not isinstance(limit, Reason)
            rises = hold(deltas.within_10, Measure.HEART_RATE, limit)
            # what is met once is a rise at one reading
            once = finding.state is State.MET_ONCE
            return one_change(rises, scale) if once else two_changes(rises, scale)
        case Line.CLASSICAL_FALL:
            early = [change for change in deltas.changes if deltas.early(change.reading)]
            return either_pressure(falls(early), scale)
        case Line.LATER_FALL:
            late = [change for change in deltas.changes if not deltas.early(change.reading)]
            return either_pressure(falls(late), scale)
        case Line.LARGE_FALL:
            return one_change(hold(deltas.changes, Measure.SYSTOLIC, LARGE_SYSTOLIC_FALL), scale)
        case Line.PRESSURE_RISE:
            return rise_and_standing(hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_RISE), scale)
        case Line.PRESSOR_RESPONSE:
            return one_change(hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_RISE), scale)
        case (
            Line.STANDING_SYSTOLIC_LOW
            | Line.NEUROGENIC_PATTERN
            | Line.SUPINE_HYPERTENSION
            | Line.SUPINE_RATE_HIGH
            | Line.SUPINE_RATE_BELOW_60
            | Line.BRADYCARDIA
            | Line.STANDING_RATE_120
            | Line.NARROW_PULSE_PRESSURE
            | Line.VERY_HIGH_PRESSURE
        ):
            return None
        case _:
            assert_never(finding.line)


def _certain(line: Line, chance: Chance, scale: Scale) -> Certainty:
    measure = measure_of(chance.held)
    usual, between = int(chance.usual.size), BETWEEN_DAYS_SD[measure_of(chance.usual)]
    return Certainty(
        line=line,
        rule=chance.rule,
        change=_change(chance.held.reading, measure, int(chance.held.size), scale),
        probability=chance.probability,
        at_least=chance.at_least,
        at_most=chance.at_most,
        band=band(chance.at_least, chance.at_most),
        sourced=measure is not Measure.HEART_RATE or sourced(scale.rate_source),
        another_day=AnotherDay(
            size=usual,
            sd=between,
            low=usual - MIDDLE_95 * between,
            high=usual + MIDDLE_95 * between,
            probability=chance.another_day,
        ),
    )


def _change(reading: Reading, measure: Measure, size: int, scale: Scale) -> ChangeCertainty:
    sd = scale.sd(reading, measure)
    return ChangeCertainty(
        reading=reading.number,
        measure=measure,
        size=size,
        sd=sd,
        low=size - MIDDLE_95 * sd,
        high=size + MIDDLE_95 * sd,
    )


def _hinges(rise: Finding, lines: Sequence[Certainty]) -> bool:
    """Return whether a rise counts, or does not, by a fall that is near its line."""
    fell = Reason.PRESSURE_FELL in rise.reasons and Reason.SUPINE_RATE_HIGH not in rise.reasons
    seen = fell or rise.state in {State.MET, State.MET_ONCE}
    bands = {one.band for one in lines if one.line in {Line.CLASSICAL_FALL, Line.LATER_FALL}}
    return seen and Band.NEAR_THE_LINE in bands and Band.CLEAR not in bands
