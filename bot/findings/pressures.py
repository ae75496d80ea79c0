"""The pressure lines."""

from collections.abc import Sequence
from dataclasses import replace

from bot.findings.deltas import PRESSURES, Deltas, Held, has_all, hold
from bot.findings.lines import (
    DIASTOLIC_FALL,
    DIASTOLIC_VERY_HIGH,
    LARGE_SYSTOLIC_FALL,
    NARROW_SHARE,
    NEUROGENIC_RATIO,
    STANDING_SYSTOLIC_HIGH,
    STANDING_SYSTOLIC_LOW,
    SUPINE_DIASTOLIC_HIGH,
    SUPINE_SYSTOLIC_HIGH,
    SYSTOLIC_FALL,
    SYSTOLIC_RISE,
    SYSTOLIC_VERY_HIGH,
    Limit,
    Side,
)
from bot.findings.result import Change, Finding, Line, Reason, State
from bot.findings.verdicts import judged, verdict
from bot.protocol.circumstances import Medicine
from bot.protocol.record import Measure


def falls(changes: Sequence[Change]) -> tuple[Held, ...]:
    """Return changes held against the two lines of orthostatic hypotension."""
    return (
        *hold(changes, Measure.SYSTOLIC, SYSTOLIC_FALL),
        *hold(changes, Measure.DIASTOLIC, DIASTOLIC_FALL),
    )


def classical_fall(deltas: Deltas) -> Finding:
    """Judge the fall within 3 min of standing."""
    early = [change for change in deltas.changes if deltas.early(change.reading)]
    held = falls(early)
    if not held:
        reason = deltas.missing(*PRESSURES, otherwise=Reason.NOTHING_WITHIN_3_MINUTES)
        return verdict(Line.CLASSICAL_FALL, State.NOT_MEASURED, reason)
    once = len({one.reading.number for one in held}) == 1
    return judged(
        Line.CLASSICAL_FALL,
        held,
        baseline=deltas.baseline,
        untold=_fall_half_measured(deltas, held),
        met=_apter_line(deltas),
        not_met=[Reason.ONE_READING_WITHIN_3_MINUTES] if once else [],
    )


def later_fall(deltas: Deltas, classical: Finding) -> Finding:
    """Judge the same fall first seen after 3 min.

    Where the first 3 min were not judged, it may have been there from the start.
    """
    line = Line.LATER_FALL
    late = [change for change in deltas.changes if not deltas.early(change.reading)]
    held = falls(late)
    if not held:
        reason = deltas.missing(*PRESSURES, otherwise=Reason.NOTHING_AFTER_3_MINUTES)
        return verdict(line, State.NOT_MEASURED, reason)
    fallen = [one for one in held if one.reached]
    if fallen and classical.state is State.MET:
        reason = Reason.FALL_WITHIN_3_MINUTES
        return verdict(line, State.CANNOT_JUDGE, reason, on=fallen, baseline=deltas.baseline)
    from_start = [] if classical.state is State.NOT_MET else [Reason.PERSISTING_OR_LATER]
    short = deltas.short_of_10(one.reading for one in held)
    return judged(
        line,
        held,
        baseline=deltas.baseline,
        untold=_fall_half_measured(deltas, held),
        met=[*from_start, *_apter_line(deltas)],
        not_met=[Reason.SHORT_STAND] if short else [],
    )


def large_fall(deltas: Deltas) -> Finding:
    """Judge the systolic fall of 30, at any standing reading."""
    held = hold(deltas.changes, Measure.SYSTOLIC, LARGE_SYSTOLIC_FALL)
    if not held:
        return _no_systolic_change(deltas, Line.LARGE_FALL)
    return judged(
        Line.LARGE_FALL, held, baseline=deltas.baseline, untold=_start_unknown(deltas, held)
    )


def standing_systolic_low(deltas: Deltas) -> Finding:
    """Judge a low systolic pressure at any standing reading."""
    line = Line.STANDING_SYSTOLIC_LOW
    held = hold(deltas.standing, Measure.SYSTOLIC, STANDING_SYSTOLIC_LOW)
    if not held:
        return verdict(line, State.NOT_MEASURED, deltas.missing_standing)
    return judged(line, held, untold=_start_unknown(deltas, held))


def pressure_rise(deltas: Deltas) -> Finding:
    """Judge orthostatic hypertension: the rise, and a high systolic pressure at that reading.

    Where the rise is there but the standing pressure is not, the standing pressure decides.
    """
    line, baseline = Line.PRESSURE_RISE, deltas.baseline
    rises = hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_RISE)
    if not rises:
        return _no_systolic_change(deltas, line)
    raised = [rise for rise in rises if rise.reached]
    if not raised:
        return verdict(line, State.NOT_MET, on=rises, baseline=baseline)
    standing = hold([rise.reading for rise in raised], Measure.SYSTOLIC, STANDING_SYSTOLIC_HIGH)
    both = [rise for rise, up in zip(raised, standing, strict=True) if up.reached]
    if not both:
        return verdict(line, State.NOT_MET, on=standing, baseline=baseline)
    return verdict(line, State.MET, on=both, baseline=baseline)


def pressor_response(deltas: Deltas) -> Finding:
    """Judge the systolic rise, whatever the standing pressure."""
    rises = hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_RISE)
    if not rises:
        return _no_systolic_change(deltas, Line.PRESSOR_RESPONSE)
    return judged(Line.PRESSOR_RESPONSE, rises, baseline=deltas.baseline)


