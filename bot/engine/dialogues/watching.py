"""The watch: it looks out for a day of the kind that is missing, and backs off when unanswered.

A bad day cannot be booked: it is noticed that morning. So the watch asks once a day, or waits for
a word.
"""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.plan import Booking
from bot.booking.quiet import Quiet, quiet_span
from bot.booking.zones import settled_at
from bot.engine.asides import Asking, Question
from bot.engine.buttons import part
from bot.engine.context import Context
from bot.engine.dialogues import between
from bot.engine.dialogues.daybook import looked_for, test_days
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import ClockTime, Part, Urgency
from bot.engine.paper import CopyingPaper, DatingPaper
from bot.engine.profile import Profile, Watch
from bot.engine.state import ChoosingPlace, Enrolling, Planning
from bot.engine.turn import Turn
from bot.protocol.circumstances import DayKind

WEEKLY_AFTER: Final = 3
"""After so many unanswered questions in a row the watch asks once a week (design choice)."""

_TOO_LATE: Final = timedelta(hours=2)
"""A question that could not be put at its hour is put no later than this (design choice)."""

_AT_ITS_HOUR: Final = timedelta(minutes=5)
"""So long after its hour a question still comes in quiet hours: the person chose the hour (design
choice)."""

BOOKED_SOON: Final = timedelta(days=1)
"""With a test booked so near no day is looked out for (design choice)."""

EARLIEST: Final = time(6)
LATEST: Final = time(21)
"""The hours that the daily question may have (design choice)."""


def take_watch(turn: Turn, choice: str) -> None:
    """Set up the watch: a question a day, or their own word, or nothing."""
    match choice:
        case "daily":
            turn.put(Asking(question=Question.WATCH_HOUR))
            orient(turn)
        case "word":
            _start(turn, None)
            turn.know(watch_asked=False)
            turn.drop()
            turn.say(part(f"watch.by-word.{looked_for(turn.conversation.profile)}"))
        case _:
            turn.know(watch=None, watch_asked=False)
            turn.drop()
            turn.say(part("watch.declined"))


def take_hour(turn: Turn, hour: time) -> None:
    """Keep the hour of the daily question and ask for their own line."""
    if not EARLIEST <= hour <= LATEST or hour.minute not in (0, 30):
        orient(turn, part("watch.hour-range"))
        return
    _start(turn, hour)
    turn.put(Asking(question=Question.WATCH_LINE))
    orient(turn)


def take_line(turn: Turn, line: int) -> None:
    """Keep from which number on a day is bad; the watch is set."""
    watch = turn.conversation.profile.watch
    turn.know(watch_asked=False)
    turn.drop()
    if watch is None or watch.hour is None:
        orient(turn)
        return
    turn.know(watch=replace(watch, line=line))
    paused = (part("paused.still"),) if turn.conversation.profile.paused else ()
    turn.say(part("watch.set", time=ClockTime(watch.hour), line=line), *paused)


def _start(turn: Turn, hour: time | None) -> None:
    missing = looked_for(turn.conversation.profile)
    turn.know(watch=Watch(since=turn.at, looks_for=missing, hour=hour))


def deadline(context: Context, profile: Profile) -> datetime | None:
    """Return when the watch next does something by itself: a question, or its own end.

    Its end is said by day.
    """
    watch = profile.watch
    if watch is None or profile.paused:
        return None
    ends_at = _ends_at(context, profile, watch)
    if watch.hour is None:
        return ends_at
    return min(ends_at, _next_question(profile, watch, watch.hour))


def deadline_before(context: Context, profile: Profile, booking: Booking) -> datetime | None:
    """Return the same while a test is booked; `None` with the test so near that nothing is due."""
    due = deadline(context, profile)
    return due if due is not None and due < booking.at - BOOKED_SOON else None


def _ends_at(context: Context, profile: Profile, watch: Watch) -> datetime:
    ends_at = watch.since + context.watch_lasts
    quiet = _quiet_at(context.quiet, profile, ends_at)
    return ends_at if quiet is None else quiet


def _quiet_at(quiet: Quiet, profile: Profile, at: datetime) -> datetime | None:
    """Return when the quiet hours end that an instant lies in; `None` if it is in none."""
    span = quiet_span(quiet, profile.zone or "UTC", at)
    return None if span is None else span[1]


def _next_question(profile: Profile, watch: Watch, hour: time) -> datetime:
    """The next such hour on the person's clock, a day or a week after the last one.

    None comes on a day when a question was left out, nor on the day of a test.
    """
    zone = profile.zone or "UTC"
    there = ZoneInfo(zone)
    gap = timedelta(days=7 if watch.unanswered >= WEEKLY_AFTER else 1)
    day = (watch.asked_at or watch.since).astimezone(there).date() + gap
    if watch.missed_at is not None:
        day = max(day, watch.missed_at.astimezone(there).date() + timedelta(days=1))
    while day in test_days(profile):
        day += timedelta(days=1)
    return settled_at(datetime.combine(day, hour), zone)


def rest(turn: Turn) -> None:
    """Words of safety were said: no daily question on this day."""
    watch = turn.conversation.profile.watch
    if watch is not None:
        turn.know(watch=replace(watch, missed_at=turn.at))


def pass_time(turn: Turn, *first: Part) -> None:
    """Ask the daily question, or end the watch and say so.

    A question whose hour has passed unseen (reminders were paused, say) waits for the next day:
    it never comes in the night. What was left open gives way to one that is put.

    Args:
        turn: The step.
        first: Words on what was left open.
    """
    profile = turn.conversation.profile
    watch = profile.watch
    due = deadline(turn.context, profile)
    if watch is None or due is None or turn.at < due:
        return
    ends = turn.at >= _ends_at(turn.context, profile, watch)
    late = turn.at - due
    in_the_night = _quiet_at(turn.context.quiet, profile, turn.at) is not None
    if not ends and (late > _TOO_LATE or (late > _AT_ITS_HOUR and in_the_night)):
        turn.know(watch=replace(watch, missed_at=turn.at))
        return
    if first:
        turn.go_back()
    if ends:
        turn.know(watch=None, second_missing_since=turn.at)
        turn.drop()
        turn.say(*first, part("watch.over"), urgency=Urgency.REMINDER)
        return
    unanswered = watch.unanswered + (0 if watch.asked_at is None or watch.answered else 1)
    asked = replace(watch, asked_at=turn.at, answered=False, unanswered=unanswered)
    turn.know(watch=asked)
    turn.put(Asking(question=Question.DAY_SCORE))
    weekly = (part("watch.weekly"),) if unanswered == WEEKLY_AFTER else ()
    orient(turn, *first, *weekly, urgency=Urgency.REMINDER)


def pass_over(turn: Turn) -> None:
    """Ask the daily question although something else was left open; say so."""
    match turn.stage:
        case Planning():
            words = "planning"
        case Enrolling() | ChoosingPlace():
            words = "question"
        case DatingPaper() | CopyingPaper():
            words = "paper"
        case _:
            words = "preparing"
    pass_time(turn, part(f"put-aside.{words}"))


def take_score(turn: Turn, score: int) -> None:
    """Take the day's number; a day of the kind that is missing offers the repeat."""
    watch = between.note_answer(turn)
    turn.drop()
    if watch is None:
        orient(turn)
        return
    bad = score >= watch.line
    if bad == (watch.looks_for is DayKind.SYMPTOMATIC):
        between.offer(turn)
    else:
        turn.say(part("watch.noted"))
