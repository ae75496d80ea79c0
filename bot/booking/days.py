"""The ways to say a day."""

from collections.abc import Iterator
from typing import Final

from bot.booking.facts import Ahead, Dated, Flaw, InWeek, Later, Named, Numbered, Pick, Step, Within
from bot.booking.outcome import Reason
from bot.booking.row import Row
from bot.booking.tokens import Form
from bot.booking.words import Role

_IMPOSSIBLE: Final = Flaw(reason=Reason.IMPOSSIBLE)
_LAST: Final = 31
_YEARS: Final = range(1900, 2200)
_DAY: Final = 1440
_MOST: Final = 999  # of any unit of time ahead
_BEFORE_DAYS: Final = (Role.ON, Role.THE, Role.DAY_WORD)
_LOOSELY_COUNTED: Final = frozenset({8, 15})  # "en ocho días" is a week, "en quince días" are two


def days(row: Row, place: int) -> Iterator[Step]:
    """Yield every way to read a day that starts here."""
    if (ahead := row.value(place, Role.AHEAD)) is not None:
        yield (Ahead(days=ahead),), place + 1
    if (stretch := row.stretch(place, Role.TODAYS)) is not None:
        yield (Ahead(days=0), Within(stretch=stretch)), place + 1
    if (week := row.value(place, Role.WEEK)) is not None:
        yield (InWeek(week=week),), place + 1
    yield from _named(row, place)
    yield from _ahead(row, place)
    yield from _dated(row, place)
    yield from _written(row, place)


def _named(row: Row, place: int) -> Iterator[Step]:
    pick = Pick.PLAIN
    if row.has(place, Role.THIS):
        pick = Pick.THIS
    elif row.has(place, Role.NEXT):
        pick = Pick.NEXT
    place = row.past(place, Role.THIS, Role.NEXT)
    weekday = row.value(place, Role.WEEKDAY)
    if weekday is None:
        return
    if pick is Pick.PLAIN and row.has(place + 1, Role.NEXT):
        yield (Named(weekday=weekday, pick=Pick.NEXT),), place + 2
    yield (Named(weekday=weekday, pick=pick),), place + 1


# -- so long from now


def _ahead(row: Row, place: int) -> Iterator[Step]:
    led = row.has(place, Role.IN)
    place = row.past(place, Role.IN)
    length = row.value(place, Role.LENGTH)
    if led and length is not None:
        yield (Later(minutes=length),), row.past(place + 1, Role.FROM_NOW)
    number = row.value(place, Role.NUMBER)
    if number is None and row.has(place, Role.A):
        number = 1
    if number is None or not 0 <= number <= _MOST:
        return
    counted = row.has(place + 1, Role.COUNTED_DAYS)
    unit = _DAY if counted else row.value(place + 1, Role.UNIT)
    after = row.past(place + 2, Role.FROM_NOW)
    if unit is None or not (led or after > place + 2):
        return
    minutes = number * unit
    if unit < _DAY:
        yield (Later(minutes=minutes),), after
    else:
        yield (Ahead(days=minutes // _DAY),), after
        if counted and number in _LOOSELY_COUNTED:
            yield (Ahead(days=number - 1),), after
    more = row.past(after, Role.AND)
    number, unit = row.value(more, Role.NUMBER), row.value(more + 1, Role.UNIT)
    if number is not None and unit is not None and number <= _MOST:
        yield (Later(minutes=minutes + number * unit),), row.past(more + 2, Role.FROM_NOW)


# -- dates


def _dated(row: Row, start: int) -> Iterator[Step]:
    place = start
    for roles in ((Role.THIS, Role.NEXT), (Role.ON,), (Role.THE,), (Role.THIS, Role.NEXT)):
        place = row.past(place, *roles)
    place = row.past(place, Role.DAY_WORD)
    led = row.has(place - 1, *_BEFORE_DAYS) and place > start
    if not row.digits(place):
        led = led and row.has(place - 1, Role.EL, Role.DAY_WORD)  # "the one" is no day
    day = _day(row, place)
    if day is not None:
        month_place = row.past(place + 1, Role.OF)
        month = row.value(month_place, Role.MONTH)
        if month is not None:
            yield from _with_year(row, month_place + 1, day, month)
        elif _counts(row, place):
            pass
        elif row.value(place, Role.ORDINAL) is not None or led:
            yield (Numbered(day=day) if 0 < day <= _LAST else _IMPOSSIBLE,), place + 1
        elif 0 < day <= _LAST and place == start:
            yield (Numbered(day=day, loose=True),), place + 1
    month = row.value(place, Role.MONTH)
    if month is not None:
        yield (Flaw(reason=Reason.WHICH_DAY),), place + 1
        day_place = row.past(place + 1, Role.THE)
        day = _day(row, day_place)
        if day is not None:
            yield from _with_year(row, day_place + 1, day, month)


def _counts(row: Row, place: int) -> bool:
    """Return whether a number is no day: in "Sunday 8 am" an hour, in "second Saturday" a count."""
    if row.has(place, Role.ORDINAL):
        return row.has(place + 1, Role.WEEKDAY) and row.tight(place + 1)
    return row.has(place + 1, Role.OF_HOURS, Role.HOUR_MARK)


def _day(row: Row, place: int) -> int | None:
    number = row.value(place, Role.ORDINAL)
    if number is None:
        number = row.value(place, Role.NUMBER)
    return number if all(len(run) <= 2 for run in row.digits(place)) else None


def _with_year(row: Row, after: int, day: int, month: int) -> Iterator[Step]:
    yield (Dated(day=day, month=month),), after
    place = row.past(after, Role.OF)
    year = row.value(place, Role.NUMBER)
    if year is not None and len("".join(row.digits(place))) == 4 and year in _YEARS:
        yield (Dated(day=day, month=month, year=year),), place + 1


def _written(row: Row, place: int) -> Iterator[Step]:
    """Yield dates in digits, in every order that has such a month."""
    place = row.past(row.past(place, Role.THIS, Role.NEXT), Role.DAY_WORD)
    runs = row.digits(place)
    year: int | None
    match row.form(place):
        case Form.ISO:
            yield (Dated(year=int(runs[0]), month=int(runs[1]), day=int(runs[2])),), place + 1
            return
        case Form.TRIPLE:
            first, second, year_run = runs
            short = len(year_run) == 2
            year = int(year_run) + 2000 * short
        case Form.PAIR:
            (first, second), year, short = runs, None, False
        case _:
            return
    for day_run, month_run in ((first, second), (second, first)):
        fact = Dated(day=int(day_run), month=int(month_run), year=year, short=short)
        yield (fact,), place + 1
