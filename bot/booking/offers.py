"""Days and times that are offered for a test, and what speaks against one."""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.quiet import Quiet, since_midnight

TOO_FAR: Final = timedelta(days=60)  # design choice
_DAY: Final = timedelta(days=1)
# A test begins at most so long inside the quiet hours: from 6:00 to 22:00 as these are by default.
# Design choice.
_AFTER_QUIET_STARTS: Final = timedelta(minutes=30)
_BEFORE_QUIET_ENDS: Final = timedelta(minutes=90)
# More people meet the heart-rate line in the morning (Moon 2016; clinical page: found).
_OFFERED: Final = (time(8), time(9), time(10), time(11), time(14), time(16))


class Objection(StrEnum):
    """What speaks against a time for a test."""

    IN_THE_PAST = "in-the-past"
    TOO_FAR = "too-far"
    IN_THE_NIGHT = "in-the-night"
    ALREADY_BOOKED = "already-booked"  # a test is booked for that day


def objections(
    at: datetime, now: datetime, zone: str, quiet: Quiet, taken: Iterable[datetime]
) -> Objection | None:
    """Return what speaks against a time for a test; of several, the first of `Objection`.

    Args:
        at: The time.
        now: The present.
        zone: The person's.
        quiet: The quiet hours: a test begins at most 30 min after they begin, and at the earliest
            90 min before they end.
        taken: When tests are booked that this one does not replace.
    """
    there = ZoneInfo(zone)
    local = at.astimezone(there)
    if at <= now:
        return Objection.IN_THE_PAST
    if at - now > TOO_FAR:
        return Objection.TOO_FAR
    if _in_night(local, quiet):
        return Objection.IN_THE_NIGHT
    if any(other.astimezone(there).date() == local.date() for other in taken):
        return Objection.ALREADY_BOOKED
    return None


def _in_night(local: datetime, quiet: Quiet) -> bool:
    starts = since_midnight(quiet.starts) + _AFTER_QUIET_STARTS
    night = quiet.lasts - _AFTER_QUIET_STARTS - _BEFORE_QUIET_ENDS
    return (since_midnight(local.time()) - starts) % _DAY < night


def days(now: datetime, count: int = 7) -> tuple[date, ...]:
    """Return the next days that are offered; today is one while an offered time of it is left.

    Args:
        now: The present in the person's zone.
        count: How many.
    """
    first = now.date() if mornings(now.date(), now) else now.date() + _DAY
    return tuple(first + ahead * _DAY for ahead in range(count))


def mornings(day: date, now: datetime | None = None) -> tuple[time, ...]:
    """Return the times of a day that are offered, the morning first.

    Args:
        day: The day.
        now: The present in the person's zone; times that are over are left out.
    """
    if now is None or day > now.date():
        return _OFFERED
    if day < now.date():
        return ()
    return tuple(clock for clock in _OFFERED if clock > now.time())
