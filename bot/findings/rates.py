"""The heart-rate lines."""

from collections.abc import Sequence
from dataclasses import replace

from bot.findings.deltas import PRESSURES, Deltas, Held, has_all, hold
from bot.findings.lines import (
    BRADYCARDIA,
    RISE_FROM_20,
    STANDING_RATE_120,
    SUPINE_RATE_BELOW_60,
    SUPINE_RATE_HIGH,
    SUSTAINED_OVER,
    Limit,
    rise_limit,
)
from bot.findings.result import Finding, Line, Reason, State
from bot.findings.verdicts import judged, verdict
from bot.protocol.record import Measure, Reading


def heart_rate_rise(deltas: Deltas, classical: Finding, *, fell: bool) -> Finding:
    """Judge the rise: sustained, within 10 min of standing, and without a pressure fall.

    Readings after 10 min do not count. One reading can show a rise once; it takes two, a minute
    apart, to confirm it or to say that it is not met. Above a supine rate of 100 the line does not
    apply, whatever the size.

    Args:
        deltas: The readings.
        classical: The finding on the fall within 3 min.
        fell: Whether the pressure fell at any standing reading, early or later.
    """
    line, baseline = Line.HEART_RATE_RISE, deltas.baseline
    measured = [change for change in deltas.changes if change.heart_rate is not None]
    counted = deltas.within_10
    if baseline is None or not counted:
        reason = deltas.missing(Measure.HEART_RATE, otherwise=Reason.AFTER_10_MINUTES)
        return verdict(line, State.NOT_MEASURED, reason)

    limit = rise_limit(deltas.age_band)
    if isinstance(limit, Reason):
        rises = hold(counted, Measure.HEART_RATE, RISE_FROM_20)
        finding = verdict(line, State.CANNOT_JUDGE, limit, on=rises, baseline=baseline)
        return replace(finding, limit=None)

    rises = hold(counted, Measure.HEART_RATE, limit)
    raised = [change for change, rise in zip(counted, rises, strict=True) if rise.reached]
    over = [rise for rise in rises if rise.reached]
    other = [Reason.PRESSURE_FELL] if over and fell else []
    if _lying(baseline, SUPINE_RATE_HIGH):
        other.append(Reason.SUPINE_RATE_HIGH)
    if other:
        return verdict(line, State.CANNOT_JUDGE, *other, on=over or rises, baseline=baseline)

    notes: list[Reason] = []
    if classical.state is not State.NOT_MET or not all(has_all(c, PRESSURES) for c in raised):
        notes.append(Reason.FALL_NOT_EXCLUDED)
    if _lying(baseline, SUPINE_RATE_BELOW_60):
        notes.append(Reason.SUPINE_RATE_BELOW_60)
    if _apart(over):
        return verdict(line, State.MET, *notes, on=over, baseline=baseline)

    few = _too_few(rises, over or rises)
    outside = [Reason.AFTER_10_MINUTES] if len(measured) > len(counted) else []
    if over:
        return verdict(line, State.MET_ONCE, *few, *notes, *outside, on=over, baseline=baseline)
    if few:
        return verdict(line, State.CANNOT_JUDGE, *few, *outside, on=rises, baseline=baseline)
    if deltas.short_of_10(rise.reading for rise in rises):
        outside.append(Reason.SHORT_STAND)
    return verdict(line, State.NOT_MET, *outside, on=rises, baseline=baseline)


def supine_rate_high(deltas: Deltas) -> Finding:
    """Judge resting tachycardia."""
    return _supine(deltas, Line.SUPINE_RATE_HIGH, SUPINE_RATE_HIGH)


def supine_rate_below_60(deltas: Deltas) -> Finding:
    """Judge the note on a supine rate below 60."""
    return _supine(deltas, Line.SUPINE_RATE_BELOW_60, SUPINE_RATE_BELOW_60)


def bradycardia(deltas: Deltas) -> Finding:
    """Judge resting bradycardia, on the supine rate."""
    return _supine(deltas, Line.BRADYCARDIA, BRADYCARDIA)


def standing_rate_120(deltas: Deltas) -> Finding:
    """Judge the older alternative arm of the rise, at any standing reading."""
    rates = hold(deltas.standing, Measure.HEART_RATE, STANDING_RATE_120)
    if not rates:
        reason = deltas.missing_standing
        return verdict(Line.STANDING_RATE_120, State.NOT_MEASURED, reason)
    return judged(Line.STANDING_RATE_120, rates)


def _supine(deltas: Deltas, line: Line, limit: Limit) -> Finding:
    if deltas.baseline is None:
        return verdict(line, State.NOT_MEASURED, Reason.NO_SUPINE_READING)
    rates = hold([deltas.baseline], Measure.HEART_RATE, limit)
    if not rates:
        return verdict(line, State.NOT_MEASURED, Reason.SUPINE_NUMBER_MISSING)
    return judged(line, rates)


def _lying(baseline: Reading, limit: Limit) -> bool:
    return any(rate.reached for rate in hold([baseline], Measure.HEART_RATE, limit))


def _apart(rises: Sequence[Held]) -> bool:
    """Return whether two of them are far enough apart, by their real offsets."""
    offsets = [rise.reading.offset for rise in rises]
    return bool(offsets) and max(offsets) - min(offsets) >= SUSTAINED_OVER


def _too_few(rises: Sequence[Held], seen: Sequence[Held]) -> tuple[Reason, ...]:
    """Return why readings cannot confirm what was seen at some of them; empty when they can."""
    if len(rises) == 1:
        return (Reason.ONE_STANDING_READING,)
    if len(seen) > 1 and not _apart(seen):
        return (Reason.READINGS_TOO_CLOSE,)
    return ()
