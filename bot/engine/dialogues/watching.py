"""The watch: it looks out for a day of the kind that is missing, and backs off when unanswered.

A bad day cannot be booked: it is noticed that morning. So the watch asks once a day, or waits for
a word.
"""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.zones import settled_at
from bot.engine.context import Context
from bot.engine.dialogues import between
from bot.engine.dialogues.orientation import orient
from bot.engine.effects import ClockTime, Urgency
from bot.engine.profile import Profile, Watch
from bot.engine.state import Asking, Question
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import DayKind

WEEKLY_AFTER: Final = 3
"""After so many unanswered questions in a row the watch asks once a week (design choice)."""

_TOO_LATE: Final = timedelta(hours=2)
"""A question that could not be put at its hour is put no later than this (design choice)."""


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
            turn.say(part(f"watch.by-word.{between.looked_for(turn)}"))
        case _:
            turn.know(watch=None, watch_asked=False)
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
    turn.know(watch_asked=False)
    turn.drop()
    if watch is None or watch.hour is None:
        orient(turn)
        return
    turn.know(watch=replace(watch, line=line))
    paused = (part("paused.still"),) if turn.conversation.profile.paused else ()
    turn.say(part("watch.set", time=ClockTime(watch.hour), line=line), *paused)


def _start(turn: Turn, hour: time | None) -> None:
    turn.know(watch=Watch(since=turn.at, looks_for=between.looked_for(turn), hour=hour))


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
    due = settled_at(datetime.combine(day, watch.hour), zone)
    if watch.missed_at is None or watch.missed_at < due:
        return due
    day = watch.missed_at.astimezone(ZoneInfo(zone)).date() + timedelta(days=1)
    return settled_at(datetime.combine(day, watch.hour), zone)


def pass_time(turn: Turn) -> None:
    """Ask the daily question, or end the watch and say so.

    A question whose hour has passed unseen (reminders were paused, say) waits for the next day:
    it never comes in the night.
    """
    profile = turn.conversation.profile
    watch = profile.watch
    due = deadline(turn.context, profile)
    if watch is None or due is None or turn.at < due:
        return
    if turn.at >= watch.since + turn.context.watch_lasts:
        turn.know(watch=None, second_missing_since=turn.at)
        turn.drop()
        turn.say(part("watch.over"), urgency=Urgency.REMINDER)
        return
    if turn.at - due > _TOO_LATE:
        turn.know(watch=replace(watch, missed_at=turn.at))
        return
    unanswered = watch.unanswered + (0 if watch.asked_at is None or watch.answered else 1)
    asked = replace(watch, asked_at=turn.at, answered=False, unanswered=unanswered)
    turn.know(watch=asked)
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
    turn.know(watch=replace(watch, unanswered=0, answered=True))
    bad = score >= watch.line
    if bad == (watch.looks_for is DayKind.SYMPTOMATIC):
        between.offer(turn)
    else:
        turn.say(part("watch.noted"))
