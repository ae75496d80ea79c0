"""The readings of a test in order of time: planned ones, taken or missed, and extra ones."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum

from bot.findings.result import Findings
from bot.protocol.definition import Position, ReadingSlot
from bot.protocol.record import Reading, SymptomReport, TestRecord, Values
from bot.protocol.released import released


class Status(StrEnum):
    """What became of a reading."""

    TAKEN = "taken"
    LATE = "late"  # taken after its window
    MISSED = "missed"  # planned but not taken
    EXTRA = "extra"  # taken though not planned


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One reading, planned or taken.

    Attributes:
        position: The body position.
        slot: What was planned; `None` for an extra reading.
        reading: What was taken; `None` when it was missed.
        status: What became of it.
        at: When it was taken or, when missed, was due; `None` when its phase never began.
        before: The numbers as they stood before the latest correction; `None` without one.
        change: Its numbers minus the supine ones; `None` for supine readings, for missed
            ones, and without a supine reading.
    """

    position: Position
    slot: ReadingSlot | None
    reading: Reading | None
    status: Status
    at: datetime | None
    before: Values | None = None
    change: Values | None = None

    @property
    def values(self) -> Values:
        """The numbers; all empty when the reading was missed."""
        return Values() if self.reading is None else self.reading.values


def rows(record: TestRecord, findings: Findings) -> tuple[Row, ...]:
    """Return all planned and extra readings; those of phases that never began come last.

    Raises:
        KeyError: The record's protocol was never released.
    """
    protocol = released(record.protocol)
    found = [
        _taken(reading, record, findings)
        if reading is not None and not reading.values.empty
        else _missed(slot, phase.position, record)
        for phase in protocol.phases
        for slot in phase.slots
        for reading in [record.reading_for(slot.id)]
    ]
    found += [
        _taken(r, record, findings)
        for r in record.readings
        if r.slot is None and not r.values.empty
    ]
    return tuple(sorted(found, key=lambda row: row.at or datetime.max.replace(tzinfo=UTC)))


def _taken(reading: Reading, record: TestRecord, findings: Findings) -> Row:
    slot = None if reading.slot is None else released(record.protocol).slot(reading.slot)
    late = reading.late or reading.number in findings.late
    earlier = [r.values for r in record.replaced if r.number == reading.number]
    return Row(
        position=reading.position,
        slot=slot,
        reading=reading,
        status=Status.EXTRA if slot is None else Status.LATE if late else Status.TAKEN,
        at=reading.given_at,
        before=earlier[-1] if earlier else None,
        change=_change(reading, findings.baseline),
    )


def _missed(slot: ReadingSlot, position: Position, record: TestRecord) -> Row:
    start = record.phase_start(position)
    return Row(
        position=position,
        slot=slot,
        reading=None,
        status=Status.MISSED,
        at=None if start is None else start + slot.due,
    )


def _change(reading: Reading, baseline: Reading | None) -> Values | None:
    if baseline is None or reading.position is Position.SUPINE:
        return None
    now, then = reading.values, baseline.values
    return Values(
        systolic=_difference(now.systolic, then.systolic),
        diastolic=_difference(now.diastolic, then.diastolic),
        heart_rate=_difference(now.heart_rate, then.heart_rate),
    )


def _difference(now: int | None, then: int | None) -> int | None:
    return None if now is None or then is None else now - then


def symptoms_by_row(
    record: TestRecord, found: Sequence[Row]
) -> tuple[tuple[SymptomReport, ...], ...]:
    """Return for each row the symptoms told since the row above and up to its time.

    The first row without a time, or else the last row, has those told later.
    """
    told: list[list[SymptomReport]] = [[] for _ in found]
    for report in sorted(record.symptoms, key=lambda report: report.told_at):
        fitting = (n for n, row in enumerate(found) if row.at is None or row.at >= report.told_at)
        told[next(fitting, len(found) - 1)].append(report)
    return tuple(tuple(reports) for reports in told)


def zero(record: TestRecord) -> datetime:
    """Return the instant that minutes are counted from: lying down, or else the beginning."""
    return record.phase_start(Position.SUPINE) or record.began_at


def since_zero(record: TestRecord, at: datetime) -> timedelta:
    """Return the time since lying down, never negative."""
    return max(timedelta(0), at - zero(record))
