"""What the words that a person types lead to. Calls for help are heard before anything else."""

from dataclasses import replace
from typing import assert_never

from bot.engine import hearing
from bot.engine.asides import (
    Asking,
    ChoosingLanguage,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    Draft,
    FixingReading,
    NamingSymptom,
    PlacingReading,
    Question,
    RatingSymptom,
)
from bot.engine.buttons import part
from bot.engine.dialogues import (
    answering,
    anywhere,
    auditing,
    calls,
    corrections,
    enrolment,
    opening,
    orientation,
    pacing,
    paper,
    readings,
    recovering,
    silence,
    stopping,
    symptoms,
    trial,
    unplaced,
)
from bot.engine.dialogues.questionnaire import picked, ticks
from bot.engine.dialogues.readings import Typed
from bot.engine.hearing import SymptomHeard
from bot.engine.options import OPTIONS
from bot.engine.paper import CopyingPaper, DatingPaper
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
    Finished,
    Held,
    Idle,
    Planning,
    Resting,
)
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.record import Symptom


def words_given(turn: Turn, typed: Typed) -> None:
    """Take what was typed: safety, the open question, words for anywhere, then the stage."""
    if answering.stops(turn, typed.text) or calls.answer(turn, typed):
        return
    if pacing.lost_track(turn):
        pacing.give_up(turn)
        return
    _words_taken(turn, typed)
    stopping.line_with_symptoms(turn)  # a symptom beside words that led elsewhere
    match turn.stage:
        case AwaitingReading() as stage if typed.source not in stage.draft.sources:
            turn.stay(replace(stage, unread=(*stage.unread[-4:], typed.source)))
        case _:
            pass


def _words_taken(turn: Turn, typed: Typed) -> None:
    if turn.was_checked and hearing.word(typed.text) in (Word.FINE, Word.YES):
        silence.all_well(turn)
        return
    if recovering.take_words(turn, typed.text, typed.source):
        return
    heard = hearing.word(typed.text)
    if heard is Word.WAIT:
        orientation.orient(turn, part("take-your-time"))
        return
    if turn.aside is not None and _words_to_aside(turn, typed):
        return
    if heard is not None and anywhere.hear(turn, heard):
        return
    if _words_to_stage(turn, typed, heard):
        return
    if told := hearing.symptoms(typed.text):
        doubted = turn.aside
        symptoms.tell(turn, told, typed.text)
        readings.let_go(turn, doubted)
        return
    orientation.orient(turn, part("not-understood"))


def _words_to_aside(turn: Turn, typed: Typed) -> bool:
    heard = hearing.word(typed.text)
    match turn.aside:
        case None | ChoosingLanguage():
            return False
        case Asking() as aside:
            return answering.to_question(turn, aside, typed.text, heard)
        case NamingSymptom(doubted=doubted):
            return _name_symptom(turn, typed, heard, doubted)
        case RatingSymptom() as aside:
            strength = hearing.strength(typed.text)
            if strength is None:
                turn.drop()
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
            elif heard is None and aside.target is not None:
                return corrections.take_fix(turn, FixingReading(number=aside.target), typed)
            else:
                return False
            return True
        case PlacingReading() as aside:
            return _place(turn, aside, typed)
        case ConfirmingDistress(grade=grade):
            if heard in (Word.YES, Word.NO, Word.FINE):
                anywhere.help_meant(turn, grade, meant=heard is Word.YES)
                return True
            return False
        case ConfirmingStop():
            if heard not in (Word.YES, Word.NO):
                return False
            anywhere.stop_meant(turn, meant=heard is Word.YES)
            return True
        case _:
            assert_never(turn.aside)


def _place(turn: Turn, aside: PlacingReading, typed: Typed) -> bool:
    """Take the answer to which of two readings the numbers are, as typed."""
    plain = hearing.normalised(typed.text)
    if plain in OPTIONS["place.now"]:
        corrections.place(turn, aside, earlier=False)
    elif plain in OPTIONS["place.earlier"]:
        corrections.place(turn, aside, earlier=True)
    else:
        return False
    return True


