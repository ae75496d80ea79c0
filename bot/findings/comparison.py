"""Two tests of one person side by side: how far apart they are, and whether that says anything.

A change is standing minus supine. Two tests of one person differ by chance alone; a difference
counts as larger only when it is past the repeatability, which 19 of 20 such differences stay
within: 1.96 times the square root of 2 times the within-person SD (usual formula: from memory,
not verified).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, timedelta
from enum import StrEnum
from math import sqrt
from types import MappingProxyType
from typing import Final, assert_never
from zoneinfo import ZoneInfo

from bot.findings.deltas import number
from bot.findings.result import Change, Findings, Line, State
from bot.findings.survey import find
from bot.protocol.circumstances import Circumstances
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Measure, TestRecord
from bot.protocol.released import released

WITHIN_PERSON_SD: Final[Mapping[Measure, float]] = MappingProxyType(
    {
        # The change of one person between two days, beats a minute: 6.5 in Miwa 2023 (Circ Rep
        # 5:55; 58 tests, 8 people), 5.5 in the CDISC pilot study (753 sets, 253 people): data.
        # The wider of the two, so that less is called larger: design choice.
        Measure.HEART_RATE: 6.5,
        # The same in mmHg, CDISC pilot study: data.
        Measure.SYSTOLIC: 9.1,
        Measure.DIASTOLIC: 6.7,
    }
)
"""Found on the change at one time of standing; the largest of several may vary a little less or
more."""

REPEATABILITY: Final[Mapping[Measure, float]] = MappingProxyType(
    {measure: 1.96 * sqrt(2) * sd for measure, sd in WITHIN_PERSON_SD.items()}
)
"""About 18 beats a minute, 25 and 19 mmHg."""

# Of people with the syndrome 82.6 % met the heart-rate line in the morning and 52.2 % in the
# afternoon: Moon 2016 (J Am Soc Hypertens 10:263): found. How far apart two clock times still
# count as the same: design choice.
SAME_HOUR_WITHIN: Final = timedelta(hours=2)

_DAY: Final = timedelta(days=1)
_SEEN: Final = frozenset({State.MET, State.MET_ONCE})
_JUDGED: Final = _SEEN | {State.NOT_MET}


class Variation(StrEnum):
    """A difference between two days, held against the ordinary one."""

    LARGER = "larger"
    WITHIN = "within"
    CANNOT_SAY = "cannot-say"  # a number is missing


class Doubt(StrEnum):
    """Why two tests may not be alike enough to compare, in order of weight."""

    PROTOCOL = "protocol"
    ENDED_EARLY = "ended-early"  # at least one of them
    READINGS = "readings"  # not the same standing readings were taken
    SAME_DAY = "same-day"  # both on one date: the second follows on the first
    HOUR = "hour"  # clock times too far apart
    MEDICINES = "medicines"
    LAST_DOSE = "last-dose"
    CUFF = "cuff"
    RATE_SOURCE = "rate-source"
    DEPARTURES = "departures"  # from the preparation
    NOT_TOLD = "not-told"  # something of the above is not known of both days


class Meeting(StrEnum):
    """Which of two tests met a line."""

    BOTH = "both"
    FIRST = "first"
    SECOND = "second"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One change on both days, in beats a minute or mmHg.

    Attributes:
        measure: Which number changed.
        slot: The planned reading; `None` for the largest rise or deepest fall of the test.
        first: The change in the first test; `None` when a number is missing.
        second: The change in the second test; `None` when a number is missing.
    """

    measure: Measure
    slot: str | None
    first: int | None
    second: int | None

    @property
    def difference(self) -> int | None:
        """The second minus the first; `None` when either is missing."""
        if self.first is None or self.second is None:
            return None
        return self.second - self.first

    @property
    def variation(self) -> Variation:
        """Whether the difference is larger than the ordinary one."""
        if self.difference is None:
            return Variation.CANNOT_SAY
        larger = abs(self.difference) > REPEATABILITY[self.measure]
        return Variation.LARGER if larger else Variation.WITHIN


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePair:
    """A line that at least one of two tests met, be it once.

    Attributes:
        line: Which line.
        first: Where the first test stands against it.
        second: Where the second test stands against it.
    """

    line: Line
    first: State
    second: State

    @property
    def meeting(self) -> Meeting:
        """Which of the tests met it."""
        if self.first in _SEEN and self.second in _SEEN:
            return Meeting.BOTH
        return Meeting.FIRST if self.first in _SEEN else Meeting.SECOND

    @property
    def judged(self) -> bool:
        """Whether both tests could be held against it."""
        return {self.first, self.second} <= _JUDGED

    @property
    def confirmed(self) -> bool:
        """Whether no test met it at one reading only."""
        return State.MET_ONCE not in {self.first, self.second}


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """All that two tests show side by side.

    Attributes:
        extremes: Largest heart-rate rise, deepest systolic and deepest diastolic fall of each
            test, in that order, among all its standing readings.
        slots: The same changes at each standing reading that both protocols plan at the same
            time, in order of time.
        lines: Every line that at least one test met, in the order of `Line`.
        doubts: Why they may not be alike enough to compare, in order of weight.
    """

    extremes: tuple[Pair, ...]
    slots: tuple[Pair, ...]
    lines: tuple[LinePair, ...]
    doubts: tuple[Doubt, ...]

    def largest(self, measure: Measure) -> Pair:
        """Return the largest rise or deepest fall of one measure."""
        return next(pair for pair in self.extremes if pair.measure is measure)