# Not on a beta-blocker: Norcliffe-Kaufmann 2018: found. The others slow the heart as well: from
# memory, not verified.
_SLOWING = frozenset({Medicine.BETA_BLOCKER, Medicine.HEART_SLOWING})


def neurogenic_pattern(deltas: Deltas) -> Finding:
    """Judge the heart-rate rise per mmHg at the deepest systolic fall that has a heart rate.

    It does not hold on a medicine that slows the heart, or with a pacemaker. Where medicines were
    not told, a met line says so.
    """
    line, baseline = Line.NEUROGENIC_PATTERN, deltas.baseline
    held = hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_FALL)
    if not held:
        return _no_systolic_change(deltas, line)
    fallen = {one.reading.number: one for one in held if one.reached}
    if not fallen:
        reason = Reason.SYSTOLIC_FALL_UNDER_20
        return _without_ratio(verdict(line, State.CANNOT_JUDGE, reason, on=held, baseline=baseline))
    pairs = [
        (fallen[change.reading.number], change.heart_rate)
        for change in deltas.changes
        if change.reading.number in fallen and change.heart_rate is not None
    ]
    if not pairs:
        return verdict(line, State.NOT_MEASURED, deltas.missing(Measure.HEART_RATE))
    fall, rise = max(pairs, key=lambda pair: pair[0].past)
    if rise < 0:
        reason = Reason.HEART_RATE_FELL
        return _without_ratio(
            verdict(line, State.CANNOT_JUDGE, reason, on=[fall], baseline=baseline)
        )
    ratio = Held(reading=fall.reading, measure=None, size=rise / -fall.size, limit=NEUROGENIC_RATIO)
    if _SLOWING.intersection(deltas.medicines or ()):
        reason = Reason.SLOWING_MEDICINE
        return verdict(line, State.CANNOT_JUDGE, reason, on=[ratio], baseline=baseline)
    unknown = [Reason.MEDICINES_NOT_TOLD] if deltas.medicines is None else []
    return judged(line, [ratio], baseline=baseline, met=unknown)


def supine_hypertension(deltas: Deltas) -> Finding:
    """Judge the supine pressures."""
    line, baseline = Line.SUPINE_HYPERTENSION, deltas.baseline
    if baseline is None:
        return verdict(line, State.NOT_MEASURED, Reason.NO_SUPINE_READING)
    held = (
        *hold([baseline], Measure.SYSTOLIC, SUPINE_SYSTOLIC_HIGH),
        *hold([baseline], Measure.DIASTOLIC, SUPINE_DIASTOLIC_HIGH),
    )
    if not held:
        return verdict(line, State.NOT_MEASURED, Reason.SUPINE_NUMBER_MISSING)
    return judged(line, held, untold=None if _both(held) else Reason.SUPINE_NUMBER_MISSING)


def narrow_pulse_pressure(deltas: Deltas) -> Finding:
    """Judge the pulse pressure of each standing reading against a share of its systolic one."""
    held = [
        Held(
            reading=reading,
            measure=None,
            size=values.systolic - values.diastolic,
            limit=Limit(Side.BELOW, NARROW_SHARE * values.systolic),
        )
        for reading in deltas.standing
        if (values := reading.values).systolic is not None and values.diastolic is not None
    ]
    if not held:
        line, reason = Line.NARROW_PULSE_PRESSURE, deltas.missing_standing
        return verdict(line, State.NOT_MEASURED, reason)
    return judged(Line.NARROW_PULSE_PRESSURE, held)


def very_high_pressure(deltas: Deltas) -> Finding:
    """Judge every pressure of the test, in any position and at any time."""
    line = Line.VERY_HIGH_PRESSURE
    held = (
        *hold(deltas.readings, Measure.SYSTOLIC, SYSTOLIC_VERY_HIGH),
        *hold(deltas.readings, Measure.DIASTOLIC, DIASTOLIC_VERY_HIGH),
    )
    if not held:
        return verdict(line, State.NOT_MEASURED, Reason.PRESSURE_MISSING)
    return judged(line, held, untold=None if _both(held) else Reason.PRESSURE_MISSING)


def _both(held: Sequence[Held]) -> bool:
    """Return whether both pressures are among the numbers."""
    return len({one.measure for one in held}) == 2


def _fall_half_measured(deltas: Deltas, held: Sequence[Held]) -> Reason | None:
    """Return why a fall cannot be ruled out: one of the two pressures was never compared."""
    if _both(held):
        return None
    if deltas.baseline is None or not has_all(deltas.baseline.values, PRESSURES):
        return Reason.SUPINE_NUMBER_MISSING
    return Reason.STANDING_NUMBER_MISSING


def _start_unknown(deltas: Deltas, held: Sequence[Held]) -> Reason | None:
    """Return why a low pressure cannot be ruled out: it may have been there in the first 3 min."""
    early = any(deltas.early(one.reading) for one in held)
    return None if early else Reason.NOTHING_WITHIN_3_MINUTES


def _apter_line(deltas: Deltas) -> tuple[Reason, ...]:
    high = supine_hypertension(deltas).state is State.MET
    return (Reason.SUPINE_PRESSURE_HIGH,) if high else ()


def _no_systolic_change(deltas: Deltas, line: Line) -> Finding:
    return verdict(line, State.NOT_MEASURED, deltas.missing(Measure.SYSTOLIC))


def _without_ratio(finding: Finding) -> Finding:
    return replace(finding, size=None, limit=None, measure=None, at=None)
