"""What a tap leads to. Its token may be old, forged or nonsense."""

from dataclasses import replace
from datetime import timedelta
from typing import Final

from bot.engine.asides import (
    Asking,
    ChoosingLanguage,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    FixingReading,
    NamingSymptom,
    PlacingReading,
    Question,
    RatingSymptom,
)
from bot.engine.buttons import MORE, part
from bot.engine.dialogues import (
    anywhere,
    auditing,
    corrections,
    enrolment,
    opening,
    orientation,
    pacing,
    paper,
    planning,
    readings,
    recovering,
    reminding,
    silence,
    stopping,
    symptoms,
    trial,
)
from bot.engine.dialogues.offers import NOW
from bot.engine.dialogues.questionnaire import DONE, SHAPES, Pick, Tick, Typed
from bot.engine.effects import Urgency
from bot.engine.hearing import SymptomHeard
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.state import (
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Enrolling,
    Held,
    Planning,
    Resting,
)
from bot.engine.turn import Turn
from bot.protocol.record import AgeBand, StopReason, Symptom

DOUBLE_TAP: Final = timedelta(seconds=5)
"""A second tap on the same button within this time is the same tap (design choice)."""

_STRENGTHS: Final = frozenset(str(n) for n in range(11))
_SYMPTOMS: Final = frozenset(symptom.value for symptom in Symptom)
_AGE_BANDS: Final = frozenset(band.value for band in AgeBand)
_STOP_REASONS: Final = frozenset(reason.value for reason in StopReason)


def choice_tapped(turn: Turn, token: str) -> None:
    """Take a tap: an answer to the open question, or a button that is always good."""
    answered_at = turn.conversation.answered_at
    again = token == turn.conversation.answered
    if again and answered_at is not None and turn.at - answered_at <= DOUBLE_TAP:
        return
    question, _, choice = token.rpartition(":")
    if question in ("", "fix", "use", "result", MORE):
        if not anywhere.tap(turn, question, choice):
            orientation.orient(turn, part("stale"))
        return
    ticking = _is_tick(turn, question, choice)
    if question == recovering.asked(turn.conversation):
        taken = recovering.tap(turn, choice)
    elif question == asked_by_aside(turn.conversation):
        taken = _answer_aside(turn, choice)
    elif question == asked_by_stage(turn.conversation):
        if choice != orientation.FINE:
            turn.drop()
        taken = _answer_stage(turn, choice)
    elif choice == orientation.FINE and turn.running is not None:
        silence.all_well(turn)  # an answer that comes late is still a sign of life
        return
    else:
        taken = False
    if not taken:
        orientation.orient(turn, part("stale"))
    elif not ticking:
        turn.answer_taken(token)


def _is_tick(turn: Turn, question: str, choice: str) -> bool:
    """Whether the tap ticks a box: it is taken back by another tap on the same button."""
    stage = turn.stage
    if question != asked_by_stage(turn.conversation) or not isinstance(stage, Enrolling | Auditing):
        return False
    return isinstance(SHAPES[stage.question], Tick) and choice != DONE


def _answer_aside(turn: Turn, choice: str) -> bool:
    match turn.aside:
        case Asking() as aside if choice in _choices(aside.question):
            anywhere.answer_asking(turn, aside, choice)
        case ChoosingLanguage() if choice in turn.context.languages:
            anywhere.speak(turn, choice)
        case NamingSymptom() if choice == orientation.NO:
            anywhere.leave(turn)
        case NamingSymptom(doubted=doubted) if choice in _SYMPTOMS:
            heard = SymptomHeard(symptom=Symptom(choice), strength=None)
            symptoms.tell(turn, (heard,), None)
            readings.weigh(turn, doubted)
        case RatingSymptom() as aside if choice in _STRENGTHS:
            symptoms.take_strength(turn, aside, int(choice))
        case FixingReading() if choice == orientation.NO:
            anywhere.leave(turn)
        case PlacingReading() as aside if choice in (orientation.NOW, orientation.EARLIER):
            corrections.place(turn, aside, earlier=choice == orientation.EARLIER)
        case ConfirmingReading() as aside if choice == orientation.YES:
            corrections.confirm(turn, aside)
        case ConfirmingReading() as aside if choice == orientation.NO:
            corrections.deny(turn, aside)
        case ConfirmingDistress(grade=grade) if choice in (orientation.YES, orientation.NO):
            anywhere.help_meant(turn, grade, meant=choice == orientation.YES)
        case ConfirmingStop() if choice in (orientation.YES, orientation.NO):
            anywhere.stop_meant(turn, meant=choice == orientation.YES)
        case _:
            return False
    return True


def _choices(question: Question) -> tuple[str, ...]:
    match SHAPES[question]:
        case Pick(choices=choices):
            return choices
        case Tick(choices=choices):
            return (*choices, DONE)
        case Typed():
            return ()


def _answer_question(turn: Turn, stage: Enrolling | Auditing, choice: str) -> bool:
    if not isinstance(SHAPES[stage.question], Tick):
        match stage:
            case Enrolling():
                return enrolment.take_choice(turn, stage, choice)
            case Auditing():
                return auditing.take_choice(turn, stage, choice)
    if choice == DONE:
        match stage:
            case Enrolling():
                return enrolment.take_ticks(turn, stage, stage.ticked)
            case Auditing():
                return auditing.take_ticks(turn, stage, stage.ticked)
    turned = tuple(t for t in stage.ticked if t != choice)
    if turned == stage.ticked:
        turned = (*stage.ticked, choice)
    ticked = replace(stage, ticked=turned)
    turn.stay(ticked)
    parts, rows = orientation.question_of(ticked)
    turn.revise(stage.number, *parts, rows=rows, urgency=Urgency.REPLY)
    return True


def _answer_stage(turn: Turn, choice: str) -> bool:
    match turn.stage:
        case AwaitingAgeBand() if choice in _AGE_BANDS:
            opening.take_age_band(turn, AgeBand(choice))
        case Enrolling(question=Question.TRIAL) as stage:
            return trial.take_choice(turn, stage, choice)
        case Enrolling() | Auditing() as stage if choice in _choices(stage.question):
            return _answer_question(turn, stage, choice)
        case Held() if choice == orientation.AGAIN:
            enrolment.ask_hazards_again(turn)
        case ChoosingPlace() as stage:
            return enrolment.take_place(turn, stage, choice)
        case Planning(day=None, at=None) if choice == NOW:
            auditing.begin(turn)
        case Planning() as stage:
            return planning.take_choice(turn, stage, choice)
        case Booked() as stage:
            return reminding.take_choice(turn, stage, choice)
        case AwaitingReady() as stage if choice == orientation.READY:
            opening.start_test(turn, stage)
        case AwaitingPosition() as stage if choice == orientation.IN_POSITION:
            pacing.start_clock(turn, stage)
        case AwaitingPosition() | AwaitingReading() | Resting() if choice == orientation.FINE:
            silence.all_well(turn)
        case AwaitingPosition() | AwaitingReading() | Resting() if choice == orientation.UNWELL:
            stopping.unwell(turn)
        case AwaitingStopReason() as stage if choice in _STOP_REASONS:
            stopping.take_reason(turn, stage, StopReason(choice))
        case DatingPaper() as stage:
            return paper.take_date_choice(turn, stage, choice)
        case CopyingPaper() as stage:
            return paper.take_choice(turn, stage, choice)
        case _:
            return False
    return True