def compare(first: TestRecord, second: TestRecord) -> Comparison:
    """Return two tests of one person side by side.

    Raises:
        KeyError: The protocol of one was never released.
    """
    one, other = find(first), find(second)
    return Comparison(
        extremes=tuple(
            Pair(
                measure=measure,
                slot=None,
                first=extreme(one.changes, measure),
                second=extreme(other.changes, measure),
            )
            for measure in WITHIN_PERSON_SD
        ),
        slots=tuple(
            Pair(
                measure=measure,
                slot=slot,
                first=_at(one.changes, slot, measure),
                second=_at(other.changes, slot, measure),
            )
            for slot in _shared_slots(first, second)
            for measure in WITHIN_PERSON_SD
        ),
        lines=tuple(
            LinePair(line=line, first=one.on(line).state, second=other.on(line).state)
            for line in Line
            if _SEEN & {one.on(line).state, other.on(line).state}
        ),
        doubts=doubts(first, second, one, other),
    )


def doubts(
    first: TestRecord, second: TestRecord, one: Findings, other: Findings
) -> tuple[Doubt, ...]:
    """Return why two tests may not be alike enough to compare, in order of weight.

    Args:
        first: One test.
        second: Another of the same person.
        one: What `find` says of the first.
        other: What it says of the second.
    """
    doubted = {*_test_doubts(first, second, one, other), *_day_doubts(first, second)}
    return tuple(doubt for doubt in Doubt if doubt in doubted)


def extreme(changes: tuple[Change, ...], measure: Measure) -> int | None:
    """Return the largest heart-rate rise or the deepest fall; `None` when there is no number."""
    sizes = [size for change in changes if (size := number(change, measure)) is not None]
    match measure:
        case Measure.HEART_RATE:
            return max(sizes, default=None)
        case Measure.SYSTOLIC | Measure.DIASTOLIC:
            return min(sizes, default=None)
        case _:
            assert_never(measure)


def _at(changes: tuple[Change, ...], slot: str, measure: Measure) -> int | None:
    return next((number(c, measure) for c in changes if c.reading.slot == slot), None)


def _shared_slots(first: TestRecord, second: TestRecord) -> Iterator[str]:
    others = {slot.id: slot.due for slot in released(second.protocol).slots}
    protocol = released(first.protocol)
    for slot in protocol.slots:
        standing = protocol.phase_of(slot.id).position is Position.STANDING
        if standing and others.get(slot.id) == slot.due:
            yield slot.id


def _test_doubts(
    first: TestRecord, second: TestRecord, one: Findings, other: Findings
) -> Iterator[Doubt]:
    if first.protocol != second.protocol:
        yield Doubt.PROTOCOL
    if not first.ending is second.ending is Ending.COMPLETED:
        yield Doubt.ENDED_EARLY
    # A test with more standing readings has more chances of a large change.
    if _measured(one) != _measured(other):
        yield Doubt.READINGS


def _measured(findings: Findings) -> list[tuple[str, bool, bool, bool]]:
    """Return which standing readings have which changes; unplanned ones have no name."""
    return sorted(
        (
            change.reading.slot or "",
            change.heart_rate is not None,
            change.systolic is not None,
            change.diastolic is not None,
        )
        for change in findings.changes
    )


def _day_doubts(first: TestRecord, second: TestRecord) -> Iterator[Doubt]:
    one, other = first.circumstances or Circumstances(), second.circumstances or Circumstances()
    if _date(first, one.zone) == _date(second, other.zone):
        yield Doubt.SAME_DAY
    if one.medicines is None or other.medicines is None:
        yield Doubt.NOT_TOLD
    elif set(one.medicines) != set(other.medicines):
        yield Doubt.MEDICINES
    elif one.medicines:
        yield from _unlike(one.last_dose, other.last_dose, Doubt.LAST_DOSE)
    yield from _unlike(one.cuff, other.cuff, Doubt.CUFF)
    yield from _unlike(one.rate_source, other.rate_source, Doubt.RATE_SOURCE)
    yield from _unlike(_departures(one), _departures(other), Doubt.DEPARTURES)
    if one.zone is None or other.zone is None:
        yield Doubt.NOT_TOLD
    elif _apart(_clock(first, one.zone), _clock(second, other.zone)) > SAME_HOUR_WITHIN:
        yield Doubt.HOUR


def _unlike(one: object | None, other: object | None, doubt: Doubt) -> Iterator[Doubt]:
    if one is None or other is None:
        yield Doubt.NOT_TOLD
    elif one != other:
        yield doubt


def _departures(told: Circumstances) -> frozenset[str] | None:
    return frozenset(told.departures) if told.audited else None


def _date(record: TestRecord, zone: str | None) -> date:
    """Return the date on which a test began, on the person's calendar; in UTC if not known."""
    return record.began_at.astimezone(ZoneInfo(zone) if zone else UTC).date()


def _clock(record: TestRecord, zone: str) -> timedelta:
    """Return the time of day at which a test began, on the person's clock then."""
    local = record.began_at.astimezone(ZoneInfo(zone))
    return timedelta(hours=local.hour, minutes=local.minute, seconds=local.second)


def _apart(one: timedelta, other: timedelta) -> timedelta:
    """Return how far apart two times of day are, the short way round."""
    apart = abs(one - other)
    return min(apart, _DAY - apart)
