"""When reminders of a booked test are due.

A plan is worked out anew from the booking whenever it is looked at; nothing of it is kept but
which kinds went out. So no reminder of a booking that was moved or called off can be left behind.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.offers import Objection, days, mornings, objections
from bot.booking.quiet import Quiet, Span, awake, earliest, quiet_span

__all__ = [
    "Booking",
    "Objection",
    "Quiet",
    "Reminder",
    "ReminderKind",
    "ReminderTimes",
    "carried",
    "days",
    "due",
    "mornings",
    "next_at",
    "objections",
    "plan",
]

_OFFER_LASTS: Final = timedelta(days=7)  # design choice: after that it would only puzzle
_ANSWER: Final = timedelta(minutes=5)  # so long after booking, its answer may still come at night
_MINUTE: Final = timedelta(minutes=1)


class ReminderKind(StrEnum):
    """What a reminder is for, in the order in which they come."""

    DAY_BEFORE = "day-before"  # the preparation list
    HOURS_BEFORE = "hours-before"  # caffeine, nicotine: none for 3 h (clinical page: found)
    SOON = "soon"  # the kit, and start, later or move
    FOLLOW_UP = "follow-up"  # the test was not started
    OFFER = "offer"  # another time


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """A test at a time.

    Attributes:
        number: Which of the person's bookings it is.
        at: When, in UTC.
        zone: The zone of the person's clock.
        booked_at: When it was booked or last moved, in UTC.
        sequence: How often it was changed.
        put_off: Whether it was put off for a moment after its time: the reminder comes with it.

    Raises:
        ValueError: An instant is not in UTC.
    """

    number: int
    at: datetime
    zone: str
    booked_at: datetime
    sequence: int = 0
    put_off: bool = False

    def __post_init__(self) -> None:
        if any(instant.utcoffset() != timedelta() for instant in (self.at, self.booked_at)):
            raise ValueError("instants of a booking are in UTC")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReminderTimes:
    """How long before and after the test. Design choices but for the hours before.

    Attributes:
        day_before: On the person's clock: the same time of day, also if the clocks change.
        hours_before: At least the 3 h without caffeine and nicotine, and time to read it.
        soon: Before the test.
        follow_up: After the time of the test, if it was not started.
        offer: After the time of the test, if it was still not started.

    Raises:
        ValueError: They are not in that order.
    """

    day_before: timedelta = timedelta(hours=24)
    hours_before: timedelta = timedelta(hours=4)
    soon: timedelta = timedelta(minutes=15)
    follow_up: timedelta = timedelta(minutes=30)
    offer: timedelta = timedelta(hours=3)

    def __post_init__(self) -> None:
        before = self.day_before > self.hours_before > self.soon > timedelta()
        if not (before and timedelta() < self.follow_up < self.offer):
            raise ValueError("reminder times are out of order")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reminder:
    """A reminder of a booked test.

    Attributes:
        kind: What it is for.
        at: When it is due, in UTC.
        spans: When it may go out, should it be late: until the next one takes its place, and
            outside of the quiet hours.
        at_once: Whether it answers the booking, since its own time was past by then.
    """

    kind: ReminderKind
    at: datetime
    spans: tuple[Span, ...] = ()
    at_once: bool = False


def plan(booking: Booking, times: ReminderTimes, quiet: Quiet) -> tuple[Reminder, ...]:
    """Return the reminders of a booking, in order, each kind at most once.

    In quiet hours: the day-before and hours-before ones come in the last minute before those
    begin; the follow-up and the offer when they are over; the one soon before the test stays, and
    so does one that answers the booking at once. Where two would fall together, the day-before
    list stands for the hours-before one, and the offer for the follow-up.

    Booked late: of those whose time is past, only the one that helps most comes at once: the
    preparation list, with no more than `hours_before` left the hours-before one, with no more
    than `soon` left that one.
    """
    before = _before_test(booking, times, quiet)
    everything = (*before, *_after_test(booking, times, quiet))
    reminders = [reminder for reminder in everything if reminder.at > booking.booked_at]
    answer = _answer(booking, times, before[0].at)
    if answer is not None:
        reminders.insert(0, Reminder(kind=answer, at=booking.booked_at, at_once=True))
    ends = [reminder.at for reminder in reminders[1:]]
    return tuple(
        replace(reminder, spans=_spans(reminder, booking, quiet, following))
        for reminder, following in zip(reminders, [*ends, None], strict=True)
    )


def due(
    reminders: Iterable[Reminder], sent: Collection[ReminderKind], now: datetime
) -> Reminder | None:
    """Return the reminder that should go out now, if one should.

    A late one still goes out while it is of use: not once the next one is due, nor, if it is the
    one soon before the test, once the test should have begun; and not in quiet hours.

    Args:
        reminders: The plan.
        sent: The kinds that went out, or are of no use any more.
        now: The present.
    """
    return next(
        (
            reminder
            for reminder in _open(reminders, sent)
            if any(starts <= now < ends for starts, ends in reminder.spans)
        ),
        None,
    )


def next_at(
    reminders: Iterable[Reminder], sent: Collection[ReminderKind], since: datetime | None = None
) -> datetime | None:
    """Return the first instant at which one is due; `None` if none will be.

    Args:
        reminders: The plan.
        sent: The kinds that went out, or are of no use any more.
        since: When they were last looked at; without it, instants long past count as well.
    """
    instants = [
        starts if since is None else max(starts, since)
        for reminder in _open(reminders, sent)
        for starts, ends in reminder.spans
        if since is None or since < ends
    ]
    return min(instants, default=None)


def carried(
    reminders: Iterable[Reminder], sent: Collection[ReminderKind]
) -> frozenset[ReminderKind]:
    """Return the kinds that need not be said again after a move.

    Args:
        reminders: The plan of the booking as it was moved.
        sent: The kinds that went out before.

    Returns:
        Those that would only be repeated at once; what has a time of its own comes anew.
    """
    return frozenset(r.kind for r in reminders if r.at_once and r.kind in sent)


def _open(reminders: Iterable[Reminder], sent: Collection[ReminderKind]) -> Iterable[Reminder]:
    """Return the reminders not sent, without those before one that was."""
    order = list(ReminderKind)
    latest = max((order.index(kind) for kind in sent), default=-1)
    return [reminder for reminder in reminders if order.index(reminder.kind) > latest]


def _before_test(booking: Booking, times: ReminderTimes, quiet: Quiet) -> list[Reminder]:
    local = booking.at.astimezone(ZoneInfo(booking.zone)).replace(tzinfo=None)
    day_before = _last_awake(earliest(local - times.day_before, booking.zone), booking, quiet)
    hours_before = _last_awake(booking.at - times.hours_before, booking, quiet)
    reminders = [Reminder(kind=ReminderKind.DAY_BEFORE, at=day_before)]
    if hours_before > day_before:
        reminders.append(Reminder(kind=ReminderKind.HOURS_BEFORE, at=hours_before))
    soon = timedelta() if booking.put_off else times.soon
    reminders.append(Reminder(kind=ReminderKind.SOON, at=booking.at - soon))
    return reminders


def _after_test(booking: Booking, times: ReminderTimes, quiet: Quiet) -> list[Reminder]:
    follow_up, offer = (
        at if (span := quiet_span(quiet, booking.zone, at)) is None else span[1]
        for at in (booking.at + times.follow_up, booking.at + times.offer)
    )
    reminders = [Reminder(kind=ReminderKind.OFFER, at=offer)]
    if follow_up < offer:
        reminders.insert(0, Reminder(kind=ReminderKind.FOLLOW_UP, at=follow_up))
    return reminders


def _last_awake(at: datetime, booking: Booking, quiet: Quiet) -> datetime:
    span = quiet_span(quiet, booking.zone, at)
    return at if span is None else span[0] - _MINUTE


def _answer(booking: Booking, times: ReminderTimes, day_before_at: datetime) -> ReminderKind | None:
    """Return the kind that comes at once, if one does."""
    left = booking.at - booking.booked_at
    if left <= timedelta():
        return None
    if left <= times.soon:
        return ReminderKind.SOON
    if left <= times.hours_before:
        return ReminderKind.HOURS_BEFORE
    return ReminderKind.DAY_BEFORE if day_before_at <= booking.booked_at else None


def _spans(
    reminder: Reminder, booking: Booking, quiet: Quiet, following: datetime | None
) -> tuple[Span, ...]:
    until = following if following is not None else reminder.at + _OFFER_LASTS
    before = {ReminderKind.DAY_BEFORE, ReminderKind.HOURS_BEFORE, ReminderKind.SOON}
    if reminder.kind in before and reminder.at < booking.at:
        until = min(until, booking.at)
    if reminder.kind is ReminderKind.SOON:
        return ((reminder.at, until),)
    if not reminder.at_once:
        return awake(quiet, booking.zone, reminder.at, until)
    answered = min(reminder.at + _ANSWER, until)
    return ((reminder.at, answered), *awake(quiet, booking.zone, answered, until))
