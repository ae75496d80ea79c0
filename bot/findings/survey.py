"""Every line judged on one record."""

from functools import lru_cache

from bot.findings import pressures, rates
from bot.findings.deltas import Deltas, compare
from bot.findings.result import Finding, Findings
from bot.protocol.record import TestRecord
from bot.protocol.released import released


def find(record: TestRecord) -> Findings:
    """Return what a record shows against every line.

    Readings are judged by their real offsets, whether planned or given in between. The record may
    be of a test under way, and any of its numbers may be missing.

    Raises:
        KeyError: The record's protocol was never released.
    """
    return _found(record)


@lru_cache(maxsize=16)
def _found(record: TestRecord) -> Findings:
    """Look once: every form of a result asks for the same."""
    deltas = compare(record)
    answered = {reading.slot for reading in deltas.readings}
    return Findings(
        baseline=deltas.baseline,
        changes=deltas.changes,
        findings=_judge(deltas),
        late=tuple(reading.number for reading in deltas.readings if reading.late),
        missed=tuple(
            slot.id for slot in released(record.protocol).slots if slot.id not in answered
        ),
    )


def _judge(deltas: Deltas) -> tuple[Finding, ...]:
    classical = pressures.classical_fall(deltas)
    fell = any(one.reached for one in pressures.falls(deltas.changes))
    return (
        rates.heart_rate_rise(deltas, classical, fell=fell),
        classical,
        pressures.later_fall(deltas, classical),
        pressures.large_fall(deltas),
        pressures.standing_systolic_low(deltas),
        pressures.pressure_rise(deltas),
        pressures.pressor_response(deltas),
        pressures.neurogenic_pattern(deltas),
        pressures.supine_hypertension(deltas),
        rates.supine_rate_high(deltas),
        rates.supine_rate_below_60(deltas),
        rates.bradycardia(deltas),
        rates.standing_rate_120(deltas),
        pressures.narrow_pulse_pressure(deltas),
        pressures.very_high_pressure(deltas),
    )
