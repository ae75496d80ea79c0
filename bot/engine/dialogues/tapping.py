"""What a tap leads to. Its token may be old, forged or nonsense."""

from typing import Final

from bot.engine.dialogues import (
    anywhere,
    corrections,
    opening,
    orientation,
    pacing,
    stopping,
    symptoms,
)
from bot.engine.hearing import SymptomHeard
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ChoosingLanguage,
    ConfirmingReading,
    ConfirmingStop,
    FixingReading,
    NamingSymptom,
    RatingSymptom,
)
from bot.engine.turn import Turn, part
from bot.protocol.record import AgeBand, StopReason, Symptom

_STRENGTHS: Final = frozenset(str(n) for n in range(11))
_SYMPTOMS: Final = frozenset(symptom.value for symptom in Symptom)
_AGE_BANDS: Final = frozenset(band.value for band in AgeBand)
_STOP_REASONS: Final = frozenset(reason.value for reason in StopReason)


def choice_tapped(turn: Turn, token: str) -> None:
    """Take a tap: an answer to the open question, or a button that is always good."""
    if token == turn.conversation.answered:
        return
    question, _, choice = token.rpartition(":")
    if not question or question == "fix":
        if not anywhere.tap(turn, question, choice):
            orientation.orient(turn, part("stale"))
        return
    if question == asked_by_aside(turn.conversation):
        taken = _answer_aside(turn, choice)
    elif question == asked_by_stage(turn.conversation):
        turn.put(None)
        taken = _answer_stage(turn, choice)
    else:
        taken = False
    if taken:
        turn.answer_taken(token)
    else:
        orientation.orient(turn, part("stale"))


def _answer_aside(turn: Turn, choice: str) -> bool:
    match turn.aside:
        case ChoosingLanguage() if choice in turn.context.languages:
            anywhere.speak(turn, choice)
        case NamingSymptom() if choice == orientation.NO:
            anywhere.leave(turn)
        case NamingSymptom() if choice in _SYMPTOMS:
            heard = SymptomHeard(symptom=Symptom(choice), strength=None)
            symptoms.tell(turn, (heard,), None)
        case RatingSymptom() as aside if choice in _STRENGTHS:
            symptoms.take_strength(turn, aside, int(choice))
        case FixingReading() if choice == orientation.NO:
            anywhere.leave(turn)
        case ConfirmingReading() as aside if choice == orientation.YES:
            corrections.confirm(turn, aside)
        case ConfirmingReading() as aside if choice == orientation.NO:
            corrections.deny(turn, aside)
        case ConfirmingStop() if choice in (orientation.YES, orientation.NO):
            anywhere.stop_meant(turn, meant=choice == orientation.YES)
        case _:
            return False
    return True


def _answer_stage(turn: Turn, choice: str) -> bool:
    match turn.stage:
        case AwaitingAgeBand() if choice in _AGE_BANDS:
            opening.take_age_band(turn, AgeBand(choice))
        case AwaitingReady() if choice == orientation.READY:
            opening.start_test(turn)
        case AwaitingPosition() as stage if choice == orientation.IN_POSITION:
            pacing.start_clock(turn, stage)
        case AwaitingPosition() | AwaitingReading() if choice == orientation.FINE:
            orientation.orient(turn, part("silence.good"))
        case AwaitingStopReason() as stage if choice in _STOP_REASONS:
            stopping.take_reason(turn, stage, StopReason(choice))
        case _:
            return False
    return True
