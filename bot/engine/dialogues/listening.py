"""What the words that a person types lead to. Calls for help are heard before anything else."""

from typing import assert_never

from bot.engine import hearing
from bot.engine.dialogues import (
    anywhere,
    corrections,
    opening,
    orientation,
    pacing,
    readings,
    stopping,
    symptoms,
)
from bot.engine.dialogues.readings import Typed
from bot.engine.hearing import SymptomHeard
from bot.engine.state import (
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    ChoosingLanguage,
    ConfirmingReading,
    ConfirmingStop,
    Finished,
    FixingReading,
    Idle,
    NamingSymptom,
    RatingSymptom,
    Resting,
)
from bot.engine.turn import Turn, part
from bot.engine.vocabulary import Word
from bot.protocol.record import StopReason, Symptom


def words_given(turn: Turn, typed: Typed) -> None:
    """Take what was typed: safety, the open question, words for anywhere, then the stage."""
    if _safety(turn, typed):
        return
    if turn.aside is not None and _words_to_aside(turn, typed):
        return
    heard = hearing.word(typed.text)
    if heard is not None and anywhere.hear(turn, heard):
        return
    if _words_to_stage(turn, typed, heard):
        return
    if told := hearing.symptoms(typed.text):
        symptoms.tell(turn, told, typed.text)
        return
    orientation.orient(turn, part("not-understood"))


def _safety(turn: Turn, typed: Typed) -> bool:
    """Answer words that cannot wait. A whole reading in the same message is kept all the same."""
    if hearing.emergency(typed.text):
        readings.keep_aside(turn, typed)
        stopping.emergency(turn)
    elif hearing.near_faint(typed.text):
        readings.keep_aside(turn, typed)
        stopping.near_faint(turn)
    elif hearing.word(typed.text) is Word.STOP:
        stopping.stop(turn)
    elif turn.running is not None and hearing.perhaps_stop(typed.text):
        readings.keep_aside(turn, typed)
        turn.put(ConfirmingStop(asked_at=turn.at))
        orientation.orient(turn)
    else:
        return False
    return True


def _words_to_aside(turn: Turn, typed: Typed) -> bool:
    heard = hearing.word(typed.text)
    match turn.aside:
        case None | ChoosingLanguage():
            return False
        case NamingSymptom():
            return _name_symptom(turn, typed, heard)
        case RatingSymptom() as aside:
            strength = hearing.strength(typed.text)
            if strength is None:
                turn.put(None)
                return False
            symptoms.take_strength(turn, aside, strength)
            return True
        case FixingReading() as aside:
            if heard is Word.NO:
                anywhere.leave(turn)
                return True
            return corrections.take_fix(turn, aside, typed)
        case ConfirmingReading() as aside:
            if heard is Word.YES:
                corrections.confirm(turn, aside)
            elif heard is Word.NO:
                corrections.deny(turn, aside)
            elif heard is None and aside.target is None:
                return readings.take(turn, typed)
            else:
                return False
            return True
        case ConfirmingStop():
            if heard not in (Word.YES, Word.NO):
                turn.put(None)
                return False
            anywhere.stop_meant(turn, meant=heard is Word.YES)
            return True
        case _:
            assert_never(turn.aside)


def _name_symptom(turn: Turn, typed: Typed, heard: Word | None) -> bool:
    if heard is Word.NO:
        anywhere.leave(turn)
        return True
    if heard is not None:
        turn.put(None)
        return False
    told = hearing.symptoms(typed.text)
    if not told and readings.take(turn, typed):
        return True
    symptoms.tell(turn, told or (SymptomHeard(symptom=Symptom.OTHER, strength=None),), typed.text)
    return True


def _words_to_stage(turn: Turn, typed: Typed, heard: Word | None) -> bool:
    match turn.stage:
        case Idle():
            opening.begin(turn)
            return True
        case AwaitingAgeBand():
            band = hearing.age_band(typed.text)
            if band is not None:
                opening.take_age_band(turn, band)
            return band is not None
        case AwaitingReady():
            ready = heard in (Word.READY, Word.YES, Word.START, Word.FINE)
            if ready:
                opening.start_test(turn)
            return ready
        case AwaitingPosition() as stage:
            there = heard in (Word.READY, Word.YES, Word(stage.phase.position.value))
            if there:
                pacing.start_clock(turn, stage)
            elif heard is Word.FINE:
                orientation.orient(turn, part("silence.good"))
            return there or heard is Word.FINE
        case AwaitingReading():
            if heard in (Word.FINE, Word.YES):
                orientation.orient(turn, part("silence.good"))
                return True
            return readings.take(turn, typed)
        case Resting():
            return readings.take(turn, typed)
        case AwaitingStopReason() as stage:
            stopping.take_reason(turn, stage, StopReason.OTHER, typed.text)
            return True
        case Finished():
            return False
        case _:
            assert_never(turn.stage)


def words_edited(turn: Turn, typed: Typed) -> None:
    """Take a message as it was changed."""
    if hearing.emergency(typed.text):
        stopping.emergency(turn)
    else:
        corrections.take_edit(turn, typed)
