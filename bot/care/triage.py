"""How urgent something is to the team, and why: from a notice, or a record and its findings.

It orders a list. It diagnoses nothing, and "routine" says only that no line was met.
"""

from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import Final

from bot.engine.notices import Notice
from bot.findings import Findings, Line, State, find
from bot.protocol.record import Ending, StopReason, Symptom, TestRecord


class Priority(IntEnum):
    """What comes first; the lower the sooner."""

    ALARM = 0
    SOON = 1
    REVIEW = 2
    ROUTINE = 3


class Cause(StrEnum):
    """Why something has its priority."""

    EMERGENCY = "emergency"
    SILENCE = "silence"
    STOP = "stop"
    NEAR_FAINT = "near-faint"
    WORSE = "worse"
    UNSAFE_READING = "unsafe-reading"
    VERY_HIGH = "very-high"
    FALL = "fall"
    FAINTNESS = "faintness"  # told, and the test went on
    LINE_MET = "line-met"
    UNFINISHED = "unfinished"
    NO_LINE = "no-line"


@dataclass(frozen=True, slots=True, kw_only=True)
class Triage:
    """A priority and its reason."""

    priority: Priority
    cause: Cause

    def or_graver(self, other: "Triage") -> "Triage":
        """Return the graver of two; this one if they are alike."""
        return other if other.priority < self.priority else self


FALLS: Final = (
    Line.CLASSICAL_FALL,
    Line.LATER_FALL,
    Line.LARGE_FALL,
    Line.STANDING_SYSTOLIC_LOW,
)
_NO_REVIEW: Final = frozenset({Line.SUPINE_RATE_BELOW_60})
"""A note that takes nothing away and asks for nothing (see `findings.lines`)."""

_MET: Final = (State.MET, State.MET_ONCE)

_OF_NOTICE: Final = {
    Notice.EMERGENCY: Triage(priority=Priority.ALARM, cause=Cause.EMERGENCY),
    Notice.SILENT: Triage(priority=Priority.ALARM, cause=Cause.SILENCE),
    Notice.STILL_SILENT: Triage(priority=Priority.ALARM, cause=Cause.SILENCE),
    Notice.STOPPED: Triage(priority=Priority.ALARM, cause=Cause.STOP),
    Notice.FELT_FAINT: Triage(priority=Priority.ALARM, cause=Cause.NEAR_FAINT),
    Notice.WORSE: Triage(priority=Priority.ALARM, cause=Cause.WORSE),
    Notice.UNSAFE_READING: Triage(priority=Priority.SOON, cause=Cause.UNSAFE_READING),
}


def of_notice(notice: Notice) -> Triage | None:
    """Return how urgent a notice of a test is to the team; `None` if it is no alarm."""
    return _OF_NOTICE.get(notice)


def of_record(record: TestRecord) -> Triage:
    """Return how urgent a test that has ended is.

    A stop is an alarm, unless it was for the cuff's sake: nothing of how they felt made them stop.
    """
    findings = find(record)
    priority, cause = _of_ending(record) or _of_findings(record, findings)
    return Triage(priority=priority, cause=cause)


def _of_ending(record: TestRecord) -> tuple[Priority, Cause] | None:
    match record.ending:
        case Ending.EMERGENCY:
            return Priority.ALARM, Cause.EMERGENCY
        case Ending.SILENT:
            return Priority.ALARM, Cause.SILENCE
        case Ending.STOPPED if record.stop_reason is StopReason.FELT_FAINT:
            return Priority.ALARM, Cause.NEAR_FAINT
        case Ending.STOPPED if record.stop_reason is not StopReason.EQUIPMENT:
            return Priority.ALARM, Cause.STOP
        case _:
            return None


def _of_findings(record: TestRecord, findings: Findings) -> tuple[Priority, Cause]:
    met = {finding.line for finding in findings.findings if finding.state in _MET}
    if Line.VERY_HIGH_PRESSURE in met:
        return Priority.SOON, Cause.VERY_HIGH
    if not met.isdisjoint(FALLS):
        return Priority.SOON, Cause.FALL
    if record.ending is Ending.UNSAFE_READING:
        return Priority.SOON, Cause.UNSAFE_READING
    if any(told.symptom is Symptom.FAINT for told in record.symptoms):
        return Priority.SOON, Cause.FAINTNESS
    if met - _NO_REVIEW:
        return Priority.REVIEW, Cause.LINE_MET
    if record.ending is not Ending.COMPLETED or findings.missed:
        return Priority.ROUTINE, Cause.UNFINISHED
    return Priority.ROUTINE, Cause.NO_LINE
