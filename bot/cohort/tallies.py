"""Counts of what the findings said and what was true. Whole numbers only.

So the sum of many tallies is the same in whatever order and by however many processes it is made.
"""

from collections import Counter
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final, assert_never

from bot.cohort.messages import Heard
from bot.cohort.population import Pattern
from bot.findings.certainty import Band
from bot.findings.quality import Grade
from bot.findings.result import Finding, Findings, Line, Reason, State
from bot.protocol.record import Ending

MILLION: Final = 1_000_000
"""Probabilities are summed in millionths."""

BINS: Final = 10


class Subject(StrEnum):
    """What is asked of a test: each line, and whether the pressure fell at all."""

    HEART_RATE_RISE = Line.HEART_RATE_RISE
    CLASSICAL_FALL = Line.CLASSICAL_FALL
    LATER_FALL = Line.LATER_FALL
    ANY_FALL = "any-fall"
    LARGE_FALL = Line.LARGE_FALL
    STANDING_SYSTOLIC_LOW = Line.STANDING_SYSTOLIC_LOW
    PRESSURE_RISE = Line.PRESSURE_RISE
    PRESSOR_RESPONSE = Line.PRESSOR_RESPONSE
    NEUROGENIC_PATTERN = Line.NEUROGENIC_PATTERN
    SUPINE_HYPERTENSION = Line.SUPINE_HYPERTENSION
    SUPINE_RATE_HIGH = Line.SUPINE_RATE_HIGH
    SUPINE_RATE_BELOW_60 = Line.SUPINE_RATE_BELOW_60
    BRADYCARDIA = Line.BRADYCARDIA
    STANDING_RATE_120 = Line.STANDING_RATE_120
    NARROW_PULSE_PRESSURE = Line.NARROW_PULSE_PRESSURE
    VERY_HIGH_PRESSURE = Line.VERY_HIGH_PRESSURE


class Against(StrEnum):
    """Which truth a finding is held against."""

    PERSON = "person"  # the usual course, every minute, with nothing in the way
    READINGS = "readings"  # the true numbers of the day at the very readings that were taken


class Said(StrEnum):
    """What a finding says of a line."""

    FOUND = "found"
    ONCE = "once"  # found, not confirmed
    NOT_MET = "not-met"
    NOTHING = "nothing"  # not measured, or it cannot be judged


class Forecast(StrEnum):
    """What a probability is of."""

    TRUE_CHANGE = "true change"
    TRUE_CHANGE_ARM_HANGING = "true change, arm hanging"
    ANOTHER_DAY = "another day"


class Lasting(StrEnum):
    """How a person's early fall goes on."""

    PASSING = "over by 5 minutes"
    STAYING = "still there after 3 minutes"


@dataclass(frozen=True, slots=True)
class Verdict:
    """One thing said in one test."""

    protocol: str
    grade: Grade
    subject: Subject
    against: Against
    true: bool
    said: Said


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing said of a person of a group."""

    protocol: str
    pattern: Pattern
    subject: Subject
    said: Said


@dataclass(frozen=True, slots=True)
class Bin:
    """Where a probability falls."""

    forecast: Forecast
    line: Line
    place: int


@dataclass(frozen=True, slots=True)
class Early:
    """What two protocols say of one person's early fall on one day: early, later, or not."""

    lasting: Lasting
    four: Line | None
    six: Line | None


@dataclass(slots=True)
class Tally:
    """Counts; see the classes of their keys.

    Attributes:
        tests: By protocol and grade.
        endings: By protocol, group and how the test ended.
        verdicts: What was said, against each truth.
        seen: What was said of the people of each group.
        given: How many probabilities fall into each bin.
        came_true: How many of these came true.
        sums: Their sums, in millionths.
        squares: Sums of their squared errors, in millionths.
        bands: Bands, by line and whether it was true.
        early: Early falls by two protocols.
        heard: What became of typed readings.
        summaries: Summaries made, by language.
        longest: Characters of the longest summary, by language.
    """

    tests: Counter[tuple[str, Grade]] = field(default_factory=Counter)
    endings: Counter[tuple[str, Pattern, Ending]] = field(default_factory=Counter)
    verdicts: Counter[Verdict] = field(default_factory=Counter)
    seen: Counter[Seen] = field(default_factory=Counter)
    given: Counter[Bin] = field(default_factory=Counter)
    came_true: Counter[Bin] = field(default_factory=Counter)
    sums: Counter[Bin] = field(default_factory=Counter)
    squares: Counter[Bin] = field(default_factory=Counter)
    bands: Counter[tuple[Line, Band, bool]] = field(default_factory=Counter)
    early: Counter[Early] = field(default_factory=Counter)
    heard: Counter[Heard] = field(default_factory=Counter)
    summaries: Counter[str] = field(default_factory=Counter)
    longest: dict[str, int] = field(default_factory=dict)

    def foretell(self, forecast: Forecast, line: Line, probability: float, *, true: bool) -> None:
        """Count a probability and whether it came true."""
        key = Bin(forecast, line, min(int(probability * BINS), BINS - 1))
        self.given[key] += 1
        self.came_true[key] += true
        self.sums[key] += round(probability * MILLION)
        self.squares[key] += round((probability - true) ** 2 * MILLION)

    def summarised(self, language: str, text: str) -> None:
        """Count a summary."""
        self.summaries[language] += 1
        self.longest[language] = max(self.longest.get(language, 0), len(text))

    def add(self, other: "Tally") -> None:
        """Add another tally to this one."""
        self.tests += other.tests
        self.endings += other.endings
        self.verdicts += other.verdicts
        self.seen += other.seen
        self.given += other.given
        self.came_true += other.came_true
        self.sums += other.sums
        self.squares += other.squares
        self.bands += other.bands
        self.early += other.early
        self.heard += other.heard
        self.summaries += other.summaries
        for language, length in other.longest.items():
            self.longest[language] = max(self.longest.get(language, 0), length)


def what_is_said(subject: Subject, findings: Findings) -> Said:
    """Return what the findings say of a subject.

    A later fall that is not judged since it was there from the start counts as found; and any fall
    is found where either is, and not met only where no fall is and no reading could have hidden it.
    """
    if subject is not Subject.ANY_FALL:
        return _said(findings.on(Line(subject)))
    said = {_said(findings.on(line)) for line in (Line.CLASSICAL_FALL, Line.LATER_FALL)}
    if Said.FOUND in said:
        return Said.FOUND
    return Said.NOTHING if Said.NOTHING in said else Said.NOT_MET


def _said(finding: Finding) -> Said:
    match finding.state:
        case State.MET:
            return Said.FOUND
        case State.MET_ONCE:
            return Said.ONCE
        case State.NOT_MET:
            return Said.NOT_MET
        case State.CANNOT_JUDGE | State.NOT_MEASURED:
            there = Reason.FALL_WITHIN_3_MINUTES in finding.reasons
            return Said.FOUND if there else Said.NOTHING
        case _:
            assert_never(finding.state)
