"""What a record of readings comes to. Pattern words only; never a diagnosis."""

from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum

from bot.protocol.record import Measure, Reading


class Line(StrEnum):
    """A line that readings are held against; `lines` has the rule and source of each."""

    HEART_RATE_RISE = "heart-rate-rise"
    CLASSICAL_FALL = "classical-fall"  # pressure fall within 3 min of standing
    LATER_FALL = "later-fall"  # same size, first seen after 3 min
    LARGE_FALL = "large-fall"  # systolic fall >= 30, the apter line when lying pressure is high
    STANDING_SYSTOLIC_LOW = "standing-systolic-low"
    PRESSURE_RISE = "pressure-rise"  # orthostatic hypertension
    PRESSOR_RESPONSE = "pressor-response"  # the rise, whatever the standing pressure
    NEUROGENIC_PATTERN = "neurogenic-pattern"
    SUPINE_HYPERTENSION = "supine-hypertension"
    SUPINE_RATE_HIGH = "supine-rate-high"  # resting tachycardia
    SUPINE_RATE_BELOW_60 = "supine-rate-below-60"
    BRADYCARDIA = "bradycardia"
    STANDING_RATE_120 = "standing-rate-120"
    NARROW_PULSE_PRESSURE = "narrow-pulse-pressure"  # while standing
    VERY_HIGH_PRESSURE = "very-high-pressure"  # in any position


class State(StrEnum):
    """Where the readings stand against a line."""

    MET = "met"
    MET_ONCE = "met-once"  # over the heart-rate line, but not twice a minute apart: not confirmed
    NOT_MET = "not-met"  # the readings that the line needs are there, and none reaches it
    NOT_MEASURED = "not-measured"  # there is no number to hold against the line
    CANNOT_JUDGE = "cannot-judge"  # numbers are there, but too few, or the line does not apply


class Reason(StrEnum):
    """Why a line is not measured or cannot be judged, or what to mind when reading it."""

    NO_SUPINE_READING = "no-supine-reading"  # none after enough rest
    SUPINE_NUMBER_MISSING = "supine-number-missing"  # the supine reading lacks a needed number
    NO_STANDING_READING = "no-standing-reading"
    STANDING_NUMBER_MISSING = "standing-number-missing"  # the standing readings lack a needed one
    PRESSURE_MISSING = "pressure-missing"  # one or both pressures were never given, lying or up
    NOTHING_WITHIN_3_MINUTES = "nothing-within-3-minutes"
    ONE_READING_WITHIN_3_MINUTES = "one-reading-within-3-minutes"  # a brief fall may be missed
    NOTHING_AFTER_3_MINUTES = "nothing-after-3-minutes"
    FALL_WITHIN_3_MINUTES = "fall-within-3-minutes"  # a later fall is then not first seen later
    AFTER_10_MINUTES = "after-10-minutes"  # readings after 10 min do not count for the rise
    SHORT_STAND = "short-stand"  # nothing near 10 min: a shorter stand can miss it
    ONE_STANDING_READING = "one-standing-reading"  # a rise needs two to judge
    READINGS_TOO_CLOSE = "readings-too-close"  # less than 1 min apart: they count as one
    UNDER_12 = "under-12"  # no agreed line
    AGE_NOT_TOLD = "age-not-told"
    PRESSURE_FELL = "pressure-fell"  # a rise with orthostatic hypotension is not the postural one
    FALL_NOT_EXCLUDED = "fall-not-excluded"  # the rise counts only without a fall; not all measured
    SUPINE_RATE_HIGH = "supine-rate-high"  # above 100 lying down: another pattern
    SUPINE_RATE_BELOW_60 = "supine-rate-below-60"
    SUPINE_PRESSURE_HIGH = "supine-pressure-high"  # the line of 30 may be the apter one
    HEART_RATE_FELL = "heart-rate-fell"  # a reflex pattern, not a neurogenic one
    SYSTOLIC_FALL_UNDER_20 = "systolic-fall-under-20"
    SLOWING_MEDICINE = "slowing-medicine"  # takes one that slows the heart
    MEDICINES_NOT_TOLD = "medicines-not-told"  # does not hold on a beta-blocker or a pacemaker
    PERSISTING_OR_LATER = "persisting-or-later"  # seen after 3 min; the first 3 were not measured
    LATE_READING = "late-reading"  # rests on a reading taken after its window


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One standing reading minus the supine one.

    Attributes:
        reading: The standing reading.
        heart_rate: Change in beats a minute; `None` when either number is missing.
        systolic: Change in mmHg; a fall is negative.
        diastolic: Change in mmHg; a fall is negative.
    """

    reading: Reading
    heart_rate: int | None
    systolic: int | None
    diastolic: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Where the readings stand against one line.

    Attributes:
        line: Which line.
        state: Met or not, or why that cannot be said.
        reasons: Why, or what to mind; in order of weight.
        size: The number that decides, signed: the one furthest past its limit, or nearest to it
            when none reaches it. A change for the rise and fall lines (mmHg or beats a minute), a
            number as it was read for the others; beats a minute per mmHg for the neurogenic
            pattern, the pulse pressure in mmHg for the narrow one. `None` when there is none.
        limit: The limit that `size` was held against; `None` when the line does not apply.
        measure: Which number `size` is of; `None` for the two made of several.
        at: Offset of the deciding reading from the start of its phase.
        evidence: Numbers of the readings that the finding rests on, the supine one included.
    """

    line: Line
    state: State
    reasons: tuple[Reason, ...] = ()
    size: float | None = None
    limit: float | None = None
    measure: Measure | None = None
    at: timedelta | None = None
    evidence: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """All that a record shows.

    Attributes:
        baseline: The supine reading that counts; `None` when there is none.
        changes: One for each standing reading, in order of time; empty without a baseline.
        findings: One for every `Line`, in the order of `Line`.
        late: Numbers of the readings taken after their window.
        missed: Ids of planned readings that were not taken.
    """

    baseline: Reading | None
    changes: tuple[Change, ...]
    findings: tuple[Finding, ...]
    late: tuple[int, ...]
    missed: tuple[str, ...]

    def on(self, line: Line) -> Finding:
        """Return the finding on one line."""
        return next(finding for finding in self.findings if finding.line is line)
