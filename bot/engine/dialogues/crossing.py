"""Numbers that stop a test. The lines are the clinic's; see `StopLines`."""

from enum import StrEnum

from bot.engine.context import StopLines
from bot.protocol.definition import Position
from bot.protocol.record import Reading, Symptom, TestRecord, Values


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


WARNING: frozenset[Symptom] = frozenset({
    Symptom.DIZZY, Symptom.FAINT, Symptom.NAUSEA, Symptom.BLURRED_VISION, Symptom.WEAK,
    Symptom.SWEATING, Symptom.SHORT_OF_BREATH,
})  # fmt: skip
"""Symptoms that make a large fall a reason to stop (Rowe 2017, Front Pediatr 5:121, lists those
before a faint; that they stop a test together with a fall is a design choice)."""


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
    if values.systolic is None:
        return None
    if values.systolic < lines.standing_systolic_below:
        return Crossing.LOW
    supine = _supine_reading(record)
    if supine is None or supine.values.systolic is None:
        return None
    fall = supine.values.systolic - values.systolic
    before, now = supine.values.heart_rate, values.heart_rate
    slowing = 0 if before is None or now is None else before - now
    if fall >= lines.fall_with_slowing and slowing >= lines.slowing:
        return Crossing.SLOWING
    return Crossing.FALL if fall >= lines.large_fall and warned(record) else None


def falls_far(record: TestRecord, values: Values, lines: StopLines) -> bool:
    """Whether the systolic has fallen so far that the person is asked to mind how they feel."""
    supine = _supine_reading(record)
    if supine is None or supine.values.systolic is None or values.systolic is None:
        return False
    return supine.values.systolic - values.systolic >= lines.large_fall


def warned(record: TestRecord) -> bool:
    """Whether a symptom was told standing that makes a large fall a reason to stop."""
    return any(
        report.position is Position.STANDING and report.symptom in WARNING and report.strength != 0
        for report in record.symptoms
    )


def _supine_reading(record: TestRecord) -> Reading | None:
    supine = [reading for reading in record.readings if reading.position is Position.SUPINE]
    planned = [reading for reading in supine if reading.slot is not None]
    return next(iter((*reversed(planned), *reversed(supine))), None)
