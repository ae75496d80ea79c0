"""No answer to a prompt: a nudge, "are you all right?", then the test is closed, with safety words.

Standing and not answering is the dangerous case; the times are in the protocol definition.
"""

from dataclasses import replace
from datetime import timedelta

from bot.engine.buttons import Answer, part
from bot.engine.dialogues import recovering, stopping
from bot.engine.dialogues.orientation import FINE, IN_POSITION, UNWELL, orient
from bot.engine.effects import Urgency
from bot.engine.state import AwaitingPosition, AwaitingReading, Resting
from bot.engine.turn import Turn
from bot.protocol.definition import Ladder, Position

ANSWERS_AHEAD = timedelta(seconds=45)
"""How long before the question whether all is well a sign of life answers it (design choice)."""

CHECKED = 2
"""The rung at which "are you all right?" has been asked."""


Silent = AwaitingPosition | AwaitingReading | Resting
"""The stages at which silence is noticed; while resting, once it was asked whether all is well."""


def ladder(stage: Silent) -> Ladder:
    """Return the silence ladder that holds at a stage."""
    match stage:
        case AwaitingPosition():
            return stage.phase.getting_there
        case AwaitingReading():
            return stage.phase.reading
        case Resting():
            assert stage.phase.checking is not None
            return stage.phase.checking


def hear(turn: Turn) -> None:
    """A sign of life: silence counts anew from here.

    One shortly before it would be asked whether all is well answers that.
    """
    recovering.hear(turn)
    soon = turn.at + ANSWERS_AHEAD
    match turn.stage:
        case AwaitingPosition() | AwaitingReading() as stage:
            turn.was_checked = stage.rung >= CHECKED
            turn.stay(replace(stage, silent_since=turn.at, rung=0))
        case Resting() as stage:
            turn.was_checked = stage.silent_since is not None
            answered = sum(check <= soon - stage.phase_started_at for check in stage.phase.checks)
            put = max(stage.checks_put, answered)
            turn.stay(replace(stage, silent_since=None, rung=0, checks_put=put))
        case _:
            pass


def ask_well(turn: Turn, stage: Resting) -> None:
    """Ask somebody who stands, with no reading due for long, whether all is well."""
    due = sum(check <= turn.at - stage.phase_started_at for check in stage.phase.checks)
    turn.stay(replace(stage, checks_put=due, silent_since=turn.at, rung=0))
    number = turn.say(
        part("check.standing"),
        rows=((Answer("button.fine", FINE, of_stage=True),),),
        urgency=Urgency.TIMED,
    )
    match turn.stage:
        case Resting() as asked:
            turn.stay(replace(asked, check_number=number))
        case _:
            pass


def all_well(turn: Turn) -> None:
    """All is well: say so in the message that asked, where it is enough."""
    match turn.stage:
        case Resting(check_number=number) as stage if number:
            turn.revise(
                number,
                part("check.good", left=max(stage.due_at - turn.at, timedelta(0))),
                urgency=Urgency.REPLY,
            )
        case _:
            orient(turn, part("silence.good"))


def nudges(turn: Turn, stage: Silent) -> bool:
    """Whether it is time for the first nudge, or past it."""
    since = stage.silent_since
    return since is not None and turn.at - since >= ladder(stage).nudge_after


def closes(turn: Turn, stage: Silent) -> bool:
    """Whether silence has lasted so long that the test is closed."""
    since = stage.silent_since
    if since is None or stage.rung < CHECKED:
        return False
    return turn.at - since >= ladder(stage).close_after


def is_grave(turn: Turn, stage: Silent) -> bool:
    """Whether it is time to ask whether somebody is all right, who has not been asked yet."""
    since = stage.silent_since
    if since is None or stage.rung >= CHECKED:
        return False
    return turn.at - since >= ladder(stage).check_after


def pass_silence(turn: Turn, stage: Silent) -> None:
    """Climb the ladder if it is time. No rung that people rely on is skipped after a standstill."""
    rungs = ladder(stage)
    since = stage.silent_since
    assert since is not None
    silent = turn.at - since
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
        if isinstance(stage, Resting):
            fine = Answer("button.fine", FINE, of_stage=True)
            turn.say(part("check.again"), rows=((fine,),), urgency=Urgency.TIMED)
        else:
            orient(turn, part("silence.nudge"), urgency=Urgency.TIMED)
    elif stage.rung >= CHECKED and silent >= rungs.close_after:
        stopping.silent(turn)


def _check(position: Position) -> str:
    return "silence.check.standing" if position is Position.STANDING else "silence.check"
