"""Between two tests: what kind of day it was, and the repeat on a day of the other kind."""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Final

from bot.booking.plan import Booking, ReminderKind, objections
from bot.booking.zones import settled_at
from bot.engine.context import Opening
from bot.engine.dialogues import auditing, planning
from bot.engine.dialogues.offers import now_there
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import Moment
from bot.engine.profile import Profile, TestNote
from bot.engine.state import Asking, Booked, Finished, Idle, Planning, Question, Stage
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Ending, TestRecord

_AFTERNOON: Final = time(15, 0)
_BETWEEN: Final = (Idle, Booked, Finished)
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
    turn.know(tests=(*others, note))


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
    pair = counterparts(turn.conversation.profile)
    if pair is None:
        turn.know(watch_asked=True)
        turn.put(Asking(question=Question.WATCH, test=aside.test))
        orient(turn)
        return
    turn.know(watch=None, watch_asked=False, second_missing_since=None)
    if aside.test in (pair[0].number, pair[1].number):
        turn.say(part("second.done"))
        turn.compare(pair[0].number, pair[1].number)
    else:
        turn.say(part("watch.noted"))


def counterparts(profile: Profile) -> tuple[TestNote, TestNote] | None:
    """Return the latest whole test of a good day and of a symptomatic one, the earlier first."""
    whole = _whole(profile)
    found = [
        next((t for t in reversed(whole) if t.day is kind), None)
        for kind in (DayKind.GOOD, DayKind.SYMPTOMATIC)
    ]
    good, symptomatic = found
    if good is None or symptomatic is None:
        return None
    first, second = sorted((good, symptomatic), key=lambda t: t.began_at)
    return first, second


def _whole(profile: Profile) -> list[TestNote]:
    return [t for t in profile.tests if t.measured and t.ending is Ending.COMPLETED]


def owed(turn: Turn) -> Asking | None:
    """Return the question that was put off by something else and is still to be answered."""
    if turn.context.opening is not Opening.FULL:
        return None
    profile = turn.conversation.profile
    for test in reversed(_whole(profile)):
        if test.day is None:
            return Asking(question=Question.DAY_KIND, test=test.number)
    return Asking(question=Question.WATCH) if profile.watch_asked else None


def ask_owed(turn: Turn) -> None:
    """Put a question again that something else had put off, now that this is done with."""
    asking = owed(turn)
    if asking is not None and turn.aside is None and isinstance(turn.stage, _BETWEEN):
        turn.put(asking)
        orient(turn)


def looked_for(turn: Turn) -> DayKind:
    """The kind of day that is missing: a good one only if every test was on a bad one."""
    kinds = {t.day for t in turn.conversation.profile.tests if t.measured}
    return DayKind.GOOD if kinds == {DayKind.SYMPTOMATIC} else DayKind.SYMPTOMATIC


def day_told(turn: Turn, *, bad: bool) -> None:
    """Take a word about the day: the kind of today's test, if that is open, or else the repeat."""
    asking = owed(turn)
    if asking is not None and asking.question is Question.DAY_KIND and _is_today(turn, asking):
        take_day(turn, asking, DayKind.SYMPTOMATIC if bad else DayKind.GOOD)
        return
    watch = turn.conversation.profile.watch
    wanted = looked_for(turn) if watch is None else watch.looks_for
    if bad == (wanted is DayKind.SYMPTOMATIC):
        offer(turn)
    else:
        turn.say(part("watch.noted"))


def _is_today(turn: Turn, asking: Asking) -> bool:
    began = [t.began_at for t in turn.conversation.profile.tests if t.number == asking.test]
    return began[-1].astimezone(turn.zone_info).date() == now_there(turn).date()


# -- the repeat


def offer(turn: Turn) -> None:
    """Offer the repeat: same clock time is better, but nothing presses."""
    profile = turn.conversation.profile
    if not profile.suitable and turn.context.opening is Opening.FULL:
        orient(turn)
        return
    turn.put(Asking(question=Question.REPEAT))
    first = _compared_with(turn)
    if first is None:
        orient(turn)
    else:
        orient(turn, part("repeat.same-time", moment=Moment(first.began_at, turn.zone)))


def _compared_with(turn: Turn) -> TestNote | None:
    """Return the test that a repeat would be laid beside: the latest of the other kind of day."""
    measured = [t for t in turn.conversation.profile.tests if t.measured]
    missing = looked_for(turn)
    others = [t for t in measured if t.day is not None and t.day is not missing]
    return next(iter((*reversed(others), *reversed(measured))), None)


def take_repeat(turn: Turn, choice: str) -> None:
    """Take when the repeat is to be."""
    turn.drop()
    match choice:
        case "now":
            auditing.begin(turn)
        case "in-an-hour":
            _book_today(turn, turn.at + timedelta(hours=1))
        case "afternoon":
            at = settled_at(datetime.combine(now_there(turn).date(), _AFTERNOON), turn.zone)
            _book_today(turn, at if at > turn.at else turn.at + timedelta(hours=2))
        case _:
            turn.say(part("repeat.not-today"))


def _book_today(turn: Turn, at: datetime) -> None:
    objection = objections(at, turn.at, turn.zone, turn.context.quiet, ())
    if objection is not None:
        planning.begin(turn, part(f"objection.{objection}"))
        return
    profile = turn.conversation.profile
    turn.know(bookings=profile.bookings + 1)
    booking = Booking(number=profile.bookings + 1, at=at, zone=turn.zone, booked_at=turn.at)
    standing = _standing(turn.stage)
    if standing is not None:
        turn.hand_calendar(replace(standing, sequence=standing.sequence + 1), cancelled=True)
    turn.move(Booked(booking=booking, sent=frozenset({ReminderKind.DAY_BEFORE})))
    turn.say(part("booked", moment=Moment(at, booking.zone)), *planning.paused_note(turn))


def _standing(stage: Stage) -> Booking | None:
    """Return the booking that stands, also while it is being moved."""
    match stage:
        case Booked(booking=booking) | Planning(moving=Booking() as booking):
            return booking
        case _:
            return None
