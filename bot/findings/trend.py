"""Three tests or more of one person over time, and whether their changes go anywhere.

A direction is claimed only for tests on the same kind of day, with nothing that tells them apart
but the day, and only where the straight line through their changes moves by more than chance would
move it in 99 of 100 such series, given how much one person's changes vary between days. It says
that the numbers move, not why, and not that anyone is better or worse.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from itertools import combinations
from math import fsum, sqrt
from typing import Final

from bot.findings.alike import Doubt, doubts
from bot.findings.comparison import WITHIN_PERSON_SD, extreme
from bot.findings.result import Findings
from bot.findings.survey import find
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Measure, TestRecord

FEWEST: Final = 3
"""Tests of the same kind of day, with a number, that a direction takes. Design choice."""

CHANCE_99: Final = 2.576
"""Half the width of the middle 99 % of a normal distribution, in SD (usual figure). Wider than the
95 % of two tests, since three changes on two kinds of day are looked at, and again after each test:
design choice."""

KINDS: Final = (DayKind.GOOD, DayKind.SYMPTOMATIC)
"""Kinds of day that tests can share; days of which the kind is not known may be of any."""


class Direction(StrEnum):
    """Where a change goes over time, with its sign: a pressure that falls less goes higher."""

    HIGHER = "higher"
    LOWER = "lower"
    NONE_CLEAR = "none-clear"  # what chance alone can do
    NOT_ALIKE = "not-alike"  # more than the day tells the tests apart
    TOO_FEW = "too-few"


@dataclass(frozen=True, slots=True, kw_only=True)
class TrendPoint:
    """One test of the series; changes in beats a minute or mmHg, `None` when there is no number.

    Attributes:
        test: Its number.
        began_at: When it began.
        day: The kind of day, if told.
        heart_rate: The largest rise.
        systolic: The deepest fall.
        diastolic: The deepest fall.
    """

    test: int
    began_at: datetime
    day: DayKind | None
    heart_rate: int | None
    systolic: int | None
    diastolic: int | None

    def size(self, measure: Measure) -> int | None:
        """Return the change of one measure."""
        sizes = {
            Measure.HEART_RATE: self.heart_rate,
            Measure.SYSTOLIC: self.systolic,
            Measure.DIASTOLIC: self.diastolic,
        }
        return sizes[measure]


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One change over the tests on one kind of day.

    Attributes:
        day: The kind of day.
        measure: Which number changed.
        tests: Numbers of the tests that have it, in order of time.
        direction: Where it goes.
        moved: How far the straight line through the changes moves from the first to the last
            test; `None` with too few tests, or all at one time.
        by_chance: How far chance alone may move it; `None` likewise.
        doubts: What tells any two of the tests apart, in order of weight.
    """

    day: DayKind
    measure: Measure
    tests: tuple[int, ...]
    direction: Direction
    moved: float | None
    by_chance: float | None
    doubts: tuple[Doubt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A series of tests.

    Attributes:
        points: One for each test, in order of time.
        courses: One for each kind of day that tests share and each measure.
    """

    points: tuple[TrendPoint, ...]
    courses: tuple[Course, ...]

    def course(self, day: DayKind, measure: Measure) -> Course:
        """Return one course.

        Raises:
            KeyError: There is none on that kind of day; see `KINDS`.
        """
        for one in self.courses:
            if (one.day, one.measure) == (day, measure):
                return one
        raise KeyError(day)


@dataclass(frozen=True, slots=True)
class _Taken:
    record: TestRecord
    findings: Findings
    point: TrendPoint


def trend(records: Sequence[TestRecord]) -> Trend:
    """Return a series of tests of one person, in order of time however they are given.

    Raises:
        KeyError: The protocol of one was never released.
    """
    series = [_taken(record) for record in sorted(records, key=lambda r: (r.began_at, r.number))]
    return Trend(
        points=tuple(one.point for one in series),
        courses=tuple(
            _course(
                day,
                measure,
                [
                    one
                    for one in series
                    if one.point.day is day and one.point.size(measure) is not None
                ],
            )
            for day in KINDS
            for measure in WITHIN_PERSON_SD
        ),
    )


def _taken(record: TestRecord) -> _Taken:
    findings = find(record)
    point = TrendPoint(
        test=record.number,
        began_at=record.began_at,
        day=record.day,
        heart_rate=extreme(findings.changes, Measure.HEART_RATE),
        systolic=extreme(findings.changes, Measure.SYSTOLIC),
        diastolic=extreme(findings.changes, Measure.DIASTOLIC),
    )
    return _Taken(record, findings, point)


def _course(day: DayKind, measure: Measure, series: Sequence[_Taken]) -> Course:
    found = {
        doubt
        for one, other in combinations(series, 2)
        for doubt in doubts(one.record, other.record, one.findings, other.findings)
    }
    line = _line(measure, [one.point for one in series]) if len(series) >= FEWEST else None
    moved, by_chance = line or (None, None)
    return Course(
        day=day,
        measure=measure,
        tests=tuple(one.point.test for one in series),
        direction=_direction(line, alike=found <= {Doubt.NOT_TOLD}),
        moved=moved,
        by_chance=by_chance,
        doubts=tuple(doubt for doubt in Doubt if doubt in found),
    )


def _line(measure: Measure, points: Sequence[TrendPoint]) -> tuple[float, float] | None:
    """Return how far the least-squares line moves over the series, and how far by chance."""
    first = points[0].began_at
    placed = [
        ((point.began_at - first).total_seconds(), size)
        for point in points
        if (size := point.size(measure)) is not None
    ]
    middle = fsum(time for time, _ in placed) / len(placed)
    spread = fsum((time - middle) ** 2 for time, _ in placed)
    if not spread:
        return None
    slope = fsum((time - middle) * size for time, size in placed) / spread
    over = placed[-1][0]
    return slope * over, CHANCE_99 * WITHIN_PERSON_SD[measure] * over / sqrt(spread)


def _direction(line: tuple[float, float] | None, *, alike: bool) -> Direction:
    if line is None:
        return Direction.TOO_FEW
    moved, by_chance = line
    if not alike:
        return Direction.NOT_ALIKE
    if abs(moved) <= by_chance:
        return Direction.NONE_CLEAR
    return Direction.HIGHER if moved > 0 else Direction.LOWER
