"""The record of one test: what was measured, when, and in which words.

Pressures are in mmHg, heart rates in beats a minute (UCUM `mm[Hg]`, `/min`).
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from bot.protocol.circumstances import Circumstances, DayKind
from bot.protocol.definition import Position, ProtocolRef


class AgeBand(StrEnum):
    """The age band that decides the heart-rate line (asked once; never a date of birth)."""

    UNDER_12 = "under-12"
    FROM_12_TO_19 = "12-to-19"
    FROM_20 = "20-and-over"


class Measure(StrEnum):
    """One number of a reading."""

    SYSTOLIC = "systolic"
    DIASTOLIC = "diastolic"
    HEART_RATE = "heart_rate"


class Symptom(StrEnum):
    """A symptom that people commonly tell; anything else is kept in their own words."""

    DIZZY = "dizzy"
    FAINT = "faint"
    NAUSEA = "nausea"
    PALPITATIONS = "palpitations"
    HEADACHE = "headache"
    BRAIN_FOG = "brain-fog"
    SHAKY = "shaky"
    WEAK = "weak"
    SHORT_OF_BREATH = "short-of-breath"
    BLURRED_VISION = "blurred-vision"
    SWEATING = "sweating"
    TIRED = "tired"
    OTHER = "other"


class Ending(StrEnum):
    """How a test ended."""

    COMPLETED = "completed"
    STOPPED = "stopped"
    SILENT = "silent"
    EMERGENCY = "emergency"
    UNSAFE_READING = "unsafe-reading"
    INTERRUPTED = "interrupted"


class StopReason(StrEnum):
    """Why the person stopped, as they told it."""

    FELT_FAINT = "felt-faint"
    UNWELL = "unwell"
    PAIN = "pain"
    EQUIPMENT = "equipment"
    OTHER = "other"


class Origin(StrEnum):
    """How a record came about."""

    WATCHED = "watched"  # in the chat, while it was done
    PAPER = "paper"  # typed in afterwards; only day and hour of its beginning were told


@dataclass(frozen=True, slots=True, kw_only=True)
class Values:
    """The numbers of a reading; `None` is a number not (yet) given."""

    systolic: int | None = None
    diastolic: int | None = None
    heart_rate: int | None = None

    @property
    def complete(self) -> bool:
        """Whether all three numbers are there."""
        return None not in (self.systolic, self.diastolic, self.heart_rate)

    @property
    def empty(self) -> bool:
        """Whether none of the numbers is there."""
        return (self.systolic, self.diastolic, self.heart_rate) == (None, None, None)

    def updated(self, newer: "Values") -> "Values":
        """Return these numbers with those of `newer` put over them."""
        return Values(
            systolic=self.systolic if newer.systolic is None else newer.systolic,
            diastolic=self.diastolic if newer.diastolic is None else newer.diastolic,
            heart_rate=self.heart_rate if newer.heart_rate is None else newer.heart_rate,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading as it was given.

    Attributes:
        number: Counts from 1 within the test; a corrected reading keeps its number.
        position: The position it was taken in.
        slot: The planned reading it answers; `None` for one given in between.
        values: The numbers; some may be missing.
        offset: Time from the start of the phase to the first of the numbers.
        given_at: When the first of the numbers arrived.
        late: Whether it came after its window.
        words: The person's own words, in the order they came.
        sources: The channel's names of the messages they came in.
    """

    number: int
    position: Position
    slot: str | None
    values: Values
    offset: timedelta
    given_at: datetime
    late: bool = False
    words: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SymptomReport:
    """One symptom as it was told.

    Attributes:
        symptom: Which one.
        words: The person's own words, when it was typed.
        strength: 0 to 10; `None` when not said.
        told_at: When.
        position: The phase under way, if its clock was running.
        offset: Time from the start of that phase.

    Told of a test on paper without a position, its time is not known: `told_at` is the end.
    """

    symptom: Symptom
    words: str | None
    strength: int | None
    told_at: datetime
    position: Position | None
    offset: timedelta | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Numbers measured again after the test, since a pressure was very high; no reading of it.

    Attributes:
        values: The numbers; the heart rate may be missing.
        given_at: When.
        words: The person's own words.
        sources: The messages they came in, so that a changed one is known.
    """

    values: Values
    given_at: datetime
    words: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


class Answer(StrEnum):
    """What became of a question about somebody after their test had ended."""

    BETTER = "better"
    SAME = "same"
    WORSE = "worse"
    SILENT = "silent"  # no answer to how they are
    SIGNS = "signs"  # signs of danger with a pressure that is still very high
    SIGNS_SILENT = "signs-silent"  # no answer to whether there are; it counts as yes
    NO_SIGNS = "no-signs"
    COMPANION_THERE = "companion-there"  # a companion who had an alarm is with them
    COMPANION_NOT_THERE = "companion-not-there"  # and could not reach them


@dataclass(frozen=True, slots=True, kw_only=True)
class Aftercare:
    """One answer, or none, while somebody was looked after.

    Attributes:
        answer: What it was.
        at: When.
    """

    answer: Answer
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class PhaseStart:
    """When the person said they were in position."""

    position: Position
    started_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class TestRecord:
    """Everything that was recorded in one test.

    Attributes:
        number: Counts this person's tests from 1.
        protocol: The definition in use.
        age_band: The age band, if told.
        began_at: When the person said they were ready.
        phases: The phases whose clocks started, in order.
        readings: The readings that count, in the order they were given.
        replaced: Readings as they stood before a correction.
        symptoms: What was told, in order.
        ended_at: When it ended; `None` while under way.
        ending: How it ended; `None` while under way.
        stop_reason: Why the person stopped, if told.
        stop_words: Their own words for it, if typed.
        revision: Goes up with each correction after the end.
        circumstances: What surrounded it, if it was asked about.
        day: What kind of day it was, if told.
        repeats: What was measured again after a very high pressure.
        origin: How it came about. Of a test from paper all instants after `began_at` are those of
            the plan: nobody watched them.
        typed_in_at: When a test from paper was typed in.
        aftercare: What was answered while the person was looked after, in order. As with the kind
            of day, it stands beside the result and makes no new revision of it.
    """

    __test__ = False  # not a test class, whatever a test runner thinks of its name

    number: int
    protocol: ProtocolRef
    age_band: AgeBand | None
    began_at: datetime
    phases: tuple[PhaseStart, ...] = ()
    readings: tuple[Reading, ...] = ()
    replaced: tuple[Reading, ...] = ()
    symptoms: tuple[SymptomReport, ...] = ()
    ended_at: datetime | None = None
    ending: Ending | None = None
    stop_reason: StopReason | None = None
    stop_words: str | None = None
    revision: int = 1
    circumstances: Circumstances | None = None
    day: DayKind | None = None
    repeats: tuple[Repeat, ...] = ()
    origin: Origin = Origin.WATCHED
    typed_in_at: datetime | None = None
    aftercare: tuple[Aftercare, ...] = ()

    def time_known(self, report: SymptomReport) -> bool:
        """Whether it is known when a symptom was felt, at least by the plan."""
        return self.origin is not Origin.PAPER or report.position is not None

    def reading_for(self, slot_id: str) -> Reading | None:
        """Return the reading that answers a slot, if there is one."""
        return next((r for r in self.readings if r.slot == slot_id), None)

    def phase_start(self, position: Position) -> datetime | None:
        """Return when the phase of that position began, if it did."""
        return next((p.started_at for p in self.phases if p.position is position), None)

    def with_reading(self, reading: Reading) -> "TestRecord":
        """Return the record with one more reading, or with the same-numbered one replaced."""
        before = next((r for r in self.readings if r.number == reading.number), None)
        if before is None:
            return replace(self, readings=(*self.readings, reading))
        kept = tuple(reading if r.number == reading.number else r for r in self.readings)
        return replace(self, readings=kept, replaced=(*self.replaced, before))

    @property
    def next_number(self) -> int:
        """The number that the next reading gets."""
        return len(self.readings) + 1
