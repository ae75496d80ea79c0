"""What means the same at every stage: where, help, language, symptom, results, start, my data."""

from datetime import time
from typing import Final

from bot.booking.plan import Booking
from bot.distress import Grade
from bot.engine.asides import Asking, ChoosingLanguage, ConfirmingStop, Question
from bot.engine.buttons import part
from bot.engine.context import Opening
from bot.engine.dialogues import (
    accompanying,
    auditing,
    between,
    clearing,
    closing,
    companions,
    corrections,
    enrolment,
    orientation,
    paper,
    planning,
    reminding,
    results,
    sending,
    standing,
    stopping,
    symptoms,
    watching,
)
from bot.engine.dialogues.questionnaire import YES
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.state import (
    Auditing,
    AwaitingReady,
    AwaitingStopReason,
    Booked,
    ChoosingPlace,
    Enrolling,
    Finished,
    Held,
    Idle,
    Planning,
)
from bot.engine.turn import Turn
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
        case Word.FIX if isinstance(turn.stage, CopyingPaper):
            paper.go_back(turn, turn.stage)
        case Word.FIX:
            corrections.ask_fix(turn)
        case Word.RESULTS:
            results.show_results(turn)
        case Word.FILES:
            results.show_files(turn)
        case Word.MORE | Word.TREND if turn.running is not None:
            orientation.orient(turn, part("after-the-test"))
        case Word.MORE:
            results.tell_more(turn)
        case Word.TREND:
            results.trace(turn)
        case Word.START if not isinstance(turn.stage, AwaitingReady):
            start(turn)
        case Word.MY_DATA:
            turn.hand_copy()
        case Word.DELETE if turn.running is not None:
            orientation.orient(turn, part("after-the-test"))
        case Word.DELETE:
            turn.put(Asking(question=Question.DELETE))
            orientation.orient(turn)
        case Word.PAPER:
            paper.hear(turn)
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
        orientation.orient(turn, part("help" if short else "help.full"), *orientation.contact(turn))
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
    renewing = isinstance(turn.stage, Enrolling) and turn.stage.question is Question.CONSENT
    if renewing and heard in (Word.BOOK, Word.MOVE) and _booking(turn) is not None:
        turn.go_back()
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
        case (("fix" | "use"), _):
            return _tap_reading(turn, question, choice)
        case ("result" | "more", _) | ("", "compare" | "trend") if turn.running is not None:
            orientation.orient(turn, part("after-the-test"))
        case "result", _ if number is not None:
            results.show_test(turn, number)
        case "more", _ if number is not None:
            results.tell_more(turn, number)
        case "", "compare":
            results.compare(turn)
        case "", "trend":
            results.trace(turn)
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
            results.show_results(turn)
        case "", "start":
            start(turn)
        case "", "book" if _may_plan(turn):
            planning.begin(turn)
        case _:
            return False
    return True


def _tap_reading(turn: Turn, question: str, choice: str) -> bool:
    """Correct a reading of the test at hand, or let it count; that of another test is stale."""
    test, dot, number = choice.partition(".")
    known = turn.latest
    numbers = dot and all(n.isascii() and n.isdigit() and len(n) < 6 for n in (test, number))
    if not numbers or known is None or known.number != int(test):
        return False
    if question == "use":
        return corrections.use_instead(turn, int(number))
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
            watching.take_hour(turn, time(int(choice)))
        case Question.WATCH_LINE:
            watching.take_line(turn, int(choice))
        case Question.DAY_SCORE:
            watching.take_score(turn, int(choice))
        case Question.REPEAT:
            between.take_repeat(turn, choice)
        case Question.SHARE:
            companions.take_share(turn, choice)
        case Question.ACCOMPANY:
            accompanying.take_answer(turn, choice)
        case Question.SEND:
            sending.take_send(turn, aside.test, choice)
        case Question.DELETE if choice == YES:
            turn.drop()
            booking = _booking(turn)
            if booking is not None:
                standing.take_out(turn, booking)
            companions.part_all(turn)
            turn.say(part("deleted"))
            turn.forget()
        case _:
            leave(turn)


def leave_asking(turn: Turn, aside: Asking) -> None:
    """Leave a question between two tests; one that does not have to be answered is done with."""
    match aside.question:
        case Question.DAY_SCORE:
            between.note_answer(turn)
        case Question.WATCH | Question.WATCH_HOUR | Question.WATCH_LINE:
            turn.know(watch_asked=False)
        case Question.REPEAT:
            turn.know(repeat_offered_at=None)
        case Question.SEND:
            sending.decide(turn, aside.test, sent=False)
        case _:
            pass
    leave(turn)


def _booking(turn: Turn) -> Booking | None:
    """Return the booking that stands, also behind what is being asked."""
    behind = standing.booking_of(turn.conversation.resumes)
    return standing.booking_of(turn.stage) if behind is None else behind


def _cancel(turn: Turn) -> None:
    match turn.stage:
        case Booked() as stage:
            standing.cancel(turn, stage.booking)
        case Enrolling(question=Question.CONSENT) if _booking(turn) is not None:
            turn.go_back()
            _cancel(turn)
        case Planning() as stage:
            planning.leave(turn, stage)
        case DatingPaper() | CopyingPaper():
            stopping.stop(turn)
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
        case Held() if turn.conversation.profile.suitable:
            clearing.tell(turn)
        case Enrolling() | Held() | Planning() | Auditing() | AwaitingReady():
            orientation.orient(turn)
        case _ if turn.running is not None:
            orientation.orient(turn, part("start.already"))
        case _:
            orientation.orient(turn)


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


def help_meant(turn: Turn, grade: Grade, *, meant: bool) -> None:
    """Take the answer to whether help is needed now."""
    turn.settle()
    if not meant:
        symptoms.answer(turn, (part("help.not-meant"),))
    elif grade is Grade.EMERGENCY:
        stopping.emergency(turn)
    else:
        stopping.near_faint(turn)


def stop_meant(turn: Turn, *, meant: bool) -> None:
    """Take the answer to whether stop was meant."""
    turn.settle()
    if meant:
        stopping.stop(turn)
    else:
        symptoms.answer(turn, (part("stop.not-meant"),))