def _name_symptom(turn: Turn, typed: Typed, heard: Word | None, doubted: Draft | None) -> bool:
    if heard is Word.NO:
        anywhere.leave(turn)
        return True
    if heard is not None:
        turn.drop()
        return False
    told = hearing.symptoms(typed.text)
    if not told and readings.take(turn, typed):
        return True
    symptoms.tell(turn, told or (SymptomHeard(symptom=Symptom.OTHER, strength=None),), typed.text)
    readings.weigh(turn, doubted)
    return True


def _words_to_stage(turn: Turn, typed: Typed, heard: Word | None) -> bool:
    match turn.stage:
        case Idle():
            return answering.when_free(turn, typed.text, heard)
        case Enrolling() | ChoosingPlace() if heard is Word.NO and turn.asked_about_zone:
            turn.go_back()
            orientation.orient(turn, part("left"))
            return True
        case Enrolling() | Auditing() as stage:
            return _words_to_question(turn, stage, typed, heard)
        case ChoosingPlace() as stage:
            return enrolment.take_place_words(turn, stage, typed.text)
        case Held():
            return enrolment.take_held_words(turn, typed.text)
        case Planning() as stage:
            return answering.while_planning(turn, stage, typed.text, heard)
        case Booked() as stage:
            return answering.while_booked(turn, stage, typed.text, heard)
        case AwaitingAgeBand():
            band = hearing.age_band(typed.text)
            if band is not None:
                opening.take_age_band(turn, band)
            return band is not None
        case AwaitingReady() as stage:
            band = hearing.age_band(typed.text)
            if band is not None:
                opening.take_age_band(turn, band)
                return True
            ready = heard in (Word.READY, Word.YES, Word.START, Word.FINE)
            if ready:
                opening.start_test(turn, stage)
            return ready
        case AwaitingPosition() as stage:
            there = heard in (Word.READY, Word(stage.phase.position.value))
            if there:
                pacing.start_clock(turn, stage)
            elif heard is Word.FINE:
                orientation.orient(turn, part("silence.good"))
            else:
                return unplaced.before_position(turn, stage, typed)
            return True
        case AwaitingReading():
            if heard in (Word.FINE, Word.YES):
                orientation.orient(turn, part("silence.good"))
                return True
            return readings.take(turn, typed)
        case Resting():
            if heard in (Word.FINE, Word.YES):
                silence.all_well(turn)
                return True
            if (number := readings.corrects(turn, typed)) is not None:
                return corrections.take_fix(turn, FixingReading(number=number), typed)
            return readings.take(turn, typed)
        case AwaitingStopReason() | Finished() if unplaced.after_the_end(turn, typed):
            return True
        case AwaitingStopReason() as stage:
            stopping.take_words(turn, stage, typed.text)
            return True
        case Finished():
            return answering.when_free(turn, typed.text, heard)
        case DatingPaper() as stage:
            return paper.take_date_words(turn, stage, typed.text, heard)
        case CopyingPaper() as stage:
            return paper.take_words(turn, stage, typed, heard)
        case _:
            assert_never(turn.stage)


def _words_to_question(
    turn: Turn, stage: Enrolling | Auditing, typed: Typed, heard: Word | None
) -> bool:
    match stage:
        case Enrolling(question=Question.LOCAL_TIME):
            return enrolment.take_local_time(turn, typed.text)
        case Enrolling(question=Question.TRIAL):
            return trial.take_words(turn, stage, typed.text, typed.source, heard)
        case Enrolling(question=Question.AGE):
            band = hearing.age_band(typed.text)
            choice = None if band is None else band.value
        case _:
            choice = picked(stage.question, typed.text)
    ticked = ticks(stage.question, typed.text)
    match stage:
        case Enrolling():
            if ticked is not None:
                return enrolment.take_ticks(turn, stage, (*stage.ticked, *ticked))
            return choice is not None and enrolment.take_choice(turn, stage, choice)
        case Auditing():
            if ticked is not None:
                return auditing.take_ticks(turn, stage, (*stage.ticked, *ticked))
            return choice is not None and auditing.take_choice(turn, stage, choice)


def words_edited(turn: Turn, typed: Typed) -> None:
    """Take a message as it was changed: a call for help is heard in it as in any other."""
    if calls.answer(turn, typed, edited=True):
        return
    if not (isinstance(turn.stage, CopyingPaper) and paper.take_edit(turn, turn.stage, typed)):
        corrections.take_edit(turn, typed)
