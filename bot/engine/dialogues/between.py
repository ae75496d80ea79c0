"""Between two tests: what kind of day it was, the watch for the other kind, and the repeat.

A bad day cannot be booked: it is noticed that morning. So the watch asks once a day, or waits for
a word, and backs off when nobody answers.
"""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Final, assert_never
from zoneinfo import ZoneInfo

from bot.booking.plan import Booking, ReminderKind
from bot.booking.zones import Doubled, Instant, Skipped, settle
from bot.engine.context import Context, Opening
from bot.engine.dialogues import auditing
from bot.engine.dialogues.offers import now_there
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import ClockTime, Moment, Urgency
from bot.engine.profile import Profile, TestNote, Watch
from bot.engine.state import Asking, Booked, Question
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import DayKind
from bot.protocol.record import Ending, TestRecord

WEEKLY_AFTER: Final = 3
"""After so many unanswered questions in a row the watch asks once a week (design choice)."""

_AFTERNOON: Final = time(15, 0)


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
    if turn.record is not None and turn.record.number == aside.test:
        record = replace(turn.record, day=day)
        turn.update(record)
        turn.keep(record)
    measured = [t for t in tests if t.measured and t.ending is Ending.COMPLETED]
    if _both_kinds(measured):
        turn.know(watch=None)
        turn.say(part("second.done"))
        first, second = measured[-2:]
        turn.compare(first.number, second.number)
    else:
        turn.put(Asking(question=Question.WATCH, test=aside.test))
        orient(turn)


def _both_kinds(tests: list[TestNote]) -> bool:
    kinds = {t.day for t in tests}
    return len(tests) >= 2 and {DayKind.GOOD, DayKind.SYMPTOMATIC} <= kinds


def take_watch(turn: Turn, choice: str) -> None:
    """Set up the watch: a question a day, or their own word, or nothing."""
    match choice:
        case "daily":
            turn.put(Asking(question=Question.WATCH_HOUR))
            orient(turn)
        case "word":
            _start(turn, None)
            turn.drop()
            turn.say(part(f"watch.by-word.{_looked_for(turn)}"))
        case _:
            turn.know(watch=None)
            turn.drop()
            turn.say(part("watch.declined"))


def take_hour(turn: Turn, hour: int) -> None:
    """Keep the hour of the daily question and ask for their own line."""
    _start(turn, time(hour))
    turn.put(Asking(question=Question.WATCH_LINE))
    orient(turn)


def take_line(turn: Turn, line: int) -> None:
    """Keep from which number on a day is bad; the watch is set."""
    watch = turn.conversation.profile.watch
    turn.drop()
    if watch is None or watch.hour is None:
        orient(turn)
        return
    turn.know(watch=replace(watch, line=line))
    turn.say(part("watch.set", time=ClockTime(watch.hour), line=line))


def _start(turn: Turn, hour: time | None) -> None:
    turn.know(watch=Watch(since=turn.at, looks_for=_looked_for(turn), hour=hour))


def _looked_for(turn: Turn) -> DayKind:
    """The kind of day that is missing: a good one only if every test was on a bad one."""
    kinds = {t.day for t in turn.conversation.profile.tests if t.measured}
    return DayKind.GOOD if kinds == {DayKind.SYMPTOMATIC} else DayKind.SYMPTOMATIC


# -- the watch at work


def deadline(context: Context, profile: Profile) -> datetime | None:
    """Return when the watch next does something by itself: a question, or its own end."""
    watch = profile.watch
    if watch is None or profile.paused:
        return None
    ends_at = watch.since + context.watch_lasts
    if watch.hour is None:
        return ends_at
    return min(ends_at, _next_question(watch, profile.zone or "UTC"))


def _next_question(watch: Watch, zone: str) -> datetime:
    """The next such hour on the person's clock, a day or a week after the last one."""
    assert watch.hour is not None
    last = watch.asked_at or watch.since
    gap = 7 if watch.unanswered >= WEEKLY_AFTER else 1
    day = last.astimezone(ZoneInfo(zone)).date() + timedelta(days=gap)
    return _at(datetime.combine(day, watch.hour), zone)


def _at(local: datetime, zone: str) -> datetime:
    settled = settle(local, zone)
    match settled:
        case Instant():
            return settled.at
        case Skipped():
            return settled.after
        case Doubled():
            return settled.first
        case _:
            assert_never(settled)


def pass_time(turn: Turn) -> None:
    """Ask the daily question, or end the watch and say so."""
    profile = turn.conversation.profile
    watch = profile.watch
    due = deadline(turn.context, profile)
    if watch is None or due is None or turn.at < due:
        return
    if turn.at >= watch.since + turn.context.watch_lasts:
        turn.know(watch=None)
        turn.drop()
        turn.say(part("watch.over"), urgency=Urgency.REMINDER)
        return
    unanswered = watch.unanswered + (0 if watch.asked_at is None else 1)
    turn.know(watch=replace(watch, asked_at=turn.at, unanswered=unanswered))
    turn.put(Asking(question=Question.DAY_SCORE))
    first = (part("watch.weekly"),) if unanswered == WEEKLY_AFTER else ()
    orient(turn, *first, urgency=Urgency.REMINDER)


def take_score(turn: Turn, score: int) -> None:
    """Take the day's number; a day of the kind that is missing offers the repeat."""
    watch = turn.conversation.profile.watch
    turn.drop()
    if watch is None:
        orient(turn)
        return
    turn.know(watch=replace(watch, unanswered=0, asked_at=turn.at))
    bad = score >= watch.line
    if bad == (watch.looks_for is DayKind.SYMPTOMATIC):
        offer(turn)
    else:
        turn.say(part("watch.noted"))


def offer(turn: Turn) -> None:
    """Offer the repeat: same clock time is better, but nothing presses."""
    profile = turn.conversation.profile
    if not profile.suitable and turn.context.opening is Opening.FULL:
        orient(turn)
        return
    turn.put(Asking(question=Question.REPEAT))
    first = _last(profile)
    if first is None:
        orient(turn)
    else:
        orient(turn, part("repeat.same-time", moment=Moment(first.began_at, turn.zone)))


def _last(profile: Profile) -> TestNote | None:
    measured = [t for t in profile.tests if t.measured]
    return measured[-1] if measured else None


def take_repeat(turn: Turn, choice: str) -> None:
    """Take when the repeat is to be."""
    turn.drop()
    match choice:
        case "now":
            auditing.begin(turn)
        case "in-an-hour":
            _book_today(turn, turn.at + timedelta(hours=1))
        case "afternoon":
            local = datetime.combine(now_there(turn).date(), _AFTERNOON)
            at = _at(local, turn.zone)
            _book_today(turn, at if at > turn.at else turn.at + timedelta(hours=2))
        case _:
            turn.say(part("repeat.not-today"))


def _book_today(turn: Turn, at: datetime) -> None:
    profile = turn.conversation.profile
    turn.know(bookings=profile.bookings + 1)
    booking = Booking(number=profile.bookings + 1, at=at, zone=turn.zone, booked_at=turn.at)
    if isinstance(turn.stage, Booked):
        old = turn.stage.booking
        turn.hand_calendar(replace(old, sequence=old.sequence + 1), cancelled=True)
    turn.move(Booked(booking=booking, sent=frozenset({ReminderKind.DAY_BEFORE})))
    turn.say(part("booked", moment=Moment(at, booking.zone)))
