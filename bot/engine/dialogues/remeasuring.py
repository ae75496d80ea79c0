"""A very high pressure, measured once more after a rest: what is typed, and what it leads to.

The signs that go with it decide what is said (American Heart Association public page, found).
"""

from dataclasses import replace
from datetime import datetime
from typing import Final, assert_never

from bot.engine import hearing
from bot.engine.asides import Asking, ConfirmingReading, Draft, FixingReading
from bot.engine.buttons import RESULTS, Always, Rows, part
from bot.engine.context import StopLines
from bot.engine.drafts import grown
from bot.engine.effects import Part, Urgency
from bot.engine.notices import Notice
from bot.engine.options import OPTIONS
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.record import Aftercare, Answer, Ending, Repeat, Symptom, TestRecord, Values
from bot.readings import echo, example, read
from bot.readings.outcome import Doubtful, Problem, Several, Understood, Unreadable

YES, NO = "yes", "no"

_OTHER_QUESTIONS: Final = (FixingReading, ConfirmingReading, Asking)
"""What may be asked while a pressure is waited for, and is answered with numbers as well."""


def lie_down(turn: Turn, test: int) -> None:
    """Look after somebody who lies down after a test that was stopped."""
    turn.recover(LyingDown(test=test, since=turn.at))


def measure_again(turn: Turn, test: int) -> None:
    """Have a very high pressure measured again after a rest."""
    turn.recover(Remeasuring(test=test, since=turn.at))


def note(turn: Turn, answer: Answer) -> None:
    """Keep what was answered while the person was looked after beside the test that was stopped."""
    record = turn.latest
    if record is not None and record.ending not in (None, Ending.COMPLETED):
        told = Aftercare(answer=answer, at=turn.at)
        noted = replace(record, aftercare=(*record.aftercare, told))
        turn.update(noted)
        turn.keep(noted)


def take_words(turn: Turn, recovery: Remeasuring, text: str, source: str) -> bool:
    """Take what was typed while a pressure is to be measured again. False if it is no answer."""
    if isinstance(turn.aside, _OTHER_QUESTIONS):
        return _take_in_spite(turn, recovery, text, source)
    if recovery.warned_at is None:
        return _take_numbers(turn, recovery, text, source)
    heard = hearing.word(text)
    if heard in (Word.YES, Word.NO):
        take_signs(turn, there=heard is Word.YES)
    elif hearing.normalised(text) in OPTIONS["done"]:
        take_signs(turn, there=False)
    elif _names_a_sign(text):
        take_signs(turn, there=True)
    else:
        return False
    return True


def _take_in_spite(turn: Turn, recovery: Remeasuring, text: str, source: str) -> bool:
    """Take a whole pressure as the one that was asked for, though another question is open.

    It is said so, and the way to correct the earlier one stays; words that correct are left to
    the question.
    """
    if recovery.asked_at is None or recovery.warned_at is not None:
        return False
    outcome = read(text)
    match outcome:
        case Understood(values=values, correction=False):
            given = values
        case Doubtful(values=values, suggested=suggested, correction=False):
            given = suggested or values
        case _:
            return False
    if given.systolic is None or given.diastolic is None:
        return False
    if not isinstance(turn.aside, Asking):
        turn.drop()
    draft = grown(Draft(), given, text, source, turn.at)
    _take_read(turn, recovery, draft, part("recovery.second", numbers=echo(given)))
    return True


def call_off(turn: Turn) -> bool:
    """Measure no more once no reading is very high after all. False if it still has to be."""
    record, recovery = turn.latest, turn.conversation.recovery
    if record is None or not isinstance(recovery, Remeasuring) or recovery.warned_at is not None:
        return False
    if _any_high(record, turn.context.stop_lines):
        return False
    turn.recover(None)
    return True


def _any_high(record: TestRecord, lines: StopLines) -> bool:
    measured = (*(r.values for r in record.readings), *(r.values for r in record.repeats))
    return any(still_high(values, lines) for values in measured)


def _names_a_sign(text: str) -> bool:
    """Whether a symptom is named that is one of the signs asked about."""
    signs = {Symptom.BLURRED_VISION, Symptom.WEAK, Symptom.SHORT_OF_BREATH}
    return any(told.symptom in signs for told in hearing.symptoms(text))


def answers_signs(turn: Turn, *, denied: bool) -> bool:
    """Take a call for help as the answer whether there are signs of danger, if that is open."""
    match turn.conversation.recovery:
        case Remeasuring(warned_at=datetime()):
            take_signs(turn, there=not denied)
            return True
        case _:
            return False


def results_rows(turn: Turn) -> Rows:
    """Return the button for the results, if anything was measured."""
    return ((RESULTS,),) if turn.latest is not None and turn.latest.readings else ()


