"""Stopping, for whatever reason. The safety words always come first."""

from dataclasses import replace
from datetime import timedelta
from typing import Final

from bot.distress import Grade
from bot.engine.asides import ConfirmingDistress
from bot.engine.buttons import RESULTS, Always, part
from bot.engine.dialogues import remeasuring
from bot.engine.dialogues.closing import ask_reason, end, finish
from bot.engine.dialogues.crossing import FELT, Crossing, crossed
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Param, Part, Urgency
from bot.engine.hearing import reason_in
from bot.engine.notices import Notice
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Finished,
    Resting,
)
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Reading, StopReason, TestRecord, Values

AFTERWARDS: Final = timedelta(hours=1)
"""So long after a test a call for help is taken to belong to it (design choice)."""


_FELT: Final = frozenset({StopReason.FELT_FAINT, StopReason.UNWELL, StopReason.PAIN})
"""Reasons for which somebody is looked after, lying and sitting as well."""


def stop(turn: Turn) -> None:
    """Stop the test: lie down first, then the reason."""
    if turn.running is not None:
        standing = _upright(turn)
        turn.tell(Notice.STOPPED)
        record = end(turn, Ending.STOPPED)
        if standing:
            remeasuring.lie_down(turn, record.number)
        turn.say(part("stop.now"), urgency=Urgency.SAFETY)
        ask_reason(turn, record)
        orient(turn)
    elif isinstance(turn.stage, AwaitingStopReason):
        orient(turn)
    elif isinstance(turn.stage, AwaitingAgeBand | AwaitingReady | Auditing):
        turn.go_back()
        orient(turn, part("start.not-now"))
    elif isinstance(turn.stage, DatingPaper | CopyingPaper):
        turn.go_back()
        orient(turn, part("paper.left"))
    elif turn.asked_about_zone:
        turn.go_back()
        orient(turn, part("left"))
    else:
        orient(turn, part("stop.nothing"))


def _upright(turn: Turn) -> bool:
    running = turn.running
    return running is not None and running.phase.position is Position.STANDING


def near_faint(turn: Turn, words: str | None = None) -> None:
    """Answer words of a faint that is near; a running test ends."""
    match turn.aside:
        case ConfirmingDistress(grade=Grade.NEAR_FAINT):
            turn.settle()
        case _:
            pass
    match turn.stage:
        case AwaitingStopReason() as stage:
            turn.say(part("faint.lie-down"), urgency=Urgency.SAFETY)
            take_reason(turn, stage, StopReason.FELT_FAINT, words)
        case _ if turn.running is not None:
            _end_lying_down(turn, StopReason.FELT_FAINT, Notice.FELT_FAINT, words)
        case _:
            _look_after(turn, Notice.FELT_FAINT)
            _not_now(turn)
            turn.say(part("faint.lie-down"), urgency=Urgency.SAFETY)


def unwell(turn: Turn) -> None:
    """Not all right, when asked: the test ends lying down."""
    _end_lying_down(turn, StopReason.UNWELL, Notice.STOPPED)


def _end_lying_down(
    turn: Turn, reason: StopReason, notice: Notice, words: str | None = None
) -> None:
    turn.tell(notice)
    record = end(turn, Ending.STOPPED, reason, words)
    remeasuring.lie_down(turn, record.number)
    turn.say(part("faint.now"), rows=((RESULTS,),), urgency=Urgency.SAFETY)


def silent(turn: Turn) -> None:
    """Nobody answers: the test ends, whoever is linked is told, and the screen says what to do."""
    turn.tell(Notice.SILENT)
    record = end(turn, Ending.SILENT)
    remeasuring.lie_down(turn, record.number)
    turn.say(part("silence.closed"), rows=((RESULTS,),), urgency=Urgency.SAFETY)


def _look_after(turn: Turn, notice: Notice) -> None:
    """Look after somebody who calls for help soon after a test has ended."""
    record = turn.latest
    ended_at = None if record is None else record.ended_at
    if record is not None and ended_at is not None and turn.at - ended_at <= AFTERWARDS:
        turn.tell(notice)
        remeasuring.lie_down(turn, record.number)


def past_a_line(turn: Turn, source: str) -> bool:
    """End the test by the reading just put down, if it crosses a stop line. False if not."""
    record = turn.record
    if turn.running is None or record is None or not record.readings:
        return False
    last = record.readings[-1]
    crossing = crossed(record, last.position, last.values, turn.context.stop_lines)
    if crossing is None or source not in last.sources:
        return False
    end_for_reading(turn, last, crossing)
    return True


def _not_now(turn: Turn) -> None:
    """A test that was about to begin does not begin by an old button after this."""
    if isinstance(turn.stage, AwaitingReady | Auditing):
        turn.go_back()


