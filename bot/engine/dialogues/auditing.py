"""How the preparation went, asked right before the test; departures travel with the result."""

from dataclasses import replace

from bot.booking.plan import Booking
from bot.engine.context import Opening
from bot.engine.dialogues import planning
from bot.engine.dialogues.orientation import orient
from bot.engine.state import Auditing, AwaitingReady, Booked, Idle, Planning, Question
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import Circumstances, Cuff, Departure, LastDose, RateSource


def begin(turn: Turn) -> None:
    """Begin a test now: the short audit first, where one is wanted."""
    match turn.stage:
        case Booked():
            turn.set_resume()  # the booking stands until the test has begun
        case Planning(moving=Booking() as booking, sent=sent):
            turn.move(Booked(booking=booking, sent=sent))
            turn.set_resume()
        case _:
            pass
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
    if profile.tests:
        _ask(turn, Question.SAME_KIT, circumstances)
    else:
        _ask_preparation(turn, circumstances)


def _ask(turn: Turn, question: Question, known: Circumstances) -> None:
    turn.move(Auditing(question=question, circumstances=known))
    orient(turn)


def _ask_preparation(turn: Turn, known: Circumstances) -> None:
    _ask(turn, Question.LAST_DOSE if known.medicines else Question.DEPARTURES, known)


def take_choice(turn: Turn, stage: Auditing, choice: str) -> bool:
    """Take a choice of a question that is picked from."""
    match stage.question:
        case Question.SAME_KIT if choice == "changed":
            _ask(turn, Question.CUFF, stage.circumstances)
        case Question.SAME_KIT:
            _ask_preparation(turn, stage.circumstances)
        case Question.CUFF:
            turn.know(cuff=Cuff(choice))
            _ask(turn, Question.RATE_SOURCE, replace(stage.circumstances, cuff=Cuff(choice)))
        case Question.RATE_SOURCE:
            source = RateSource(choice)
            turn.know(rate_source=source)
            _ask_preparation(turn, replace(stage.circumstances, rate_source=source))
        case Question.LAST_DOSE:
            known = replace(stage.circumstances, last_dose=LastDose(choice))
            _ask(turn, Question.DEPARTURES, known)
        case Question.ILL_TODAY if choice == "move":
            turn.move(Idle() if turn.conversation.resumes is None else turn.take_resume())
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
