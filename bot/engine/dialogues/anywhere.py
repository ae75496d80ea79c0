"""What means the same at every stage: where, help, language, symptom, results, start, my data."""

from typing import Final

from bot.engine.context import Opening
from bot.engine.dialogues import (
    auditing,
    between,
    closing,
    corrections,
    enrolment,
    orientation,
    planning,
    reminding,
    stopping,
    symptoms,
    watching,
)
from bot.engine.dialogues.questionnaire import YES
from bot.engine.effects import ClockTime, Day, Form, Param
from bot.engine.state import (
    Asking,
    Auditing,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingLanguage,
    ChoosingPlace,
    ConfirmingStop,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
    Question,
)
from bot.engine.turn import Always, Rows, Turn, part
from bot.engine.vocabulary import Word
from bot.protocol.circumstances import DayKind
from bot.protocol.definition import Position

_AFTER_THE_TEST: Final = frozenset({
    Word.BOOK, Word.MOVE, Word.ZONE, Word.PAUSE, Word.RESUME, Word.BAD_DAY, Word.GOOD_DAY,
})  # fmt: skip

_MAY_TRAVEL: Final = (Idle, Booked, Finished, Planning, Enrolling, ChoosingPlace)


def hear(turn: Turn, heard: Word) -> bool:
    """Answer a word that means the same at every stage. Returns False for any other."""
    match heard:
        case Word.WHERE:
            orientation.orient(turn)
        case Word.HELP:
            _help(turn)
        case Word.LANGUAGE:
            turn.put(ChoosingLanguage())
            orientation.orient(turn)
        case Word.ENGLISH:
            speak(turn, "en")
        case Word.SPANISH:
            speak(turn, "es")
        case Word.SYMPTOM:
            symptoms.ask_which(turn)
        case Word.FIX:
            corrections.ask_fix(turn)
        case Word.RESULTS:
            show_results(turn)
        case Word.START if not isinstance(turn.stage, AwaitingReady):
            start(turn)
        case Word.MY_DATA:
            turn.hand_copy()
        case Word.DELETE if turn.running is not None:
            orientation.orient(turn, part("after-the-test"))
        case Word.DELETE:
            turn.put(Asking(question=Question.DELETE))
            orientation.orient(turn)
        case Word.CANCEL:
            _cancel(turn)
        case _:
            return _hear_between(turn, heard)
    return True


def _help(turn: Turn) -> None:
    """Say what can be typed. A standing person who types "help" may need it: that is asked too."""
    running = turn.running
    if running is None:
        short = turn.context.opening is Opening.SHORT
        orientation.orient(turn, part("help" if short else "help.full"))
        return
    if running.phase.position is Position.STANDING:
        turn.put(ConfirmingStop(asked_at=turn.at))
    orientation.orient(turn, part("help.running"))


def _hear_between(turn: Turn, heard: Word) -> bool:
    """Answer a word that has a meaning only while no test is under way."""
    if turn.context.opening is Opening.SHORT:
        return False
    if turn.running is not None:
        waits = heard in _AFTER_THE_TEST
        if waits:
            orientation.orient(turn, part("after-the-test"))
        return waits
    match heard:
        case Word.BOOK | Word.MOVE if _may_plan(turn):
            planning.begin(turn)
        case Word.ZONE if isinstance(turn.stage, _MAY_TRAVEL):
            enrolment.ask_zone(turn)
        case Word.PAUSE:
            reminding.pause(turn, paused=True)
        case Word.RESUME:
            reminding.pause(turn, paused=False)
        case Word.BAD_DAY | Word.GOOD_DAY if _may_plan(turn):
            between.day_told(turn, bad=heard is Word.BAD_DAY)
        case _:
            return False
    return True


def _may_plan(turn: Turn) -> bool:
    free = isinstance(turn.stage, Idle | Booked | Finished | Planning)
    profile = turn.conversation.profile
    return free and profile.enrolled and profile.suitable


def tap(turn: Turn, question: str, choice: str) -> bool:
    """Answer a button that means the same at any time. Returns False for any other."""
    number = int(choice[:6]) if choice.isascii() and choice.isdigit() else None
    match question, choice:
        case "fix", _:
            return _tap_fix(turn, choice)
        case ("result", _) | ("", "compare") if turn.running is not None:
            orientation.orient(turn, part("after-the-test"))
        case "result", _ if number is not None:
            _show_test(turn, number)
        case "", "compare":
            _compare(turn)
        case "", "stop":
            stopping.stop(turn)
        case "", "language":
            turn.put(ChoosingLanguage())
            orientation.orient(turn)
        case "", "symptom":
            symptoms.ask_which(turn)
        case "", "where":
            orientation.orient(turn)
        case "", "results":
            show_results(turn)
        case "", "start":
            start(turn)
        case "", "book" if _may_plan(turn):
            planning.begin(turn)
        case _:
            return False
    return True