def _take_numbers(turn: Turn, recovery: Remeasuring, text: str, source: str) -> bool:
    outcome = read(text, recovery.draft.values)
    match outcome:
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Unreadable():
            turn.say(part("recovery.unclear", example=example(recovery.draft.values)))
            return True
        case Several():
            given = max(outcome.readings, key=lambda values: values.systolic or 0)
        case Understood() | Doubtful():
            given = getattr(outcome, "suggested", None) or outcome.values
        case _:
            assert_never(outcome)
    draft = grown(recovery.draft, given, text, source, turn.at)
    _take_read(turn, recovery, draft)
    return True


def _take_read(turn: Turn, recovery: Remeasuring, draft: Draft, *first: Part) -> None:
    """Keep the second measurement, and say after any `first` words what it means."""
    values = draft.values
    lines = turn.context.stop_lines
    if values.systolic is not None and values.systolic < lines.supine_systolic_below:
        keep_beside(turn, draft)
        lie_down(turn, recovery.test)
        said = f"{values.systolic}/{values.diastolic or '-'}"
        turn.say(*first, part("unsafe.supine-low", pressures=said), urgency=Urgency.SAFETY)
        return
    half = values.systolic is None or values.diastolic is None
    if half and not still_high(values, lines):
        turn.recover(replace(recovery, draft=draft))
        turn.say(part("recovery.unclear", example=example(values)))
        return
    keep_beside(turn, draft)
    _tell_what_it_means(turn, replace(recovery, draft=draft), values, *first)


def _tell_what_it_means(turn: Turn, recovery: Remeasuring, values: Values, *first: Part) -> None:
    """Say after any `first` words whether the pressure is still very high, and what follows."""
    if still_high(values, turn.context.stop_lines):
        turn.recover(replace(recovery, warned_at=turn.at))
        rows = tuple((Always(f"button.{c}", f"r{recovery.test}.signs:{c}"),) for c in (YES, NO))
        asked = part("recovery.signs", numbers=echo(values))
        turn.say(*first, asked, rows=rows, urgency=Urgency.SAFETY)
    else:
        turn.recover(None)
        turn.say(
            *first,
            part("recovery.lower", numbers=echo(values)),
            rows=results_rows(turn),
            urgency=Urgency.SAFETY,
        )


def take_edit(turn: Turn, text: str, source: str) -> bool:
    """Let a changed message put the second measurement right that it gave.

    Returns False if it gave none. Whoever is looked after by now goes on being so.
    """
    record = turn.latest
    repeats = record.repeats if record is not None else ()
    place = next((i for i, r in enumerate(repeats) if source in r.sources), None)
    if record is None or place is None:
        return False
    known = repeats[place].values
    outcome = read(text)
    given = outcome.values if isinstance(outcome, Understood | Doubtful) else Values()
    if given.systolic is None or given.diastolic is None:
        turn.say(part("recovery.unclear", example=example(Values())))
        return True
    if given == known:
        return True
    put_right = replace(repeats[place], values=known.updated(given), words=(text,))
    others = (*repeats[:place], put_right, *repeats[place + 1 :])
    revised = replace(record, repeats=others, revision=record.revision + 1)
    turn.update(revised)
    turn.keep(revised)
    match turn.conversation.recovery:
        case LyingDown():
            turn.say(part("reading.after-the-end", numbers=echo(put_right.values)))
        case _:
            again = Remeasuring(test=record.number, since=turn.at, asked_at=turn.at)
            _tell_what_it_means(turn, again, put_right.values)
    return True


def still_high(values: Values, lines: StopLines) -> bool:
    """Whether pressures are still at or past the line for very high pressure."""
    systolic, diastolic = values.systolic or 0, values.diastolic or 0
    return systolic >= lines.systolic_from or diastolic >= lines.diastolic_from


def keep_beside(turn: Turn, draft: Draft) -> None:
    """Keep the numbers beside the test: they are none of its readings."""
    record = turn.latest
    if record is None:
        return
    repeat = Repeat(values=draft.values, given_at=turn.at, words=draft.words, sources=draft.sources)
    revised = replace(record, repeats=(*record.repeats, repeat), revision=record.revision + 1)
    turn.update(revised)
    turn.keep(revised)


def take_signs(turn: Turn, *, there: bool, silent: bool = False) -> None:
    """Take whether there are signs of danger with a pressure that is still very high."""
    note(turn, Answer.SIGNS_SILENT if silent else Answer.SIGNS if there else Answer.NO_SIGNS)
    match turn.conversation.recovery:
        case Remeasuring() as recovery if not there:
            turn.recover(replace(recovery, warned_at=None, draft=Draft(), lapsed=True))
        case Remeasuring(test=test):
            lie_down(turn, test)
        case _:
            pass
    if there:
        turn.tell(Notice.EMERGENCY)
        turn.say(part("emergency.now"), urgency=Urgency.SAFETY)
    else:
        turn.say(part("recovery.care-team"), rows=results_rows(turn), urgency=Urgency.SAFETY)
