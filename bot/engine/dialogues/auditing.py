"""How the preparation went, asked right before the test; departures travel with the result."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.booking.plan import Booking
from bot.engine.asides import Question
from bot.engine.buttons import part
from bot.engine.context import Opening
from bot.engine.dialogues import planning
from bot.engine.dialogues.daybook import stopped_today
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Part
from bot.engine.state import Auditing, AwaitingReady, Booked, Enrolling, Planning
from bot.engine.turn import Turn
from bot.protocol.circumstances import Circumstances, Cuff, Departure, LastDose, RateSource

HOLDS_FOR: Final = timedelta(hours=3)
"""How long answers about the preparation hold: that is the time without caffeine (design choice
after the hours of an autonomic-laboratory page)."""


def begin(turn: Turn, *first: Part) -> None:
    """Begin a test now: the short audit first, where one is wanted.

    A consent text that has changed since is put before it. Where a test was stopped for safety on
    this day, that is said first.
    """
    turn.know(repeat_offered_at=None, done_at=None)
    match turn.stage:
        case Booked():
            turn.set_resume()  # the booking stands until the test has begun
        case Planning(moving=Booking() as booking, sent=sent, looked_at=looked_at):
            turn.move(Booked(booking=booking, sent=sent, looked_at=looked_at))
            turn.set_resume()
        case _:
            pass
    if turn.context.opening is Opening.SHORT:
        turn.move(AwaitingReady())
        orient(turn)
        return
    profile = turn.conversation.profile
    if turn.consent_outdated:
        turn.move(Enrolling(question=Question.CONSENT))
        orient(turn, part("consent.changed"))
        return
    circumstances = Circumstances(
        zone=profile.zone,
        cuff=profile.cuff,
        rate_source=profile.rate_source,
        medicines=profile.medicines,
    )
    turn.move(Auditing(question=Question.SAME_KIT, circumstances=circumstances, since=turn.at))
    if stopped_today(turn):
        first = (part("repeat.rest-first"), *first)
    if profile.tests:
        orient(turn, *first)
    else:
        _ask_preparation(turn, circumstances, *first)


def _ask(turn: Turn, question: Question, known: Circumstances, *first: Part) -> None:
    assert isinstance(turn.stage, Auditing)
    turn.move(replace(turn.stage, question=question, circumstances=known, ticked=()))
    orient(turn, *first)


def _ask_preparation(turn: Turn, known: Circumstances, *first: Part) -> None:
    _ask(turn, Question.LAST_DOSE if known.medicines else Question.DEPARTURES, known, *first)


def outdated(turn: Turn, since: datetime | None) -> bool:
    """Whether the answers are too old to hold for a test now."""
    return since is not None and turn.at - since > HOLDS_FOR


def take_choice(turn: Turn, stage: Auditing, choice: str) -> bool:
    """Take a choice of a question that is picked from."""
    if outdated(turn, stage.since):
        begin(turn, part("audit.anew"))
        return True
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
            turn.go_back()
            planning.begin(turn, part("ill.rest-first"))
        case Question.ILL_TODAY:
            _ready(turn, stage, stage.circumstances)
        case _:
            return False
    return True


def take_ticks(turn: Turn, stage: Auditing, ticked: tuple[str, ...]) -> bool:
    """Take what differed from the preparation."""
    if stage.question is not Question.DEPARTURES:
        return False
    if outdated(turn, stage.since):
        begin(turn, part("audit.anew"))
        return True
    departures = tuple(Departure(t) for t in ticked)
    known = replace(stage.circumstances, departures=departures, audited=True)
    if Departure.ILLNESS in departures:
        _ask(turn, Question.ILL_TODAY, known)
    else:
        _ready(turn, stage, known)
    return True


def _ready(turn: Turn, stage: Auditing, circumstances: Circumstances) -> None:
    """Go on to the test itself."""
    turn.move(AwaitingReady(circumstances=circumstances, since=stage.since))
    first = (part("audit.noted"),) if circumstances.departures else ()
    orient(turn, *first)
