"""Between two tests: what kind of day it was, and the repeat on a day of the other kind."""

from dataclasses import replace
from datetime import datetime, timedelta

from bot.booking.plan import ReminderKind, objections
from bot.booking.zones import settled_at
from bot.engine.asides import Asking, Question
from bot.engine.buttons import BOOK, part
from bot.engine.context import Opening
from bot.engine.dialogues import auditing, planning
from bot.engine.dialogues.daybook import (
    AFTERNOON,
    counterparts,
    looked_for,
    stopped_today,
    test_days,
    whole,
)
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.standing import booking_of
from bot.engine.effects import Moment, Part
from bot.engine.profile import Profile, TestNote, Watch
from bot.engine.state import Booked, Finished, Idle
from bot.engine.turn import Turn
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Ending, TestRecord

_BETWEEN = (Idle, Booked, Finished)
"""The stages at which nothing is under way."""


def note_test(turn: Turn, record: TestRecord) -> None:
    """Note a test that has ended; in the full opening, ask what kind of day it was."""
    assert record.ending is not None
    note = TestNote(
        number=record.number,
        began_at=record.began_at,
        ending=record.ending,
        measured=bool(record.readings),
        protocol=record.protocol,
        day=record.day,
    )
    others = tuple(t for t in turn.conversation.profile.tests if t.number != record.number)
    turn.know(tests=(*others, note), repeat_offered_at=None)


def ask_day(turn: Turn, record: TestRecord) -> None:
    """After the results of a whole test: ask what kind of day it was."""
    if turn.context.opening is Opening.FULL and record.ending is Ending.COMPLETED:
        turn.put(Asking(question=Question.DAY_KIND, test=record.number))
        orient(turn)


def take_day(turn: Turn, aside: Asking, day: DayKind) -> None:
    """Keep the kind of day, then compare two tests or look out for the second."""
    turn.drop()
    tests = tuple(
        replace(t, day=day) if t.number == aside.test else t
        for t in turn.conversation.profile.tests
    )
    turn.know(tests=tests)
    if turn.latest is not None and turn.latest.number == aside.test:
        record = replace(turn.latest, day=day)
        turn.update(record)
        turn.keep(record)
    elif aside.test is not None:
        turn.amend(aside.test, day)
    pair = counterparts(turn.conversation.profile)
    if pair is None:
        _look_out(turn, aside)
        return
    turn.know(watch=None, watch_asked=False, second_missing_since=None)
    if aside.test in (pair[0].number, pair[1].number):
        turn.say(part("second.done"))
        turn.compare(pair[0].number, pair[1].number)
    else:
        turn.say(part("watch.noted"))


def _look_out(turn: Turn, aside: Asking) -> None:
    """Ask how to look out for the second test; a watch that runs goes on."""
    watch = turn.conversation.profile.watch
    if watch is None:
        turn.know(watch_asked=True)
        turn.put(Asking(question=Question.WATCH, test=aside.test))
        orient(turn)
        return
    missing = looked_for(turn.conversation.profile)
    turn.know(watch=replace(watch, looks_for=missing))
    turn.say(part(f"watch.goes-on.{missing}"))


def owed(turn: Turn) -> Asking | None:
    """Return the question that was put off by something else and is still to be answered."""
    if turn.context.opening is not Opening.FULL:
        return None
    profile = turn.conversation.profile
    if profile.done_at is not None:
        return None
    unsent = undecided(turn)
    if unsent is not None:
        return Asking(question=Question.SEND, test=unsent)
    untold = _untold(profile)
    if untold is not None:
        return Asking(question=Question.DAY_KIND, test=untold.number)
    if profile.watch_asked:
        return Asking(question=Question.WATCH)
    if turn.today in test_days(profile):
        return None
    if _is_today(turn, profile.repeat_offered_at):
        return Asking(question=Question.REPEAT)
    watch = profile.watch
    waits = watch is not None and not watch.answered and _is_today(turn, watch.asked_at)
    return Asking(question=Question.DAY_SCORE) if waits and not profile.paused else None


def undecided(turn: Turn) -> int | None:
    """Return the number of the latest test, if nothing was said of sending it to the team."""
    tests = turn.conversation.profile.tests[-1:]
    asked = turn.context.team and turn.conversation.profile.team_since is not None
    return next((t.number for t in tests if asked and t.measured and t.shared is None), None)


def _untold(profile: Profile) -> TestNote | None:
    """Return the latest whole test whose kind of day was not told."""
    return next((t for t in reversed(whole(profile)) if t.day is None), None)


