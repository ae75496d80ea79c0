"""Numbers that stop a test. The lines are the clinic's; see `StopLines`."""

from enum import StrEnum
from typing import Final

from bot.engine.context import StopLines
from bot.protocol.definition import Position
from bot.protocol.record import Reading, Symptom, SymptomReport, TestRecord, Values


class Crossing(StrEnum):
    """Which line was crossed."""

    HIGH = "high"  # very high pressure, in any position
    LOW = "low"  # low systolic while standing
    SUPINE_LOW = "supine-low"  # low systolic lying down: no getting up
    SEATED_LOW = "seated-low"  # low systolic sitting: no getting up
    SUPINE_SLOW = "supine-slow"
    SUPINE_FAST = "supine-fast"
    FALL = "fall"  # a large fall, with symptoms
    SLOWING = "slowing"  # the heart rate falls with the pressure
    STANDING_FAST = "standing-fast"  # a very fast heart while standing
    RACING = "racing"  # a fast heart while standing, with symptoms


WARNING: Final = frozenset({
    Symptom.DIZZY, Symptom.FAINT, Symptom.NAUSEA, Symptom.BLURRED_VISION, Symptom.WEAK,
    Symptom.SWEATING, Symptom.SHORT_OF_BREATH,
})  # fmt: skip
"""Symptoms that make a large fall a reason to stop (Rowe 2017, Front Pediatr 5:121, lists those
before a faint; that they stop a test together with a fall is a design choice)."""

FELT_WITH_RACING: Final = WARNING | {Symptom.PALPITATIONS}
"""Symptoms that make a fast heart, standing, a reason to stop (design choice)."""

FELT: Final = frozenset({Crossing.FALL, Crossing.RACING})
"""The lines that only count together with a symptom."""


def crossed(
    record: TestRecord, position: Position, values: Values, lines: StopLines
) -> Crossing | None:
    """Return the line that numbers cross, the gravest first; `None` when they cross none.

    Args:
        record: The test so far; its supine reading is what a fall is counted from.
        position: The position the numbers were taken in.
        values: The numbers; some may be missing.
        lines: The clinic's.
    """
    systolic, diastolic = values.systolic, values.diastolic
    if (systolic is not None and systolic >= lines.systolic_from) or (
        diastolic is not None and diastolic >= lines.diastolic_from
    ):
        return Crossing.HIGH
    match position:
        case Position.SUPINE:
            return _supine(values, lines)
        case Position.SEATED:
            low = systolic is not None and systolic < lines.seated_systolic_below
            return Crossing.SEATED_LOW if low else None
        case Position.STANDING:
            return _standing(record, values, lines)


def _supine(values: Values, lines: StopLines) -> Crossing | None:
    if values.systolic is not None and values.systolic < lines.supine_systolic_below:
        return Crossing.SUPINE_LOW
    if values.heart_rate is not None and values.heart_rate < lines.supine_rate_below:
        return Crossing.SUPINE_SLOW
    if values.heart_rate is not None and values.heart_rate >= lines.supine_rate_from:
        return Crossing.SUPINE_FAST
    return None


def _standing(record: TestRecord, values: Values, lines: StopLines) -> Crossing | None:
    systolic, rate = values.systolic, values.heart_rate
    if systolic is not None and systolic < lines.standing_systolic_below:
        return Crossing.LOW
    if rate is not None and rate >= lines.standing_heart_rate_always:
        return Crossing.STANDING_FAST
    supine = _supine_reading(record)
    before = None if supine is None else supine.values.heart_rate
    slowing = 0 if before is None or rate is None else before - rate
    if _fall(record, values) >= lines.fall_with_slowing and slowing >= lines.slowing:
        return Crossing.SLOWING
    if falls_far(record, values, lines) and _felt(record, WARNING):
        return Crossing.FALL
    fast = races(values, lines) and _felt(record, FELT_WITH_RACING)
    return Crossing.RACING if fast else None


def _fall(record: TestRecord, values: Values) -> int:
    """Return by how much the systolic has fallen; 0 where that is not known."""
    supine = _supine_reading(record)
    if supine is None or supine.values.systolic is None or values.systolic is None:
        return 0
    return supine.values.systolic - values.systolic


def falls_far(record: TestRecord, values: Values, lines: StopLines) -> bool:
    """Whether the systolic has fallen so far that the person is asked to mind how they feel."""
    return _fall(record, values) >= lines.large_fall


def races(values: Values, lines: StopLines) -> bool:
    """Whether a standing heart is so fast that the person is asked to mind how they feel."""
    return values.heart_rate is not None and values.heart_rate >= lines.standing_heart_rate


def _felt(record: TestRecord, symptoms: frozenset[Symptom]) -> bool:
    """Whether one of the symptoms was told standing, or while getting up to stand."""
    return any(
        report.symptom in symptoms and report.strength != 0 and _upright(record, report)
        for report in record.symptoms
    )


def _upright(record: TestRecord, report: SymptomReport) -> bool:
    """Whether a symptom was told standing or between the last rest and the standing clock."""
    if report.position is not None or report.offset is not None:
        return report.position is Position.STANDING
    stood_at = record.phase_start(Position.STANDING)
    rested = [p.started_at for p in record.phases if p.position is not Position.STANDING]
    ended_at = record.ended_at if stood_at is None else stood_at
    before = bool(rested) and report.told_at >= max(rested)
    return before and (ended_at is None or report.told_at <= ended_at)


def _supine_reading(record: TestRecord) -> Reading | None:
    supine = [reading for reading in record.readings if reading.position is Position.SUPINE]
    planned = [reading for reading in supine if reading.slot is not None]
    return next(iter((*reversed(planned), *reversed(supine))), None)
