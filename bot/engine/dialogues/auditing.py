"""How the preparation went, asked right before the test; departures travel with the result."""

from dataclasses import replace

from bot.engine.context import Opening
from bot.engine.dialogues import planning
from bot.engine.dialogues.orientation import orient
from bot.engine.state import Auditing, AwaitingReady, Idle, Question
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import Circumstances, Departure, LastDose


def begin(turn: Turn) -> None:
    """Begin a test now: the short audit first, where one is wanted."""
    if turn.context.opening is Opening.SHORT:
        turn.move(AwaitingReady())
        orient(turn)
        return
    profile = turn.conversation.profile
    circumstances = Circumstances(
        zone=profile.zone,
        cuff=profile.cuff,
        rate_source=profile.rate_source,
        medicines=profile.medicines or (),
    )
    question = Question.LAST_DOSE if circumstances.medicines else Question.DEPARTURES
    turn.move(Auditing(question=question, circumstances=circumstances))
    orient(turn)


def take_choice(turn: Turn, stage: Auditing, choice: str) -> bool:
    """Take a choice of a question that is picked from."""
    match stage.question:
        case Question.LAST_DOSE:
            known = replace(stage.circumstances, last_dose=LastDose(choice))
            turn.move(Auditing(question=Question.DEPARTURES, circumstances=known))
            orient(turn)
        case Question.ILL_TODAY if choice == "move":
            turn.move(Idle())
            planning.begin(turn, part("ill.rest-first"))
        case Question.ILL_TODAY:
            ready(turn, stage.circumstances)
        case _:
            return False
    return True


def take_ticks(turn: Turn, stage: Auditing, ticked: tuple[str, ...]) -> bool:
    """Take what differed from the preparation."""
    if stage.question is not Question.DEPARTURES:
        return False
    departures = tuple(Departure(t) for t in ticked)
    known = replace(stage.circumstances, departures=departures, audited=True)
    if Departure.ILLNESS in departures:
        turn.move(Auditing(question=Question.ILL_TODAY, circumstances=known))
        orient(turn)
    else:
        ready(turn, known)
    return True


def ready(turn: Turn, circumstances: Circumstances) -> None:
    """Go on to the test itself."""
    turn.move(AwaitingReady(circumstances=circumstances))
    first = (part("audit.noted"),) if circumstances.departures else ()
    orient(turn, *first)
