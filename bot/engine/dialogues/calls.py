"""Calls for help, and words that mean stop: heard before any other meaning."""

from bot import distress
from bot.distress import Doubt, Grade, Heard, Kind
from bot.engine import hearing
from bot.engine.asides import (
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    NamingSymptom,
    RatingSymptom,
)
from bot.engine.buttons import part
from bot.engine.dialogues import (
    orientation,
    readings,
    remeasuring,
    stopping,
)
from bot.engine.dialogues.questionnaire import is_label
from bot.engine.dialogues.readings import Typed
from bot.engine.paper import CopyingPaper
from bot.engine.state import Auditing, Enrolling
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.definition import Position
from bot.readings import echo


def answer(turn: Turn, typed: Typed, *, edited: bool = False) -> bool:
    """Answer words that cannot wait. A whole reading in the same message is kept all the same.

    Words that were denied, or long ago, or of somebody else, are asked about; so is what may have
    meant stop. A message that was edited is heard like any other.
    """
    text = typed.text
    if _answers_checklist(turn, text):
        return False
    said = next((heard for heard in distress.hear_all(text) if _counts(turn, text, heard)), None)
    urgent = said is not None and said.certain
    keep = not edited
    if said is not None and remeasuring.answers_signs(turn, denied=said.doubt is Doubt.DENIED):
        return True
    if said is not None and urgent and said.grade is Grade.EMERGENCY:
        _keep_aside(turn, typed, keep=keep)
        stopping.emergency(turn, text)
    elif said is not None and urgent:
        _keep_aside(turn, typed, keep=keep)
        stopping.near_faint(turn, text)
        if isinstance(turn.stage, CopyingPaper):
            orientation.orient(turn, part("paper.if-then"))  # it may stand on the paper
    elif hearing.stop(text) and (turn.running is not None or not edited):
        _keep_aside(turn, typed, keep=keep)
        if not (keep and stopping.past_a_line(turn, typed.source)):
            stopping.stop(turn)
    elif turn.running is not None and _not_all_right(turn, text):
        stopping.unwell(turn)
    elif _no_longer_standing(turn, text):
        stopping.stop(turn)
    elif said is not None:
        question = ConfirmingDistress(asked_at=turn.at, grade=said.grade)
        _ask_whether_meant(turn, typed, question, keep=keep)
    elif turn.running is not None and _perhaps_no_more(text):
        _ask_whether_meant(turn, typed, ConfirmingStop(asked_at=turn.at), keep=keep)
    else:
        return False
    return True


def _perhaps_no_more(text: str) -> bool:
    """Whether somebody may want to stop: by a word for it, by how they are, or since they go."""
    return hearing.perhaps_stop(text) or distress.unwell(text) or hearing.leaving(text)


def _counts(turn: Turn, text: str, said: Heard) -> bool:
    """Whether what was heard counts where the person is.

    "Very dizzy" does while they stand; a number that is also one of a reading does not where a
    reading may come; a symptom's own name, where it is in doubt, is that symptom.
    """
    running = turn.running
    if said.kind is Kind.VERY_DIZZY:
        return said.certain and running is not None and running.phase.position is Position.STANDING
    if said.doubt is Doubt.NUMBER:
        return running is None and not isinstance(turn.stage, Enrolling | CopyingPaper)
    if said.doubt is Doubt.UNCLEAR and said.grade is Grade.NEAR_FAINT:
        choosing = isinstance(turn.aside, NamingSymptom | RatingSymptom)
        choosing = choosing or isinstance(turn.stage, CopyingPaper)
        return not choosing or turn.running is not None
    return True


def _keep_aside(turn: Turn, typed: Typed, *, keep: bool) -> None:
    if keep:
        readings.keep_aside(turn, typed)


def _no_longer_standing(turn: Turn, text: str) -> bool:
    """Whether somebody who should be standing says that they lie or sit."""
    clock = stopping.on_the_clock(turn)
    standing = clock is not None and clock.phase.position is Position.STANDING
    return standing and (hearing.word(text) in (Word.SUPINE, Word.SEATED) or hearing.down(text))


def _answers_checklist(turn: Turn, text: str) -> bool:
    """Whether the text is just what an answer is called, such as "fainted while standing"."""
    match turn.stage:
        case Enrolling(question=question) | Auditing(question=question):
            return is_label(question, text)
        case _:
            return False


def _not_all_right(turn: Turn, text: str) -> bool:
    """Whether "are you all right?" was answered with no."""
    return turn.was_checked and (hearing.word(text) is Word.NO or distress.unwell(text))


def _ask_whether_meant(
    turn: Turn, typed: Typed, question: ConfirmingStop | ConfirmingDistress, *, keep: bool
) -> None:
    """Take a reading in the same message as usual, then ask whether stop, or help, was meant."""
    whole = keep and readings.take(turn, typed)
    doubted = turn.aside if whole else None
    if isinstance(question, ConfirmingStop) and (turn.running is None or doubted is not None):
        return
    turn.put(question)
    match doubted:
        case ConfirmingReading(draft=draft):
            orientation.orient(turn, part("doubt.dropped", numbers=echo(draft.values)))
        case _:
            orientation.orient(turn)
