"""A record as changes from its supine baseline, and numbers held against limits."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final, assert_never

from bot.findings.lines import CLASSICAL_WITHIN, EARLY_BY, RISE_WITHIN, SUPINE_REST, Limit
from bot.findings.result import Change, Reason
from bot.protocol.circumstances import Medicine
from bot.protocol.definition import Position
from bot.protocol.record import AgeBand, Measure, Reading, TestRecord, Values
from bot.protocol.released import released

PRESSURES: Final = (Measure.SYSTOLIC, Measure.DIASTOLIC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Deltas:
    """What the lines are judged on. Readings without any number are left out.

    Attributes:
        age_band: The age band, if told.
        readings: In the order they were given.
        baseline: The supine reading that counts.
        standing: In order of their real offsets.
        changes: One for each standing reading; empty without a baseline.
        planned: When each reading of the protocol is due in its phase, by its id.
        medicines: Those that move the numbers; `None` where they were not asked about.
    """

    age_band: AgeBand | None
    readings: tuple[Reading, ...]
    baseline: Reading | None
    standing: tuple[Reading, ...]
    changes: tuple[Change, ...]
    planned: Mapping[str, timedelta]
    medicines: tuple[Medicine, ...] | None = None

    def moment(self, reading: Reading) -> timedelta:
        """Return the time in its phase that a reading stands for.

        A reading that answers a prompt within its window stands for the time of the prompt: it was
        measured then, and typed after. Any other stands for its real offset. So a reading asked
        for at 3:00 and typed on time at 3:40 lies within 3 min; one typed late at 4:10, or given
        unasked at 3:01, does not. Design choice.
        """
        if reading.slot is None or reading.late:
            return reading.offset
        return min(reading.offset, self.planned.get(reading.slot, reading.offset))

    def early(self, reading: Reading) -> bool:
        """Return whether a standing reading lies within the 3 min of the classical fall."""
        return self.moment(reading) <= CLASSICAL_WITHIN

    @property
    def within_10(self) -> tuple[Change, ...]:
        """The changes with a heart rate within the 10 min of the rise."""
        return tuple(
            change
            for change in self.changes
            if change.heart_rate is not None and self.moment(change.reading) <= RISE_WITHIN
        )

    def short_of_10(self, readings: Iterable[Reading]) -> bool:
        """Return whether the last of some standing readings lies well before 10 min.

        Shorter stands miss a share of rises: Roma 2018 (Fatigue 6:179): found.
        """
        return max(self.moment(reading) for reading in readings) < RISE_WITHIN - EARLY_BY

    @property
    def missing_standing(self) -> Reason:
        """Why no standing reading can be held against a line as it was read."""
        return Reason.STANDING_NUMBER_MISSING if self.standing else Reason.NO_STANDING_READING

    def missing(
        self, *measures: Measure, otherwise: Reason = Reason.STANDING_NUMBER_MISSING
    ) -> Reason:
        """Return why no change can be held against a line on any of the measures.

        Args:
            *measures: The measures, each of which would do.
            otherwise: The reason when there are such changes, but not where the line looks.
        """
        if self.baseline is None:
            return Reason.NO_SUPINE_READING
        if not has_any(self.baseline.values, measures):
            return Reason.SUPINE_NUMBER_MISSING
        if any(has_any(change, measures) for change in self.changes):
            return otherwise
        return self.missing_standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One number held against its limit; `measure` is `None` for one made of several."""

    reading: Reading
    measure: Measure | None
    size: float
    limit: Limit

    @property
    def reached(self) -> bool:
        """Whether the number reaches the limit."""
        return self.limit.reached(self.size)

    @property
    def past(self) -> float:
        """How far past the limit it lies; negative when it falls short."""
        return self.limit.past(self.size)


def compare(record: TestRecord) -> Deltas:
    """Return a record as changes from its baseline.

    Raises:
        KeyError: The record's protocol was never released.
    """
    given = sorted(
        (r for r in record.readings if not r.values.empty), key=lambda reading: reading.number
    )
    standing = sorted(
        (r for r in given if r.position is Position.STANDING), key=lambda reading: reading.offset
    )
    baseline = _baseline(given, record.phase_start(Position.STANDING))
    return Deltas(
        age_band=record.age_band,
        readings=tuple(given),
        baseline=baseline,
        standing=tuple(standing),
        changes=() if baseline is None else tuple(_change(baseline, r) for r in standing),
        planned={slot.id: slot.due for slot in released(record.protocol).slots},
        medicines=record.circumstances.medicines if record.circumstances else None,
    )


def hold(compared: Iterable[Reading | Change], measure: Measure, limit: Limit) -> tuple[Held, ...]:
    """Return the numbers of one measure, each held against the limit; missing ones are left out."""
    pairs = (
        (one.reading, number(one, measure))
        if isinstance(one, Change)
        else (one, number(one.values, measure))
        for one in compared
    )
    return tuple(
        Held(reading=reading, measure=measure, size=size, limit=limit)
        for reading, size in pairs
        if size is not None
    )


def number(numbers: Values | Change, measure: Measure) -> int | None:
    """Return one number of a reading or a change."""
    match measure:
        case Measure.SYSTOLIC:
            return numbers.systolic
        case Measure.DIASTOLIC:
            return numbers.diastolic
        case Measure.HEART_RATE:
            return numbers.heart_rate
        case _:
            assert_never(measure)


def has_any(numbers: Values | Change, measures: Iterable[Measure]) -> bool:
    """Return whether at least one of the measures is there."""
    return any(number(numbers, measure) is not None for measure in measures)


def has_all(numbers: Values | Change, measures: Iterable[Measure]) -> bool:
    """Return whether every one of the measures is there."""
    return all(number(numbers, measure) is not None for measure in measures)


def _baseline(given: Iterable[Reading], stood_at: datetime | None) -> Reading | None:
    """Return the supine reading that counts.

    It has to come after the rest. The planned one counts; one given in between, before standing,
    serves when the planned one was not taken or lacks a number that the other has, the last of
    them if there are several. A seated reading never serves. Design choice.
    """
    rested = (
        reading
        for reading in given
        if reading.position is Position.SUPINE
        and reading.offset >= SUPINE_REST - EARLY_BY
        and (reading.slot is not None or stood_at is None or reading.given_at < stood_at)
    )
    return max(
        rested,
        key=lambda r: (r.values.complete, r.slot is not None, r.offset),
        default=None,
    )


def _change(baseline: Reading, standing: Reading) -> Change:
    def delta(measure: Measure) -> int | None:
        lying, up = number(baseline.values, measure), number(standing.values, measure)
        return None if lying is None or up is None else up - lying

    return Change(
        reading=standing,
        heart_rate=delta(Measure.HEART_RATE),
        systolic=delta(Measure.SYSTOLIC),
        diastolic=delta(Measure.DIASTOLIC),
    )
