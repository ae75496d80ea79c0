"""Stopping, for whatever reason. The safety words always come first."""

from dataclasses import replace

from bot.engine.context import StopLines
from bot.engine.dialogues.closing import ask_reason, end, finish
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Urgency
from bot.engine.hearing import reason_in
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Finished,
    Resting,
)
from bot.engine.turn import RESULTS, Always, Turn, part
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Reading, StopReason, TestRecord, Values


def stop(turn: Turn) -> None:
    """Stop the test: lie down first, then the reason."""
    if turn.running is not None:
        record = end(turn, Ending.STOPPED)
        turn.say(part("stop.now"), urgency=Urgency.SAFETY)
        ask_reason(turn, record)
        orient(turn)
    elif isinstance(turn.stage, AwaitingStopReason):
        orient(turn)
    elif isinstance(turn.stage, AwaitingAgeBand | AwaitingReady | Auditing):
        turn.go_back()
        orient(turn, part("start.not-now"))
    elif turn.asked_about_zone:
        turn.go_back()
        orient(turn, part("left"))
    else:
        orient(turn, part("stop.nothing"))


def near_faint(turn: Turn, words: str | None = None) -> None:
    """Answer words of a faint that is near; a running test ends."""
    match turn.stage:
        case AwaitingStopReason() as stage:
            turn.say(part("faint.lie-down"), urgency=Urgency.SAFETY)
            take_reason(turn, stage, StopReason.FELT_FAINT, words)
        case _ if turn.running is not None:
            end(turn, Ending.STOPPED, StopReason.FELT_FAINT)
            turn.say(part("faint.now"), rows=((RESULTS,),), urgency=Urgency.SAFETY)
        case _:
            _not_now(turn)
            turn.say(part("faint.lie-down"), urgency=Urgency.SAFETY)


def unwell(turn: Turn) -> None:
    """Not all right, when asked: the test ends lying down."""
    end(turn, Ending.STOPPED, StopReason.UNWELL)
    turn.say(part("faint.now"), rows=((RESULTS,),), urgency=Urgency.SAFETY)


def _not_now(turn: Turn) -> None:
    """A test that was about to begin does not begin by an old button after this."""
    if isinstance(turn.stage, AwaitingReady | Auditing):
        turn.go_back()


def emergency(turn: Turn) -> None:
    """Answer words of an emergency before anything else; a running test ends."""
    was_running = turn.running is not None
    _not_now(turn)
    if was_running:
        end(turn, Ending.EMERGENCY)
    elif isinstance(turn.stage, AwaitingStopReason):
        record = replace(turn.stage.record, ending=Ending.EMERGENCY)
        turn.move(Finished(record=record))
        turn.keep(record)
    rows = ((RESULTS,),) if turn.record is not None else ()
    over = (part("emergency.test-over"),) if was_running else ()
    turn.say(part("emergency.now"), *over, rows=rows, urgency=Urgency.SAFETY)


def crossed(position: Position, values: Values, lines: StopLines) -> str | None:
    """Return the key of the safety words when numbers cross a stop line, else `None`."""
    systolic, diastolic = values.systolic, values.diastolic
    if (systolic is not None and systolic >= lines.systolic_from) or (
        diastolic is not None and diastolic >= lines.diastolic_from
    ):
        return "unsafe.high"
    standing = position is Position.STANDING
    if standing and systolic is not None and systolic < lines.standing_systolic_below:
        return "unsafe.low"
    return None


def end_for_reading(turn: Turn, reading: Reading, words: str) -> None:
    """End the test because a reading crossed a stop line."""
    end(turn, Ending.UNSAFE_READING)
    say_unsafe(turn, reading, words)


def say_unsafe(turn: Turn, reading: Reading, words: str) -> None:
    """Say what to do about a reading that crossed a stop line."""
    rows = ((fix_button(turn, reading.number), RESULTS),)
    turn.say(part(words, pressures=pressures(reading.values)), rows=rows, urgency=Urgency.SAFETY)


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
