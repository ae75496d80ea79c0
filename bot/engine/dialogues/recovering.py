"""After a test that was stopped: how the person is, lying down, until they are better.

Worse, or no answer, is told to whoever is linked, with words for anybody who reads the screen.
A very high pressure is measured once more after a rest; see `remeasuring`.
"""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final, assert_never

from bot.distress import unwell
from bot.engine import hearing
from bot.engine.asides import Draft
from bot.engine.buttons import RESULTS, Always, part
from bot.engine.context import Context
from bot.engine.dialogues import remeasuring
from bot.engine.dialogues.remeasuring import NO, YES, note, results_rows, take_signs
from bot.engine.effects import Part, Urgency
from bot.engine.notices import Notice
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.state import AwaitingStopReason, Conversation, Finished, Idle
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.record import Answer, Ending, Values
from bot.readings import example

BETTER, SAME, WORSE = "better", "same", "worse"
_LAPSES: Final = timedelta(hours=1)
"""So long after a stop words and numbers are taken to belong to it (design choice)."""

SIGNS_WAIT: Final = timedelta(minutes=1)
"""No answer to whether there are signs of danger counts as yes after this long (design choice)."""


def hear(turn: Turn) -> None:
    """A sign of life: nobody is told that there is silence."""
    match turn.conversation.recovery:
        case LyingDown(asked_at=datetime()) as recovery:
            turn.recover(replace(recovery, asked_at=None))
        case _:
            pass


# -- the clock


def deadline(context: Context, conversation: Conversation) -> datetime | None:
    """Return when something is next to be asked, or when silence has lasted too long."""
    times = context.recovery
    match conversation.recovery:
        case None:
            return None
        case LyingDown(asked_at=datetime() as asked_at):
            return asked_at + times.answer_within
        case LyingDown() as recovery if recovery.checks_put < len(times.checks):
            return recovery.since + times.checks[recovery.checks_put]
        case LyingDown() as recovery:
            return recovery.since + times.checks[-1] + times.answer_within
        case Remeasuring(warned_at=datetime() as warned_at):
            return warned_at + SIGNS_WAIT
        case Remeasuring(asked_at=None) as recovery:
            return recovery.since + times.measure_again_after
        case Remeasuring(lapsed=True):
            return None
        case Remeasuring() as recovery:
            return (recovery.asked_at or recovery.since) + times.checks[-1]
        case _:
            assert_never(conversation.recovery)


def pass_time(turn: Turn) -> None:
    """Ask how the person is, or act on their silence."""
    match turn.conversation.recovery:
        case None:
            pass
        case LyingDown(asked_at=datetime()) as recovery:
            _stay_silent(turn, recovery)
        case LyingDown() as recovery if recovery.checks_put < len(turn.context.recovery.checks):
            turn.recover(replace(recovery, checks_put=recovery.checks_put + 1, asked_at=turn.at))
            _ask_how(turn)
        case LyingDown():
            turn.recover(None)
        case Remeasuring(warned_at=datetime()):
            take_signs(turn, there=True, silent=True)
        case Remeasuring(asked_at=None) as recovery:
            turn.recover(replace(recovery, asked_at=turn.at))
            turn.say(part("recovery.measure", example=example(Values())), urgency=Urgency.SAFETY)
        case Remeasuring() as recovery:
            turn.recover(replace(recovery, lapsed=True, draft=Draft()))
            turn.say(part("recovery.not-measured"), rows=((RESULTS,),), urgency=Urgency.SAFETY)
        case _:
            assert_never(turn.conversation.recovery)


def _stay_silent(turn: Turn, recovery: LyingDown) -> None:
    """No answer: whoever is linked is told the first time and the last, and so is the screen."""
    note(turn, Answer.SILENT)
    last = recovery.checks_put == len(turn.context.recovery.checks)
    if last or not recovery.silences:
        turn.tell(Notice.STILL_SILENT)
        turn.say(part("recovery.silent"), urgency=Urgency.SAFETY)
    following = replace(recovery, asked_at=None, silences=recovery.silences + 1)
    turn.recover(None if last else following)


def _ask_how(turn: Turn, *first: Part) -> None:
    buttons = [_button(turn, choice) for choice in (BETTER, SAME, WORSE)]
    rows = tuple((button,) for button in buttons)
    turn.say(*first, part("recovery.how"), rows=rows, urgency=Urgency.SAFETY)


