"""How well a test was done, from recorded facts alone.

The grade is that of the weightiest reason: one serious reason makes a test poor, one that limits it
makes it fair, notes change nothing. Design choice, for each clinic to sign off. A grade takes
nothing from a finding and adds nothing to it: it stands beside it.

Medicines that move the numbers, taken as prescribed, are a note: nobody's test gets a worse grade
for taking them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from bot.findings.deltas import PRESSURES, Deltas, compare, has_any
from bot.findings.lines import EARLY_BY
from bot.findings.result import Findings
from bot.protocol.circumstances import Circumstances, Cuff, Departure, LastDose, Medicine
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Origin, Reading, TestRecord
from bot.protocol.released import released


class Grade(StrEnum):
    """How well a test was done."""

    GOOD = "good"  # nothing known against it, and what is asked is known
    FAIR = "fair"  # something limits it
    POOR = "poor"  # something serious: its numbers say little, or may mean something else


class Weight(StrEnum):
    """What a reason does to the grade."""

    SERIOUS = "serious"
    LIMITING = "limiting"
    NOTE = "note"


class Shortfall(StrEnum):
    """What a test lacks, or what to mind about it; in order of weight."""

    NO_BASELINE = "no-baseline"  # no supine reading after enough rest
    NO_STANDING_READING = "no-standing-reading"
    POSITION_NOT_CONFIRMED = "position-not-confirmed"  # readings, but nobody said "I am there"
    ILLNESS = "illness"
    TIMES_NOT_WATCHED = "times-not-watched"  # typed in from paper: rests and minutes are the plan's
    ENDED_EARLY = "ended-early"
    NOT_ENDED = "not-ended"  # still under way
    READING_MISSED = "reading-missed"
    NUMBER_MISSING = "number-missing"  # a reading lacks one or two of its numbers
    READING_LATE = "reading-late"  # after its window
    REST_TOO_SHORT = "rest-too-short"  # a planned reading well before it was due
    ONE_STANDING_READING = "one-standing-reading"  # a rise needs two
    STOOD_SHORT = "stood-short"  # nothing near 10 min: a shorter stand can miss a rise
    DEPARTURE = "departure"  # from the preparation
    WRIST_CUFF = "wrist-cuff"  # how high it was held is not recorded
    CUFF_NOT_TOLD = "cuff-not-told"
    RATE_SOURCE_NOT_TOLD = "rate-source-not-told"
    PREPARATION_NOT_TOLD = "preparation-not-told"
    MEDICINES_NOT_TOLD = "medicines-not-told"
    LAST_DOSE_NOT_TOLD = "last-dose-not-told"
    FIRST_3_MINUTES = "first-3-minutes"  # not measured: a classical fall cannot be judged
    MEDICINE = "medicine"  # one that moves the numbers
    POOR_SLEEP = "poor-sleep"


WEIGHTS: Final[Mapping[Shortfall, Weight]] = MappingProxyType(
    {
        Shortfall.NO_BASELINE: Weight.SERIOUS,
        Shortfall.NO_STANDING_READING: Weight.SERIOUS,
        Shortfall.POSITION_NOT_CONFIRMED: Weight.SERIOUS,
        Shortfall.ILLNESS: Weight.SERIOUS,
        Shortfall.TIMES_NOT_WATCHED: Weight.LIMITING,
        Shortfall.ENDED_EARLY: Weight.LIMITING,
        Shortfall.NOT_ENDED: Weight.LIMITING,
        Shortfall.READING_MISSED: Weight.LIMITING,
        Shortfall.NUMBER_MISSING: Weight.LIMITING,
        Shortfall.READING_LATE: Weight.LIMITING,
        Shortfall.REST_TOO_SHORT: Weight.LIMITING,
        Shortfall.ONE_STANDING_READING: Weight.LIMITING,
        Shortfall.STOOD_SHORT: Weight.LIMITING,
        Shortfall.DEPARTURE: Weight.LIMITING,
        Shortfall.WRIST_CUFF: Weight.LIMITING,
        Shortfall.CUFF_NOT_TOLD: Weight.LIMITING,
        Shortfall.RATE_SOURCE_NOT_TOLD: Weight.LIMITING,
        Shortfall.PREPARATION_NOT_TOLD: Weight.LIMITING,
        Shortfall.MEDICINES_NOT_TOLD: Weight.LIMITING,
        Shortfall.LAST_DOSE_NOT_TOLD: Weight.LIMITING,
        Shortfall.FIRST_3_MINUTES: Weight.NOTE,
        Shortfall.MEDICINE: Weight.NOTE,
        Shortfall.POOR_SLEEP: Weight.NOTE,
    }
)
"""Design choice, for each clinic to sign off. That the first 3 min were not measured is a note: it
is so by the plan of some protocols, and the finding on the fall says it."""

_DEPARTED: Final[Mapping[Departure, Shortfall]] = MappingProxyType(
    {
        Departure.EXTRA_FLUIDS: Shortfall.DEPARTURE,
        Departure.EXTRA_SALT: Shortfall.DEPARTURE,
        Departure.CAFFEINE: Shortfall.DEPARTURE,
        Departure.NICOTINE: Shortfall.DEPARTURE,
        Departure.HEAVY_MEAL: Shortfall.DEPARTURE,
        Departure.GARMENTS: Shortfall.DEPARTURE,
        Departure.POOR_SLEEP: Shortfall.POOR_SLEEP,
        Departure.ILLNESS: Shortfall.ILLNESS,
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class QualityReason:
    """One thing that a test lacks, or to mind about it.

    Attributes:
        shortfall: What it is.
        readings: Numbers of the readings it is about.
        slots: Ids of the planned readings it is about.
        positions: Positions it is about.
        departures: Departures it is about.
        medicines: Medicines it is about.
        last_dose: When one of them was last taken, if told.
        ending: How the test ended, where it ended early.
    """

    shortfall: Shortfall
    readings: tuple[int, ...] = ()
    slots: tuple[str, ...] = ()
    positions: tuple[Position, ...] = ()
    departures: tuple[Departure, ...] = ()
    medicines: tuple[Medicine, ...] = ()
    last_dose: LastDose | None = None
    ending: Ending | None = None

    @property
    def weight(self) -> Weight:
        """What it does to the grade."""
        return WEIGHTS[self.shortfall]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quality:
    """How well a test was done.

    Attributes:
        grade: By the weightiest reason.
        reasons: At most one for each `Shortfall`, in its order, so the weightiest first.
    """

    grade: Grade
    reasons: tuple[QualityReason, ...]


def quality(record: TestRecord, findings: Findings) -> Quality:
    """Return how well a test was done.

    Args:
        record: The test, with its circumstances.
        findings: What `find` says of it.

    Raises:
        KeyError: The record's protocol was never released.
    """
    order = list(Shortfall)
    told = record.circumstances or Circumstances()
    reasons = (
        *_course(record, findings),
        *_readings(record, compare(record)),
        *_surroundings(told),
    )
    return Quality(
        grade=grade(reasons),
        reasons=tuple(sorted(reasons, key=lambda reason: order.index(reason.shortfall))),
    )


def grade(reasons: Sequence[QualityReason]) -> Grade:
    """Return the grade that the weightiest of some reasons makes."""
    weights = {reason.weight for reason in reasons}
    if Weight.SERIOUS in weights:
        return Grade.POOR
    return Grade.FAIR if Weight.LIMITING in weights else Grade.GOOD


def _course(record: TestRecord, findings: Findings) -> Iterator[QualityReason]:
    if record.origin is Origin.PAPER:
        yield QualityReason(shortfall=Shortfall.TIMES_NOT_WATCHED)
    if record.ending is None:
        yield QualityReason(shortfall=Shortfall.NOT_ENDED)
    elif record.ending is not Ending.COMPLETED:
        yield QualityReason(shortfall=Shortfall.ENDED_EARLY, ending=record.ending)
    if findings.missed:
        yield QualityReason(shortfall=Shortfall.READING_MISSED, slots=findings.missed)
    if findings.late:
        yield QualityReason(shortfall=Shortfall.READING_LATE, readings=findings.late)
    measured = {reading.position for reading in record.readings}
    confirmed = {phase.position for phase in record.phases}
    unconfirmed = tuple(p for p in Position if p in measured - confirmed)
    if unconfirmed:
        yield QualityReason(shortfall=Shortfall.POSITION_NOT_CONFIRMED, positions=unconfirmed)


def _readings(record: TestRecord, deltas: Deltas) -> Iterator[QualityReason]:
    if deltas.baseline is None:
        yield QualityReason(shortfall=Shortfall.NO_BASELINE)
    if not deltas.standing:
        yield QualityReason(shortfall=Shortfall.NO_STANDING_READING)
    else:
        yield from _standing(deltas.standing, deltas)
    planned = {slot.id: slot for slot in released(record.protocol).slots}
    partial = _numbers(r for r in record.readings if r.slot is not None and not r.values.complete)
    if partial:
        yield QualityReason(shortfall=Shortfall.NUMBER_MISSING, readings=partial)
    hurried = _numbers(
        reading
        for reading in record.readings
        if reading.slot in planned and reading.offset < planned[reading.slot].due - EARLY_BY
    )
    if hurried:
        yield QualityReason(shortfall=Shortfall.REST_TOO_SHORT, readings=hurried)


def _standing(standing: Sequence[Reading], deltas: Deltas) -> Iterator[QualityReason]:
    if len(standing) == 1:
        yield QualityReason(shortfall=Shortfall.ONE_STANDING_READING)
    if deltas.short_of_10(standing):
        yield QualityReason(shortfall=Shortfall.STOOD_SHORT)
    if not any(deltas.early(r) and has_any(r.values, PRESSURES) for r in standing):
        yield QualityReason(shortfall=Shortfall.FIRST_3_MINUTES)


def _surroundings(told: Circumstances) -> Iterator[QualityReason]:
    if told.cuff is None:
        yield QualityReason(shortfall=Shortfall.CUFF_NOT_TOLD)
    elif told.cuff is Cuff.WRIST:
        yield QualityReason(shortfall=Shortfall.WRIST_CUFF)
    if told.rate_source is None:
        yield QualityReason(shortfall=Shortfall.RATE_SOURCE_NOT_TOLD)
    if not told.audited:
        yield QualityReason(shortfall=Shortfall.PREPARATION_NOT_TOLD)
    if told.medicines is None:
        yield QualityReason(shortfall=Shortfall.MEDICINES_NOT_TOLD)
    elif told.medicines:
        yield QualityReason(
            shortfall=Shortfall.MEDICINE, medicines=told.medicines, last_dose=told.last_dose
        )
        if told.last_dose is None:
            yield QualityReason(shortfall=Shortfall.LAST_DOSE_NOT_TOLD)
    for shortfall in (Shortfall.ILLNESS, Shortfall.DEPARTURE, Shortfall.POOR_SLEEP):
        departures = tuple(d for d in told.departures if _DEPARTED[d] is shortfall)
        if departures:
            yield QualityReason(shortfall=shortfall, departures=departures)


def _numbers(readings: Iterable[Reading]) -> tuple[int, ...]:
    return tuple(reading.number for reading in readings)
