"""How urgent a test is, and why, on records made for it.

The order is the requirement's: alarm for an emergency or a stop; soon for a fall, a very high
pressure or a faint that is near; review for a line that is met; routine for the rest.
"""

from dataclasses import replace

import pytest

from bot.care.triage import Cause, Priority, Triage, of_notice, of_record
from bot.engine.notices import Notice
from bot.engine.post import is_alarm
from bot.protocol.definition import Position
from bot.protocol.record import Ending, StopReason, Symptom, SymptomReport, TestRecord
from tests.findings.records import BEGAN_AT, record

CALM = replace(
    record(
        "supine-5@5:00 120/76 68", "standing-1@1:00 118/76 74", "standing-3@3:00 118/76 75",
        "standing-5@5:00 118/76 76", "standing-10@10:00 118/76 77",
    ),
    ending=Ending.COMPLETED,
)  # fmt: skip
FAINT = SymptomReport(
    symptom=Symptom.FAINT,
    words="a bit faint",
    strength=3,
    told_at=BEGAN_AT,
    position=Position.STANDING,
    offset=None,
)


def with_last(numbers: str) -> TestRecord:
    """Return the calm test with other numbers at the last two readings, a minute and more apart."""
    rows = (
        "supine-5@5:00 120/76 68", "standing-1@1:00 118/76 74",
        f"standing-5@5:00 {numbers}", f"standing-10@10:00 {numbers}",
    )  # fmt: skip
    return replace(record(*rows), ending=Ending.COMPLETED)


@pytest.mark.parametrize(
    ("test", "priority", "cause"),
    [
        (replace(CALM, ending=Ending.EMERGENCY), Priority.ALARM, Cause.EMERGENCY),
        (replace(CALM, ending=Ending.SILENT), Priority.ALARM, Cause.SILENCE),
        (replace(CALM, ending=Ending.STOPPED), Priority.ALARM, Cause.STOP),
        (
            replace(CALM, ending=Ending.STOPPED, stop_reason=StopReason.FELT_FAINT),
            Priority.ALARM,
            Cause.NEAR_FAINT,
        ),
        (with_last("186/90 80"), Priority.SOON, Cause.VERY_HIGH),
        (with_last("98/70 80"), Priority.SOON, Cause.FALL),
        (replace(CALM, ending=Ending.UNSAFE_READING), Priority.SOON, Cause.UNSAFE_READING),
        (replace(CALM, symptoms=(FAINT,)), Priority.SOON, Cause.FAINTNESS),
        (with_last("118/76 104"), Priority.REVIEW, Cause.LINE_MET),
        (
            replace(CALM, ending=Ending.STOPPED, stop_reason=StopReason.EQUIPMENT),
            Priority.ROUTINE,
            Cause.UNFINISHED,
        ),
        (replace(CALM, ending=Ending.INTERRUPTED), Priority.ROUTINE, Cause.UNFINISHED),
    ],
)
def test_a_test_has_the_priority_of_the_requirement(
    test: TestRecord, priority: Priority, cause: Cause
) -> None:
    """Each kind of ending and finding has its place."""
    assert of_record(test) == Triage(priority=priority, cause=cause)


def test_routine_says_only_that_no_line_was_met() -> None:
    """A whole test in which nothing reaches a line is routine; with a gap it says so."""
    assert of_record(CALM).priority is Priority.ROUTINE
    gap = replace(CALM, readings=CALM.readings[:-1])
    assert of_record(gap).cause is Cause.UNFINISHED


def test_the_graver_of_two_reasons_stands() -> None:
    """A later result lowers no alarm, and an alarm raises what was routine."""
    alarm = Triage(priority=Priority.ALARM, cause=Cause.SILENCE)
    routine = Triage(priority=Priority.ROUTINE, cause=Cause.NO_LINE)
    assert alarm.or_graver(routine) == routine.or_graver(alarm) == alarm


@pytest.mark.parametrize("notice", list(Notice))
def test_what_is_no_alarm_to_companions_is_none_to_the_team(notice: Notice) -> None:
    """A course of a test goes to nobody of the team; every alarm but a relief is an item."""
    told = of_notice(notice) is not None
    assert told == (is_alarm(notice) and notice is not Notice.BETTER)