def _tap_fix(turn: Turn, choice: str) -> bool:
    """Correct a reading of the test at hand; a button of another test is stale."""
    test, dot, number = choice.partition(".")
    known = turn.latest
    numbers = dot and all(n.isascii() and n.isdigit() and len(n) < 6 for n in (test, number))
    if not numbers or known is None or known.number != int(test):
        return False
    corrections.ask_fix(turn, int(number))
    return True


def answer_asking(turn: Turn, aside: Asking, choice: str) -> None:
    """Take the answer to a question between two tests, or about what is kept."""
    match aside.question:
        case Question.DAY_KIND:
            between.take_day(turn, aside, DayKind(choice))
        case Question.WATCH:
            watching.take_watch(turn, choice)
        case Question.WATCH_HOUR:
            watching.take_hour(turn, int(choice))
        case Question.WATCH_LINE:
            watching.take_line(turn, int(choice))
        case Question.DAY_SCORE:
            watching.take_score(turn, int(choice))
        case Question.REPEAT:
            between.take_repeat(turn, choice)
        case Question.DELETE if choice == YES:
            turn.drop()
            turn.say(part("deleted"))
            turn.forget()
        case _:
            leave(turn)


def _cancel(turn: Turn) -> None:
    match turn.stage:
        case Booked() as stage:
            planning.cancel(turn, stage.booking)
        case Planning() as stage:
            planning.leave(turn, stage)
        case _ if turn.running is not None:
            stopping.stop(turn)
        case _ if turn.asked_about_zone:
            turn.go_back()
            orientation.orient(turn, part("left"))
        case _:
            orientation.orient(turn)


def start(turn: Turn) -> None:
    """Go towards a new test, unless one is under way."""
    if turn.asked_about_zone:
        turn.go_back()
    match turn.stage:
        case Idle() | Finished():
            enrolment.begin(turn)
        case AwaitingStopReason() as stage:
            closing.finish(turn, stage.record)
            enrolment.begin(turn)
        case Booked():
            auditing.begin(turn)
        case Enrolling() | Held() | Planning() | Auditing() | AwaitingReady():
            orientation.orient(turn)
        case _ if turn.running is not None:
            orientation.orient(turn, part("start.already"))
        case _:
            orientation.orient(turn)


# -- results


def show_results(turn: Turn) -> None:
    """Send the latest result again, or list them when there are several."""
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    match turn.stage:
        case AwaitingStopReason() as stage:
            stopping.take_reason(turn, stage, None)
        case _ if turn.running is None and len(tests) > 1:
            turn.say(part("results.which", count=len(tests)), rows=_results_rows(turn))
        case Finished() as stage:
            closing.hand_over(turn, stage.record)
        case _ if turn.running is None and tests:
            _show_test(turn, tests[0].number)
        case _:
            orientation.orient(turn, part("results.not-yet"))


def _results_rows(turn: Turn) -> Rows:
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    rows: list[tuple[Always, ...]] = []
    for test in tests[-12:]:
        there = test.began_at.astimezone(turn.zone_info)
        values: dict[str, Param] = {
            "number": test.number,
            "day": Day(there.date()),
            "time": ClockTime(there.time()),
        }
        key = "label.test" if test.day is None else f"label.test.{test.day}"
        rows.append((Always(key, f"result:{test.number}", values),))
    pair = between.counterparts(turn.conversation.profile)
    compare = "button.compare" if pair is None else "button.compare.days"
    return (*rows, (Always(compare, "compare"),))


def _show_test(turn: Turn, number: int) -> None:
    if isinstance(turn.stage, Finished) and turn.stage.record.number == number:
        closing.hand_over(turn, turn.stage.record)
        return
    if not any(t.number == number and t.measured for t in turn.conversation.profile.tests):
        orientation.orient(turn, part("results.not-yet"))
        return
    for form in (Form.SUMMARY, *closing.FILES):
        turn.recall(form, number)


def _compare(turn: Turn) -> None:
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    pair = between.counterparts(turn.conversation.profile)
    if pair is not None:
        turn.compare(pair[0].number, pair[1].number)
    elif len(tests) > 1:
        turn.compare(tests[-2].number, tests[-1].number)
    else:
        orientation.orient(turn, part("results.not-yet"))


# -- language, and going back


def speak(turn: Turn, locale: str) -> None:
    """Go on in another language."""
    turn.speak(locale)
    if isinstance(turn.aside, ChoosingLanguage):
        turn.drop()
    orientation.orient(turn, part("language.set"))


def leave(turn: Turn) -> None:
    """Drop the question put in between, and go back to what was open."""
    turn.drop()
    symptoms.answer(turn, (part("left"),))


def stop_meant(turn: Turn, *, meant: bool) -> None:
    """Take the answer to whether stop was meant."""
    turn.settle_stop()
    if meant:
        stopping.stop(turn)
    else:
        symptoms.answer(turn, (part("stop.not-meant"),))
