"""The days that the facts of a phrase can mean, seen from today."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final, TypeVar

from bot.booking.facts import Ahead, Dated, Fact, InWeek, Named, Numbered, Pick
from bot.booking.outcome import Reason

_DAY: Final = timedelta(days=1)
_WEEK: Final = timedelta(days=7)
_JUST_PAST: Final = timedelta(days=60)
_STRICT: Final = 62  # "Saturday the 7th" is looked for so many days ahead
_LOOSE: Final = 31  # "Saturday 7" is rather seven o'clock if no such day is nearer
_LAST_BARE_HOUR: Final = 12
_F = TypeVar("_F", bound=Fact)


class FlawedError(Exception):
    """A reading comes to no day or time.

    Attributes:
        reason: Why; `None` if the words cannot be meant so.
        days: The days that contradict each other.
    """

    def __init__(self, reason: Reason | None, days: Sequence[date] = ()) -> None:
        super().__init__(reason)
        self.reason = reason
        self.days = tuple(days)


def only(facts: Sequence[Fact], kind: type[_F]) -> _F | None:
    """Return the fact of a kind, if there is one; readings have at most one."""
    return next((fact for fact in facts if isinstance(fact, kind)), None)


def possible_days(facts: Sequence[Fact], today: date) -> tuple[date, ...]:
    """Return the days that a reading can mean, earliest first; none if it speaks of no day.

    A weekday is the next such day. On that weekday itself, both today and a week from today are
    usual. "Next Saturday" is the coming one or the one of next week; weeks begin on Monday for
    some and on Sunday for others; all of these are returned, if they differ.
    A date without a year is the next such date, or one of the last 60 days, to be known as past.

    Raises:
        FlawedError: It comes to no day.
    """
    named, week = only(facts, Named), only(facts, InWeek)
    found = _explicit(facts, today)
    numbered = only(facts, Numbered)
    if numbered is not None:
        found = _numbered(numbered, named, found, today)
    if found:
        if named is not None and all(day.weekday() != named.weekday for day in found):
            raise FlawedError(Reason.MISMATCH, [*found, *_named(named, week, today)])
        if week is not None and not any(_in_week(day, week.week, today) for day in found):
            raise FlawedError(Reason.MISMATCH, found)
        return found
    if named is not None:
        return _named(named, week, today)
    if week is not None:
        raise FlawedError(Reason.WHICH_DAY)
    return ()


def _explicit(facts: Sequence[Fact], today: date) -> tuple[date, ...]:
    ahead, dated = only(facts, Ahead), only(facts, Dated)
    found: list[date] = []
    try:
        if ahead is not None:
            found.append(today + ahead.days * _DAY)
        if dated is not None:
            found.append(_date(dated, today))
    except (ValueError, OverflowError):
        raise FlawedError(Reason.IMPOSSIBLE) from None
    if len(set(found)) > 1:
        raise FlawedError(Reason.MISMATCH, found)
    return tuple(found[:1])


def _date(dated: Dated, today: date) -> date:
    if dated.short and dated.year not in {today.year, today.year + 1}:
        raise FlawedError(Reason.WHICH_DAY)
    if dated.year is not None:
        return date(dated.year, dated.month, dated.day)
    for year in (today.year - 1, today.year, today.year + 1):
        day = _day_of(year, dated.month, dated.day)
        if day is not None and day >= today - _JUST_PAST:
            return day
    raise FlawedError(Reason.IMPOSSIBLE)


def _day_of(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _numbered(
    numbered: Numbered, named: Named | None, found: tuple[date, ...], today: date
) -> tuple[date, ...]:
    if found:
        if numbered.loose and named is None:
            raise FlawedError(None)
        matching = tuple(day for day in found if day.day == numbered.day)
        if not matching:
            raise FlawedError(None if numbered.loose else Reason.MISMATCH, found)
        return matching
    if named is not None:
        for days in range((_LOOSE if numbered.loose else _STRICT) + 1):
            day = today + days * _DAY
            if (day.day, day.weekday()) == (numbered.day, named.weekday):
                return (day,)
        if numbered.loose and numbered.day <= _LAST_BARE_HOUR:
            raise FlawedError(None)
        raise FlawedError(
            Reason.MISMATCH, [*_next_numbered(numbered.day, today), *_named(named, None, today)]
        )
    if numbered.loose:
        raise FlawedError(None)
    days_found = _next_numbered(numbered.day, today)
    if not days_found:
        raise FlawedError(Reason.IMPOSSIBLE)
    return days_found


def _next_numbered(number: int, today: date) -> tuple[date, ...]:
    """Return the day with this number that comes next; said on that day, next month's as well."""
    this = _day_of(today.year, today.month, number)
    following = today.replace(day=1) + 31 * _DAY
    then = _day_of(following.year, following.month, number)
    if this is None or number > today.day:
        return () if this is None else (this,)
    days = (this, then) if number == today.day else (then,)
    return tuple(day for day in days if day is not None)


def _named(named: Named, week: InWeek | None, today: date) -> tuple[date, ...]:
    if week is not None:
        return _weekday_in(named.weekday, week.week, today)
    ahead = (named.weekday - today.weekday()) % 7
    if named.pick is Pick.NEXT:
        coming = today + (ahead or 7) * _DAY
        return tuple(sorted({coming, *_weekday_in(named.weekday, 1, today)}))
    if ahead == 0:
        return (today, today + _WEEK)
    return (today + ahead * _DAY,)


def _weekday_in(weekday: int, week: int, today: date) -> tuple[date, ...]:
    """Return a day of a week that begins on Monday, and on Sunday, if they differ."""
    monday = today - today.weekday() * _DAY
    sunday = today - (today.weekday() + 1) % 7 * _DAY
    return tuple(
        sorted(
            {
                monday + week * _WEEK + weekday * _DAY,
                sunday + week * _WEEK + (weekday + 1) % 7 * _DAY,
            }
        )
    )


def _in_week(day: date, week: int, today: date) -> bool:
    return day in _weekday_in(day.weekday(), week, today)
