"""Which lines the true numbers reach: worked out from the numbers, without the findings' code.

Only the limits themselves are taken from `bot.findings.lines`, so that both speak of one line.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final, assert_never

from bot.cohort.courses import Body, Course
from bot.findings.lines import (
    BRADYCARDIA,
    DIASTOLIC_FALL,
    DIASTOLIC_VERY_HIGH,
    LARGE_SYSTOLIC_FALL,
    NARROW_SHARE,
    NEUROGENIC_RATIO,
    STANDING_RATE_120,
    STANDING_SYSTOLIC_HIGH,
    STANDING_SYSTOLIC_LOW,
    SUPINE_DIASTOLIC_HIGH,
    SUPINE_RATE_BELOW_60,
    SUPINE_RATE_HIGH,
    SUPINE_SYSTOLIC_HIGH,
    SYSTOLIC_FALL,
    SYSTOLIC_RISE,
    SYSTOLIC_VERY_HIGH,
    rise_limit,
)
from bot.findings.result import Line, Reason
from bot.protocol.definition import Position
from bot.protocol.record import AgeBand

EARLY: Final = 3.0
LAST: Final = 10.0
APART: Final = 1.0
MINUTES: Final = tuple(range(1, 11))
"""The minutes of standing at which a person's usual course is looked at: not the first, in which an
initial fall comes and goes, which no line here is of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """What was true at one moment of standing, in minutes; numbers not read are left out.

    Attributes:
        minute: Which moment it stands for.
        body: The true numbers.
        rate_read: Whether the heart rate was read.
        pressures_read: Whether the pressures were.
    """

    minute: float
    body: Body
    rate_read: bool = True
    pressures_read: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Truth:
    """The true numbers of a test.

    Attributes:
        age_band: The age band, if told.
        lying: At the supine reading.
        seated: At the seated reading, if there was one.
        standing: At the standing ones, in order.
        slowed: Whether a medicine that slows the heart is taken.
    """

    age_band: AgeBand | None
    lying: Body
    seated: Body | None
    standing: tuple[Stood, ...]
    slowed: bool = False

    def rises(self) -> tuple[tuple[float, float], ...]:
        """Return the heart rate's changes within 10 min, with their minutes."""
        return tuple(
            (one.minute, one.body.rate - self.lying.rate)
            for one in self.standing
            if one.rate_read and one.minute <= LAST
        )


def usual(course: Course, age_band: AgeBand | None) -> Truth:
    """Return a course at rest and at every whole minute of standing."""
    return Truth(
        age_band=age_band,
        lying=course.at(Position.SUPINE, 5),
        seated=course.at(Position.SEATED, 5),
        standing=tuple(
            Stood(minute=minute, body=course.at(Position.STANDING, minute)) for minute in MINUTES
        ),
    )


def rose_twice(truth: Truth) -> bool:
    """Return whether two rises at least a minute apart are at the line of the age."""
    limit = rise_limit(truth.age_band)
    if isinstance(limit, Reason):
        return False
    over = [minute for minute, size in truth.rises() if limit.reached(size)]
    return any(abs(one - other) >= APART for one, other in combinations(over, 2))


def rose_once(truth: Truth) -> bool:
    """Return whether one rise is at the line of the age."""
    limit = rise_limit(truth.age_band)
    return not isinstance(limit, Reason) and any(limit.reached(size) for _, size in truth.rises())


def fell(truth: Truth, where: Callable[[float], bool]) -> bool:
    """Return whether either pressure fell to its line at a minute that counts."""
    return any(
        SYSTOLIC_FALL.reached(one.body.systolic - truth.lying.systolic)
        or DIASTOLIC_FALL.reached(one.body.diastolic - truth.lying.diastolic)
        for one in _pressures(truth)
        if where(one.minute)
    )


def reached(line: Line, truth: Truth) -> bool:
    """Return whether the true numbers reach a line, by its whole rule.

    The later fall is one after 3 min whatever there was before: that it persists is said by the
    finding's reasons.
    """
    lying, read = truth.lying, _pressures(truth)
    systolic = [one.body.systolic for one in read]
    changes = [one - lying.systolic for one in systolic]
    match line:
        case Line.HEART_RATE_RISE:
            fallen = fell(truth, lambda _: True)
            return rose_twice(truth) and not fallen and not SUPINE_RATE_HIGH.reached(lying.rate)
        case Line.CLASSICAL_FALL:
            return fell(truth, lambda minute: minute <= EARLY)
        case Line.LATER_FALL:
            return fell(truth, lambda minute: minute > EARLY)
        case Line.LARGE_FALL:
            return any(map(LARGE_SYSTOLIC_FALL.reached, changes))
        case Line.STANDING_SYSTOLIC_LOW:
            return any(map(STANDING_SYSTOLIC_LOW.reached, systolic))
        case Line.PRESSURE_RISE:
            return any(
                SYSTOLIC_RISE.reached(change) and STANDING_SYSTOLIC_HIGH.reached(up)
                for change, up in zip(changes, systolic, strict=True)
            )
        case Line.PRESSOR_RESPONSE:
            return any(map(SYSTOLIC_RISE.reached, changes))
        case Line.NEUROGENIC_PATTERN:
            return _neurogenic(truth)
        case Line.SUPINE_HYPERTENSION:
            return SUPINE_SYSTOLIC_HIGH.reached(lying.systolic) or SUPINE_DIASTOLIC_HIGH.reached(
                lying.diastolic
            )
        case Line.SUPINE_RATE_HIGH:
            return SUPINE_RATE_HIGH.reached(lying.rate)
        case Line.SUPINE_RATE_BELOW_60:
            return SUPINE_RATE_BELOW_60.reached(lying.rate)
        case Line.BRADYCARDIA:
            return BRADYCARDIA.reached(lying.rate)
        case Line.STANDING_RATE_120:
            return any(STANDING_RATE_120.reached(one.body.rate) for one in _rates(truth))
        case Line.NARROW_PULSE_PRESSURE:
            return any(
                one.body.systolic - one.body.diastolic < NARROW_SHARE * one.body.systolic
                for one in read
            )
        case Line.VERY_HIGH_PRESSURE:
            seated = () if truth.seated is None else (truth.seated,)
            return any(
                SYSTOLIC_VERY_HIGH.reached(body.systolic)
                or DIASTOLIC_VERY_HIGH.reached(body.diastolic)
                for body in (lying, *seated, *(one.body for one in read))
            )
        case _:
            assert_never(line)


def _neurogenic(truth: Truth) -> bool:
    both = [one for one in _rates(truth) if one.pressures_read]
    if truth.slowed or not both:
        return False
    deepest = min(both, key=lambda one: one.body.systolic)
    fall = truth.lying.systolic - deepest.body.systolic
    rise = deepest.body.rate - truth.lying.rate
    if not SYSTOLIC_FALL.reached(-fall) or rise < 0:
        return False
    return NEUROGENIC_RATIO.reached(rise / fall)


def _pressures(truth: Truth) -> Sequence[Stood]:
    return [one for one in truth.standing if one.pressures_read]


def _rates(truth: Truth) -> Sequence[Stood]:
    return [one for one in truth.standing if one.rate_read]


def lines_reached(truth: Truth, lines: Iterable[Line] = Line) -> frozenset[Line]:
    """Return the lines that the true numbers reach."""
    return frozenset(line for line in lines if reached(line, truth))
