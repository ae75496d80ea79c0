"""The end of a test, and its results in all their forms."""

from dataclasses import replace

from bot.engine.buttons import NEW_TEST, more, part
from bot.engine.dialogues import between, sending, standing
from bot.engine.drafts import with_draft
from bot.engine.effects import Form
from bot.engine.state import AwaitingReading, AwaitingStopReason, Finished
from bot.engine.turn import Turn
from bot.protocol.record import Ending, StopReason, TestRecord

FILES = (Form.CHART, Form.PDF, Form.CSV)
"""What comes with every summary."""

FOR_THE_CARE_TEAM: tuple[Form, ...] = (Form.PDF, Form.CSV, Form.FHIR)
"""What comes when the files are asked for."""


def end(
    turn: Turn, ending: Ending, reason: StopReason | None = None, words: str | None = None
) -> TestRecord:
    """End the test under way: its record is closed and kept, and no clock runs any more."""
    stage, record = turn.stage, turn.held_record
    if isinstance(stage, AwaitingReading):
        record = with_draft(stage)
    ended = replace(record, ending=ending, ended_at=turn.at, stop_reason=reason, stop_words=words)
    turn.move(Finished(record=ended))
    turn.withdraw()
    turn.keep(ended)
    between.note_test(turn, ended)
    sending.send_if_always(turn, ended)
    return ended


def ask_reason(turn: Turn, record: TestRecord) -> None:
    """Wait for the reason of a stop; the test itself has ended."""
    turn.move(AwaitingStopReason(record=record, asked_at=turn.at))


def finish(turn: Turn, record: TestRecord) -> None:
    """Put the record down as the latest result and send it in every form."""
    turn.move(Finished(record=record))
    hand_over(turn, record)
    standing.settle_after_test(turn)
    if not sending.ask_to_send(turn, record):
        between.ask_day(turn, record)


def hand_over(turn: Turn, record: TestRecord) -> None:
    """Send a result: the summary, and the files if anything was measured."""
    if not record.readings:
        turn.say(part("finished.nothing"), rows=((NEW_TEST,),))
        return
    turn.hand(Form.SUMMARY, record, rows=((more(record.number),),))
    for form in FILES:
        turn.hand(form, record)


def put_down(turn: Turn, record: TestRecord) -> None:
    """Put a changed record in place of the old one; one that has ended is kept anew."""
    if record.ending is None:
        turn.update(record)
        return
    revised = replace(record, revision=record.revision + 1)
    turn.update(revised)
    turn.keep(revised)
