"""Stopping, for whatever reason. The safety words always come first."""

from dataclasses import replace

from bot.engine.dialogues.closing import ask_reason, end, finish
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Urgency
from bot.engine.state import AwaitingReading, AwaitingStopReason, Finished, Resting, StopLines
from bot.engine.turn import RESULTS, Always, Turn, part
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Reading, StopReason, TestRecord


def stop(turn: Turn) -> None:
    """Stop the test: lie down first, then the reason."""
    if turn.running is not None:
        record = end(turn, Ending.STOPPED)
        turn.say(part("stop.now"), urgency=Urgency.SAFETY)
        ask_reason(turn, record)
        orient(turn)
    elif isinstance(turn.stage, AwaitingStopReason):
        orient(turn)
    else:
        orient(turn, part("stop.nothing"))


def near_faint(turn: Turn) -> None:
    """Answer words of a faint that is near; a running test ends."""
    if turn.running is not None:
        end(turn, Ending.STOPPED, StopReason.FELT_FAINT)
        turn.say(part("faint.now"), rows=((RESULTS,),), urgency=Urgency.SAFETY)
    else:
        turn.say(part("faint.lie-down"), urgency=Urgency.SAFETY)


def emergency(turn: Turn) -> None:
    """Answer words of an emergency before anything else; a running test ends."""
    if turn.running is not None:
        end(turn, Ending.EMERGENCY)
    elif isinstance(turn.stage, AwaitingStopReason):
        record = replace(turn.stage.record, ending=Ending.EMERGENCY)
        turn.move(Finished(record=record))
        turn.keep(record)
    rows = ((RESULTS,),) if turn.record is not None else ()
    turn.say(part("emergency.now"), rows=rows, urgency=Urgency.SAFETY)


def crossed(reading: Reading, lines: StopLines) -> str | None:
    """Return the key of the safety words when a reading crosses a stop line, else `None`."""
    systolic, diastolic = reading.values.systolic, reading.values.diastolic
    if (systolic is not None and systolic >= lines.systolic_from) or (
        diastolic is not None and diastolic >= lines.diastolic_from
    ):
        return "unsafe.high"
    standing = reading.position is Position.STANDING
    if standing and systolic is not None and systolic < lines.standing_systolic_below:
        return "unsafe.low"
    return None


def end_for_reading(turn: Turn, reading: Reading, words: str) -> None:
    """End the test because a reading crossed a stop line."""
    end(turn, Ending.UNSAFE_READING)
    fix = Always("button.fix", f"fix:{reading.number}")
    pressures = f"{reading.values.systolic}/{reading.values.diastolic}"
    turn.say(part(words, pressures=pressures), rows=((fix, RESULTS),), urgency=Urgency.SAFETY)


def take_reason(
    turn: Turn, stage: AwaitingStopReason, reason: StopReason | None, words: str | None = None
) -> None:
    """Keep the reason of a stop, told or not, and hand over what was measured."""
    record: TestRecord = replace(stage.record, stop_reason=reason, stop_words=words)
    turn.keep(record)
    if reason is not None:
        turn.say(part("stop.thanks"))
    finish(turn, record)


def on_the_clock(turn: Turn) -> Resting | AwaitingReading | None:
    """Return the stage if a phase's clock is running."""
    match turn.stage:
        case Resting() | AwaitingReading() as stage:
            return stage
        case _:
            return None
