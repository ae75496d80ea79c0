"""No answer to a prompt: a nudge, "are you all right?", then the test is closed, with safety words.

Standing and not answering is the dangerous case; the times are in the protocol definition.
"""

from dataclasses import replace

from bot.engine.dialogues.closing import end
from bot.engine.dialogues.orientation import FINE, IN_POSITION, UNWELL, orient
from bot.engine.effects import Urgency
from bot.engine.state import AwaitingPosition, AwaitingReading
from bot.engine.turn import RESULTS, Answer, Turn, part
from bot.protocol.definition import Ladder, Position
from bot.protocol.record import Ending

CHECKED = 2
"""The rung at which "are you all right?" has been asked."""


def ladder(stage: AwaitingPosition | AwaitingReading) -> Ladder:
    """Return the silence ladder that holds at a stage."""
    match stage:
        case AwaitingPosition():
            return stage.phase.getting_there
        case AwaitingReading():
            return stage.phase.reading


def hear(turn: Turn) -> None:
    """A sign of life: silence counts anew from here."""
    match turn.stage:
        case AwaitingPosition() | AwaitingReading() as stage:
            turn.was_checked = stage.rung >= CHECKED
            turn.stay(replace(stage, silent_since=turn.at, rung=0))
        case _:
            pass


def pass_silence(turn: Turn, stage: AwaitingPosition | AwaitingReading) -> None:
    """Climb the ladder if it is time. No rung that people rely on is skipped after a standstill."""
    rungs = ladder(stage)
    silent = turn.at - stage.silent_since
    position = stage.phase.position
    if stage.rung < CHECKED and silent >= rungs.check_after:
        turn.stay(replace(stage, rung=CHECKED, silent_since=turn.at - rungs.check_after))
        buttons = [
            Answer("button.fine", FINE, of_stage=True),
            Answer("button.unwell", UNWELL, of_stage=True),
        ]
        if isinstance(stage, AwaitingPosition):
            buttons.append(Answer(f"button.there.{position}", IN_POSITION, of_stage=True))
        turn.say(part(_check(position)), rows=tuple((b,) for b in buttons), urgency=Urgency.SAFETY)
    elif stage.rung < 1 and silent >= rungs.nudge_after:
        turn.stay(replace(stage, rung=1))
        orient(turn, part("silence.nudge"), urgency=Urgency.TIMED)
    elif stage.rung >= CHECKED and silent >= rungs.close_after:
        end(turn, Ending.SILENT)
        turn.say(part("silence.closed"), rows=((RESULTS,),), urgency=Urgency.SAFETY)


def _check(position: Position) -> str:
    return "silence.check.standing" if position is Position.STANDING else "silence.check"
