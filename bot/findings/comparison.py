"""Two tests of one person side by side: how far apart they are, and whether that says anything.

A change is standing minus supine. Two tests of one person differ by chance alone; a difference
counts as larger only when it is past the repeatability, which 19 of 20 such differences stay
within: 1.96 times the square root of 2 times the within-person SD (usual formula: from memory,
not verified).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import sqrt
from types import MappingProxyType
from typing import Final, assert_never

from bot.findings.alike import Doubt, doubts
from bot.findings.deltas import number
from bot.findings.result import Change, Line, State
from bot.findings.survey import find
from bot.protocol.definition import Position
from bot.protocol.record import Measure, TestRecord
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

_SEEN: Final = frozenset({State.MET, State.MET_ONCE})
_JUDGED: Final = _SEEN | {State.NOT_MET}


class Variation(StrEnum):
    """A difference between two days, held against the ordinary one."""

    LARGER = "larger"
    WITHIN = "within"
    CANNOT_SAY = "cannot-say"  # a number is missing


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
