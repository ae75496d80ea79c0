"""A finding put together from the numbers it rests on."""

from collections.abc import Iterable, Sequence

from bot.findings.deltas import Held
from bot.findings.result import Finding, Line, Reason, State
from bot.protocol.record import Reading


def verdict(
    line: Line,
    state: State,
    *reasons: Reason,
    on: Sequence[Held] = (),
    baseline: Reading | None = None,
) -> Finding:
    """Return a finding decided by the number furthest past its limit, the first on a tie.

    Args:
        line: Which line.
        state: Where the readings stand against it.
        *reasons: In order of weight; that a reading was late is added here.
        on: The numbers that the finding rests on.
        baseline: The supine reading, when they are changes from it.
    """
    deciding = max(on, key=lambda held: held.past, default=None)
    readings = [held.reading for held in on]
    if baseline is not None:
        readings.append(baseline)
    if any(reading.late for reading in readings):
        reasons = (*reasons, Reason.LATE_READING)
    return Finding(
        line=line,
        state=state,
        reasons=reasons,
        size=None if deciding is None else deciding.size,
        limit=None if deciding is None else deciding.limit.value,
        measure=None if deciding is None else deciding.measure,
        at=None if deciding is None else deciding.reading.offset,
        evidence=tuple(sorted({reading.number for reading in readings})),
    )


def judged(
    line: Line,
    held: Sequence[Held],
    *,
    baseline: Reading | None = None,
    untold: Reason | None = None,
    met: Iterable[Reason] = (),
    not_met: Iterable[Reason] = (),
) -> Finding:
    """Return met when one number reaches its limit, else not met.

    Args:
        line: Which line.
        held: The numbers, at least one.
        baseline: The supine reading, when they are changes from it.
        untold: Why the numbers cannot carry a "not met"; `None` when they can.
        met: What to mind when it is met.
        not_met: What to mind when it is not.
    """
    reached = [one for one in held if one.reached]
    if reached:
        return verdict(line, State.MET, *met, on=reached, baseline=baseline)
    if untold is not None:
        return verdict(line, State.CANNOT_JUDGE, untold, on=held, baseline=baseline)
    return verdict(line, State.NOT_MET, *not_met, on=held, baseline=baseline)