def _is_today(turn: Turn, at: datetime | None) -> bool:
    return at is not None and at.astimezone(turn.zone_info).date() == turn.today


def ask_owed(turn: Turn) -> None:
    """Put a question again that something else had put off, now that this is done with."""
    asking = owed(turn)
    if asking is not None and turn.aside is None and isinstance(turn.stage, _BETWEEN):
        turn.put(asking)
        orient(turn)


# -- words about the day


def day_told(turn: Turn, *, bad: bool) -> None:
    """Take a word about the day: the kind of today's test, if that is open, or else the repeat.

    It answers the daily question as well.
    """
    untold = _untold(turn.conversation.profile)
    if untold is not None and _is_today(turn, untold.began_at):
        asking = Asking(question=Question.DAY_KIND, test=untold.number)
        take_day(turn, asking, DayKind.SYMPTOMATIC if bad else DayKind.GOOD)
        return
    watch = turn.conversation.profile.watch
    note_answer(turn)
    wanted = looked_for(turn.conversation.profile) if watch is None else watch.looks_for
    if bad == (wanted is DayKind.SYMPTOMATIC):
        offer(turn)
    elif untold is not None:
        turn.put(Asking(question=Question.DAY_KIND, test=untold.number))
        orient(turn)
    elif watch is not None:
        turn.say(part("watch.noted"))
    else:
        turn.say(part("day.with-a-test"), rows=((BOOK,),))


def note_answer(turn: Turn) -> Watch | None:
    """The daily question, if it is open, is answered. Returns the watch that runs."""
    watch = turn.conversation.profile.watch
    if isinstance(turn.aside, Asking) and turn.aside.question is Question.DAY_SCORE:
        turn.drop()
    if watch is None:
        return None
    answered = replace(watch, unanswered=0, answered=True)
    turn.know(watch=answered)
    return answered


def feels_bad(turn: Turn) -> None:
    """Somebody feels bad, in words that are no call for help: care first, then what is open.

    The repeat is offered only where a watch looks out for a bad day.
    """
    watch = turn.conversation.profile.watch
    wanted = watch is not None and watch.looks_for is DayKind.SYMPTOMATIC
    if turn.aside is None and wanted and turn.conversation.profile.suitable:
        note_answer(turn)
        offer(turn, part("unwell.care"))
    elif turn.aside is None:
        turn.say(part("unwell.care"))
    else:
        orient(turn, part("unwell.care"))


# -- the repeat


def offer(turn: Turn, *first: Part) -> None:
    """Offer the repeat: same clock time is better, but nothing presses.

    Not on a day on which a test was stopped for safety: rest comes first then.
    """
    profile = turn.conversation.profile
    if not profile.suitable and turn.context.opening is Opening.FULL:
        orient(turn, *first)
        return
    if stopped_today(turn):
        turn.say(*first, part("repeat.rest-first"), rows=((BOOK,),))
        return
    turn.know(repeat_offered_at=turn.at)
    turn.put(Asking(question=Question.REPEAT))
    compared = _compared_with(turn)
    if compared is not None:
        same_time = part("repeat.same-time", moment=Moment(compared.began_at, turn.zone))
        first = (*first, same_time)
    orient(turn, *first)


def _compared_with(turn: Turn) -> TestNote | None:
    """Return the test that a repeat would be laid beside: the latest of the other kind of day."""
    measured = [t for t in turn.conversation.profile.tests if t.measured]
    missing = looked_for(turn.conversation.profile)
    others = [t for t in measured if t.day is not None and t.day is not missing]
    return next(iter((*reversed(others), *reversed(measured))), None)


def take_repeat(turn: Turn, choice: str) -> None:
    """Take when the repeat is to be."""
    turn.drop()
    turn.know(repeat_offered_at=None)
    match choice:
        case "now":
            auditing.begin(turn)
        case "in-an-hour":
            _book_today(turn, turn.at + timedelta(hours=1))
        case "afternoon":
            _book_today(turn, settled_at(datetime.combine(turn.today, AFTERNOON), turn.zone))
        case _:
            turn.say(part("repeat.left"))


def _book_today(turn: Turn, at: datetime) -> None:
    objection = objections(at, turn.at, turn.zone, turn.context.quiet, ())
    if objection is not None:
        planning.begin(turn, part(f"objection.{objection}"))
        return
    standing = booking_of(turn.stage)
    instead = (
        ()
        if standing is None
        else (part("booked.instead", moment=Moment(standing.at, standing.zone)),)
    )
    booking = planning.book(turn, standing, at)
    planning.put_down(turn, booking, frozenset({ReminderKind.DAY_BEFORE}), *instead)