def emergency(turn: Turn, words: str | None = None) -> None:
    """Answer words of an emergency before anything else; a running test ends."""
    if isinstance(turn.aside, ConfirmingDistress):
        turn.settle()  # it was asked whether help is needed
    was_running = turn.running is not None
    _not_now(turn)
    if was_running:
        turn.tell(Notice.EMERGENCY)
        record = end(turn, Ending.EMERGENCY, words=words)
        remeasuring.lie_down(turn, record.number)
    elif isinstance(turn.stage, AwaitingStopReason):
        _look_after(turn, Notice.EMERGENCY)
        record = replace(turn.stage.record, ending=Ending.EMERGENCY, stop_words=words)
        turn.move(Finished(record=record))
        turn.keep(record)
    else:
        _look_after(turn, Notice.EMERGENCY)
    rows = ((RESULTS,),) if turn.record is not None else ()
    over = (part("emergency.test-over"),) if was_running else ()
    turn.say(part("emergency.now"), *over, rows=rows, urgency=Urgency.SAFETY)


def end_for_reading(turn: Turn, reading: Reading, crossing: Crossing) -> None:
    """End the test because a reading crossed a stop line."""
    corrected = _upright(turn) and reading.position is not Position.STANDING
    turn.tell(Notice.UNSAFE_READING)
    record = end(turn, Ending.UNSAFE_READING)
    _then(turn, record, crossing)
    say_unsafe(turn, reading, crossing, corrected=corrected)


def after_correction(turn: Turn, reading: Reading, crossing: Crossing) -> None:
    """Say what a correction after the end means; soon after it the person is looked after."""
    record = turn.latest
    ended_at = None if record is None else record.ended_at
    if record is not None and ended_at is not None and turn.at - ended_at <= AFTERWARDS:
        turn.tell(Notice.UNSAFE_READING)
        _then(turn, record, crossing)
    say_unsafe(turn, reading, crossing)


def _then(turn: Turn, record: TestRecord, crossing: Crossing) -> None:
    if crossing is Crossing.HIGH:
        remeasuring.measure_again(turn, record.number)
    else:
        remeasuring.lie_down(turn, record.number)


def say_unsafe(
    turn: Turn, reading: Reading, crossing: Crossing, *, corrected: bool = False
) -> None:
    """Say what to do about a reading that crossed a stop line."""
    rows = ((fix_button(turn, reading.number), RESULTS),)
    pressed = reading.values.systolic is not None or reading.values.diastolic is not None
    if corrected and pressed and crossing is not Crossing.HIGH:
        said = part("unsafe.corrected", pressures=pressures(reading.values))
    else:
        said = unsafe_words(reading.values, crossing)
    turn.say(said, rows=rows, urgency=Urgency.SAFETY)


def unsafe_words(values: Values, crossing: Crossing) -> Part:
    """Return the words on numbers that crossed a stop line."""
    params: dict[str, Param] = {"pressures": pressures(values)}
    if values.heart_rate is not None:
        params["heart_rate"] = values.heart_rate
    return Part(f"unsafe.{crossing}", params)


def line_with_symptoms(turn: Turn) -> bool:
    """End the test if a symptom goes with a large fall or a racing heart. False if none does."""
    running, record = turn.running, turn.record
    if running is None or record is None or running.phase.position is not Position.STANDING:
        return False
    standing = [r for r in record.readings if r.position is Position.STANDING]
    if not standing:
        return False
    last = standing[-1]
    lines = turn.context.stop_lines
    crossing = crossed(record, last.position, last.values, lines)
    if crossing not in FELT:
        return False
    end_for_reading(turn, last, crossing)
    return True


def pressures(values: Values) -> str:
    """Return the pressures as they are said back; a dash stands for one not given."""
    return f"{values.systolic or '-'}/{values.diastolic or '-'}"


def fix_button(turn: Turn, number: int) -> Always:
    """Return the button that corrects a reading of this test, and of no other."""
    return Always("button.fix", f"fix:{turn.held_record.number}.{number}")


def take_reason(
    turn: Turn, stage: AwaitingStopReason, reason: StopReason | None, words: str | None = None
) -> None:
    """Keep the reason of a stop, told or not, and hand over what was measured."""
    record: TestRecord = replace(stage.record, stop_reason=reason, stop_words=words)
    turn.keep(record)
    if reason is StopReason.EQUIPMENT:
        turn.recover(None)  # nothing of how they feel made them stop
    elif reason in _FELT and record.phase_start(Position.STANDING) is None:
        remeasuring.lie_down(turn, record.number)  # who stood is looked after already
    if reason is not None:
        turn.say(part("stop.thanks"))
    finish(turn, record)


def take_words(turn: Turn, stage: AwaitingStopReason, text: str) -> None:
    """Take the reason as it was typed; the words are kept as well."""
    take_reason(turn, stage, reason_in(text) or StopReason.OTHER, text)


def on_the_clock(turn: Turn) -> Resting | AwaitingReading | None:
    """Return the stage if a phase's clock is running."""
    match turn.stage:
        case Resting() | AwaitingReading() as stage:
            return stage
        case _:
            return None