def _button(turn: Turn, choice: str) -> Always:
    return Always(f"button.recovery.{choice}", f"{asked(turn.conversation)}:{choice}")


def asked(conversation: Conversation) -> str | None:
    """Return the name of the open question, which its buttons carry; `None` without one."""
    match conversation.recovery:
        case LyingDown(test=test, checks_put=checks) if checks:
            return f"r{test}.{checks}"
        case Remeasuring(test=test, warned_at=datetime()):
            return f"r{test}.signs"
        case _:
            return None


# -- answers


def tap(turn: Turn, choice: str) -> bool:
    """Take a tap on the open question. Returns False for none of its choices."""
    match turn.conversation.recovery:
        case LyingDown() as recovery if choice in (BETTER, SAME, WORSE):
            _take_how(turn, recovery, choice)
        case Remeasuring() if choice in (YES, NO):
            take_signs(turn, there=choice == YES)
        case _:
            return False
    return True


def take_words(turn: Turn, text: str, source: str) -> bool:
    """Take an answer as it was typed. Returns False if it is none.

    Words and numbers that could answer another question that is open are left to that one.
    """
    heard = hearing.word(text)
    reason = isinstance(turn.stage, AwaitingStopReason) and hearing.tells_reason(text)
    if (heard is Word.WORSE or (unwell(text) and not reason)) and _ended_lately(turn):
        _worse(turn)
        return True
    match turn.conversation.recovery:
        case LyingDown() as recovery:
            free = isinstance(turn.stage, Idle | Finished | AwaitingStopReason)
            alone = turn.aside is None and free and recovery.checks_put > 0
            if alone and hearing.bare_yes(text):
                _ask_how(turn)  # yes to which of the three?
                return True
            choice = _how(text, heard, alone=alone)
            if choice is not None:
                _take_how(turn, recovery, choice)
            return choice is not None
        case Remeasuring() as recovery if turn.at - recovery.since <= _LAPSES:
            return remeasuring.take_words(turn, recovery, text, source)
        case _:
            return False


def _ended_lately(turn: Turn) -> bool:
    """Whether a test ended so lately that feeling worse belongs to it, and none is under way."""
    if turn.running is not None:
        return False
    if turn.conversation.recovery is not None:
        return True
    record = turn.latest
    stopped = record is not None and record.ending not in (None, Ending.COMPLETED)
    return stopped and record is not None and turn.at - (record.ended_at or turn.at) <= _LAPSES


def _worse(turn: Turn) -> None:
    """Worse, at any time after a stop: help, and whoever is linked is told; it is asked again."""
    note(turn, Answer.WORSE)
    turn.tell(Notice.WORSE)
    match turn.conversation.recovery:
        case LyingDown() as recovery if recovery.checks_put < len(turn.context.recovery.checks):
            turn.recover(replace(recovery, asked_at=None))
        case Remeasuring():
            pass
        case _:
            number = turn.held_record.number
            turn.recover(LyingDown(test=number, since=turn.at))
    turn.say(part("recovery.worse"), urgency=Urgency.SAFETY)


def _how(text: str, heard: Word | None, *, alone: bool) -> str | None:
    match heard:
        case Word.BETTER:
            return BETTER
        case Word.FINE | Word.YES if alone:
            return BETTER
        case Word.SAME | Word.NO if alone:
            return SAME
        case _:
            return SAME if alone and hearing.symptoms(text) else None


def _take_how(turn: Turn, recovery: LyingDown, choice: str) -> None:
    last = recovery.checks_put == len(turn.context.recovery.checks)
    match choice:
        case "better":
            note(turn, Answer.BETTER)
            turn.recover(None)
            turn.tell(Notice.BETTER)
            turn.say(part("recovery.better"), rows=results_rows(turn), urgency=Urgency.SAFETY)
        case "worse":
            _worse(turn)
        case _ if last:
            note(turn, Answer.SAME)
            turn.recover(None)
            turn.say(part("recovery.same.last"), rows=results_rows(turn), urgency=Urgency.SAFETY)
        case _:
            note(turn, Answer.SAME)
            turn.recover(replace(recovery, asked_at=None))
            turn.say(part("recovery.same"), urgency=Urgency.SAFETY)
