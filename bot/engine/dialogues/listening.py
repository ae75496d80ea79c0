"""What the words that a person types lead to. Calls for help are heard before anything else."""

from dataclasses import replace
from typing import assert_never

from bot.engine import hearing
from bot.engine.dialogues import (
    anywhere,
    auditing,
    corrections,
    enrolment,
    opening,
    orientation,
    pacing,
    planning,
    readings,
    reminding,
    stopping,
    symptoms,
)
from bot.engine.dialogues.questionnaire import is_label, picked, ticks
from bot.engine.dialogues.readings import Typed
from bot.engine.hearing import SymptomHeard
from bot.engine.options import OPTIONS
from bot.engine.state import (
    Asking,
    Auditing,
    AwaitingAgeBand,
    AwaitingPosition,
    AwaitingReading,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingLanguage,
    ChoosingPlace,
    ConfirmingReading,
    ConfirmingStop,
    Enrolling,
    Finished,
    FixingReading,
    Held,
    Idle,
    NamingSymptom,
    PlacingReading,
    Planning,
    Question,
    RatingSymptom,
    Resting,
)
from bot.engine.turn import Turn, part
from bot.engine.vocabulary import Word
from bot.protocol.definition import Position
from bot.protocol.record import Symptom


def words_given(turn: Turn, typed: Typed) -> None:
    """Take what was typed: safety, the open question, words for anywhere, then the stage."""
    if _safety(turn, typed):
        return
    if pacing.lost_track(turn):
        pacing.give_up(turn)
        return
    _words_taken(turn, typed)
    match turn.stage:
        case AwaitingReading() as stage if typed.source not in stage.draft.sources:
            turn.stay(replace(stage, unread=(*stage.unread[-4:], typed.source)))
        case _:
            pass


def _words_taken(turn: Turn, typed: Typed) -> None:
    if turn.was_checked and hearing.word(typed.text) in (Word.FINE, Word.YES):
        orientation.orient(turn, part("silence.good"))
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
    text = typed.text
    if _answers_checklist(turn, text):
        return False
    if hearing.emergency(text):
        readings.keep_aside(turn, typed)
        stopping.emergency(turn)
    elif hearing.near_faint(text):
        readings.keep_aside(turn, typed)
        stopping.near_faint(turn, text)
    elif hearing.stop(text):
        readings.keep_aside(turn, typed)
        stopping.stop(turn)
    elif turn.running is not None and _not_all_right(turn, text):
        stopping.unwell(turn)
    elif _no_longer_standing(turn, text):
        stopping.stop(turn)
    elif turn.running is not None and (hearing.perhaps_stop(text) or hearing.unwell(text)):
        _perhaps_stop(turn, typed)
    else:
        return False
    return True


def _no_longer_standing(turn: Turn, text: str) -> bool:
    """Whether somebody who should be standing says that they lie or sit."""
    clock = stopping.on_the_clock(turn)
    standing = clock is not None and clock.phase.position is Position.STANDING
    return standing and hearing.word(text) in (Word.SUPINE, Word.SEATED)


def _answers_checklist(turn: Turn, text: str) -> bool:
    """Whether the text is just what an answer is called, such as "fainted while standing"."""
    match turn.stage:
        case Enrolling(question=question) | Auditing(question=question):
            return is_label(question, text)
        case _:
            return False


def _not_all_right(turn: Turn, text: str) -> bool:
    """Whether "are you all right?" was answered with no."""
    return turn.was_checked and (hearing.word(text) is Word.NO or hearing.unwell(text))


def _perhaps_stop(turn: Turn, typed: Typed) -> None:
    """Take a reading in the same message as usual, then ask whether stop was meant."""
    whole = hearing.holds_number(typed.text) and readings.take(turn, typed)
    if turn.running is None:
        return
    if not whole or turn.aside is None:
        turn.put(ConfirmingStop(asked_at=turn.at))
        orientation.orient(turn)


def _words_to_aside(turn: Turn, typed: Typed) -> bool:
    heard = hearing.word(typed.text)
    match turn.aside:
        case None | ChoosingLanguage():
            return False
        case Asking(question=question) as aside:
            choice = picked(question, typed.text)
            if choice is None and heard in (Word.CANCEL, Word.NO):
                anywhere.leave(turn)
                return True
            if choice is not None:
                anywhere.answer_asking(turn, aside, choice)
            return choice is not None
        case NamingSymptom():
            return _name_symptom(turn, typed, heard)
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


def _name_symptom(turn: Turn, typed: Typed, heard: Word | None) -> bool:
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
    return True


def _words_to_stage(turn: Turn, typed: Typed, heard: Word | None) -> bool:
    match turn.stage:
        case Idle() if heard in (Word.NO, Word.FINE) and turn.conversation.profile.enrolled:
            orientation.orient(turn)
            return True
        case Idle():
            if not (enrolment.may_book(turn) and planning.begin_with_words(turn, typed.text)):
                enrolment.begin(turn)
            return True
        case Enrolling() | ChoosingPlace() if heard is Word.NO and turn.asked_about_zone:
            turn.go_back()
            orientation.orient(turn, part("left"))
            return True
        case Enrolling() | Auditing() as stage:
            return _words_to_question(turn, stage, typed)
        case ChoosingPlace():
            return enrolment.take_local_time(turn, typed.text)
        case Held():
            return False
        case Planning(day=None, at=None) if heard is Word.READY:
            auditing.begin(turn)
            return True
        case Planning(at=at) as stage if at is not None and heard in (Word.YES, Word.NO):
            return planning.take_choice(
                turn, stage, orientation.YES if heard is Word.YES else orientation.NO
            )
        case Planning() as stage:
            return planning.take_words(turn, stage, typed.text)
        case Booked() as stage:
            return reminding.take_words(turn, stage, typed.text, heard)
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
            return there or heard is Word.FINE
        case AwaitingReading():
            if heard in (Word.FINE, Word.YES):
                orientation.orient(turn, part("silence.good"))
                return True
            return readings.take(turn, typed)
        case Resting():
            return readings.take(turn, typed)
        case AwaitingStopReason() as stage:
            stopping.take_words(turn, stage, typed.text)
            return True
        case Finished():
            return False
        case _:
            assert_never(turn.stage)


def _words_to_question(turn: Turn, stage: Enrolling | Auditing, typed: Typed) -> bool:
    match stage:
        case Enrolling(question=Question.LOCAL_TIME):
            return enrolment.take_local_time(turn, typed.text)
        case Enrolling(question=Question.TRIAL):
            return enrolment.take_trial(turn, stage, typed.text, typed.source)
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
    if hearing.emergency(typed.text):
        stopping.emergency(turn)
    elif hearing.near_faint(typed.text):
        stopping.near_faint(turn)
    elif turn.running is not None and hearing.stop(typed.text):
        stopping.stop(turn)
    elif turn.running is not None and _not_all_right(turn, typed.text):
        stopping.unwell(turn)
    elif turn.running is not None and (
        hearing.perhaps_stop(typed.text) or hearing.unwell(typed.text)
    ):
        turn.put(ConfirmingStop(asked_at=turn.at))
        orientation.orient(turn)
    else:
        corrections.take_edit(turn, typed)
