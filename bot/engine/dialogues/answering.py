"""Typed answers to the questions between two tests, and what is typed while nothing is asked.

A question that is open is put again after anything that does not answer it, unless it is plain
that something else is meant: a day, or a button under a reminder.
"""

import re
from typing import Final

from bot import distress
from bot.engine import hearing
from bot.engine.asides import Asking, Question
from bot.engine.buttons import part
from bot.engine.dialogues import (
    anywhere,
    auditing,
    between,
    enrolment,
    planning,
    reminding,
    results,
    standing,
    watching,
)
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import picked
from bot.engine.options import OPTIONS
from bot.engine.scores import hour, score
from bot.engine.state import Booked, Enrolling, Finished, Idle, Planning
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word

_STOP_ASKING: Final = (
    "stop asking", "dont ask", "do not ask", "no more questions", "stop the questions",
    "deje de preguntar", "no me pregunte", "no pregunte", "no mas preguntas",
)  # fmt: skip
_DAILY: Final = frozenset({
    Question.DAY_SCORE, Question.WATCH, Question.WATCH_HOUR, Question.WATCH_LINE,
})  # fmt: skip
_TEST: Final = re.compile(r"(?:test|prueba) (\d{1,4})", re.ASCII)
_NUMBER: Final = re.compile(r"\d{1,4}", re.ASCII)
_NOT_NOW: Final = frozenset({"not now", "later", "ahora no", "mas tarde", "despues", "not today"})


def stops(turn: Turn, text: str) -> bool:
    """Take words to stop that are meant for a question or for choosing a time, not for a test.

    Returns False where a test could be meant, or where help might be needed.
    """
    if turn.running is not None or distress.hear_all(text):
        return False
    stop = hearing.stop(text)
    match turn.aside, turn.stage:
        case Asking(question=question), _ if question in _DAILY:
            if not stop and not _asks_to_stop(text):
                return False
            turn.know(watch_asked=False)
            turn.drop()
            reminding.pause(turn, paused=True)
        case Asking(question=Question.REPEAT), _ if stop:
            between.take_repeat(turn, "not-today")
        case None, Planning() as stage if stop:
            planning.leave(turn, stage)
        case None, Enrolling(question=Question.CONSENT) if stop and _has_booking(turn):
            turn.go_back()
            orient(turn, part("left"))
        case _:
            return False
    return True


def _has_booking(turn: Turn) -> bool:
    return standing.booking_of(turn.conversation.resumes) is not None


def _asks_to_stop(text: str) -> bool:
    plain = hearing.normalised(text)
    return any(phrase in plain for phrase in _STOP_ASKING)


def to_question(turn: Turn, aside: Asking, text: str, heard: Word | None) -> bool:
    """Take what was typed while a question between two tests is open. False if it is no answer."""
    question = aside.question
    on_button = isinstance(turn.stage, Booked) and reminding.named(text) is not None
    if on_button and question is not Question.REPEAT:
        return False
    choice = picked(question, text)
    match question:
        case Question.DAY_SCORE | Question.WATCH_LINE if choice is None:
            said = score(text)
            choice = None if said is None else str(said)
        case Question.WATCH_HOUR:
            said_hour = hour(text)
            if said_hour is not None:
                watching.take_hour(turn, said_hour)
                return True
        case Question.REPEAT if choice is None and heard is Word.YES:
            orient(turn, part("repeat.when"))
            return True
        case Question.REPEAT if choice is None and heard is None:
            if planning.begin_with_words(turn, text, today=True):
                return True
        case _:
            pass
    if choice is not None:
        anywhere.answer_asking(turn, aside, choice)
    elif heard in (Word.CANCEL, Word.NO):
        anywhere.leave_asking(turn, aside)
    else:
        return False
    return True


def when_free(turn: Turn, text: str, heard: Word | None) -> bool:
    """Take what was typed while nothing is under way. Returns False if it says nothing."""
    profile = turn.conversation.profile
    if not profile.enrolled or not profile.suitable:
        if isinstance(turn.stage, Idle):
            enrolment.begin(turn)
        return isinstance(turn.stage, Idle)
    if heard is None and distress.unwell(text):
        between.feels_bad(turn)
        return True
    asked = isinstance(turn.aside, Asking)
    if not asked and _show_named(turn, text):
        return True
    if not asked and heard is not None:
        orient(turn)
        return True
    # Where numbers could be a late reading, or an answer, a day has to be named.
    if (asked or isinstance(turn.stage, Finished)) and not planning.says_day(turn, text):
        return False
    return planning.begin_with_words(turn, text)


def while_booked(turn: Turn, stage: Booked, text: str, heard: Word | None) -> bool:
    """Take what was typed while a test is booked. Returns False if it says nothing."""
    if turn.aside is None and _show_named(turn, text):
        return True
    if heard is None and distress.unwell(text):
        between.feels_bad(turn)
        return True
    button = reminding.named(text) is not None
    if isinstance(turn.aside, Asking) and not button and not planning.says_day(turn, text):
        return False
    return reminding.take_words(turn, stage, text, heard)


def while_planning(turn: Turn, stage: Planning, text: str, heard: Word | None) -> bool:
    """Take what was typed while day and time are chosen. Returns False if it says neither."""
    plain = hearing.normalised(text)
    away = heard is Word.NO or plain in _NOT_NOW
    if stage.at is not None and heard in (Word.YES, Word.NO):
        return planning.take_choice(turn, stage, "yes" if heard is Word.YES else "no")
    if heard is Word.READY or plain in OPTIONS["button.do-it-now"]:
        auditing.begin(turn)
        return True
    if away:
        planning.leave(turn, stage)
        return True
    return planning.take_words(turn, stage, text)


def _show_named(turn: Turn, text: str) -> bool:
    """Show the test whose number was typed, as the list of results shows it."""
    plain = hearing.normalised(text)
    named = _TEST.fullmatch(plain)
    number = named[1] if named else plain if _NUMBER.fullmatch(plain) else None
    if number is None or len([t for t in turn.conversation.profile.tests if t.measured]) < 2:
        return False
    return results.show_named(turn, int(number), sure=named is not None)
