"""The ways to say a time of the day."""

from collections.abc import Iterator
from typing import Final

from bot.booking.facts import Clock, Fact, Flaw, Step
from bot.booking.outcome import Reason
from bot.booking.row import Row
from bot.booking.tokens import Form
from bot.booking.words import Role

_IMPOSSIBLE: Final = Flaw(reason=Reason.IMPOSSIBLE)
_FROM_TO: Final = Flaw(reason=Reason.TOO_MANY, usual=True)
_HOURS: Final = 24
_LATEST_TWELVE: Final = 12
_FEWEST_PLAIN: Final = 13  # "9 30" is a time; "9 10" may be two hours, or a date
_ROUND: Final = 5  # "ten to nine", not "seven to nine", unless minutes are named


def clocks(row: Row, place: int) -> Iterator[Step]:
    """Yield every way to read a time that starts here."""
    led = row.has(place, Role.AT)
    for fact, after in _times(row, row.past(place, Role.AT), led=led):
        marked = row.past(after, Role.HOUR_MARK)
        if marked == after and isinstance(fact, Clock) and row.value(after, Role.UNIT) == 60:
            marked += _military(row, after - 1)
        yield (fact,), marked


def _military(row: Row, place: int) -> bool:
    """Return whether "hours" can follow: 0900 hours is a time, 9 hours is a length."""
    return row.form(place) is Form.CLOCK or any(len(run) > 2 for run in row.digits(place))


def _times(row: Row, place: int, *, led: bool) -> Iterator[tuple[Fact, int]]:
    form, runs = row.form(place), row.digits(place)
    if form is Form.CLOCK:
        yield _clock(int(runs[0]), int(runs[1])), place + 1
    elif form is Form.PAIR and row.units[place].dashed:
        yield from _dashed(row, place)
    elif row.has(place, Role.NUMBER):
        yield from _by_number(row, place, led=led)
    elif row.has(place, Role.HALF):
        yield from _half(row, place + 1)
    quarter = row.past(place, Role.A)
    if row.has(quarter, Role.QUARTER):
        yield from _from_hour(row, quarter + 1, 15)
    if row.has(place, Role.NOON):
        yield Clock(hour=12, exact=True), place + 1
    if row.has(place, Role.MIDNIGHT):
        yield Clock(hour=0, exact=True), place + 1


def _clock(hour: int, minute: int, run: str = "") -> Clock | Flaw:
    possible = 0 <= hour < _HOURS and 0 <= minute < 60
    return Clock(hour=hour, minute=minute, run=run) if possible else _IMPOSSIBLE


def _dashed(row: Row, place: int) -> Iterator[tuple[Fact, int]]:
    first, second = row.digits(place)
    if len(second) == 2 and isinstance(clock := _clock(int(first), int(second)), Clock):
        yield clock, place + 1
    if int(first) < int(second) <= _HOURS:
        yield _FROM_TO, place + 1


def _hour(row: Row, place: int) -> int | None:
    """Return a number that is an hour."""
    number = row.value(place, Role.NUMBER)
    short = all(len(run) <= 2 for run in row.digits(place))
    return number if number is not None and short and number < _HOURS else None


def _by_number(row: Row, place: int, *, led: bool) -> Iterator[tuple[Fact, int]]:
    number = row.value(place, Role.NUMBER)
    assert number is not None
    run = "".join(row.digits(place))
    if len(run) > 2:
        compact = len(run) <= 4
        yield (_clock(number // 100, number % 100, run) if compact else _IMPOSSIBLE), place + 1
        return
    hour = _hour(row, place)
    if hour is None:
        yield _IMPOSSIBLE, place + 1
    else:
        if led or not _day_of_month(row, place):
            yield Clock(hour=hour), place + 1
        yield from _minutes_after(row, place, hour, led=led)
    minutes = row.value(place + 1, Role.UNIT) == 1
    if number % _ROUND == 0 or minutes:
        yield from _from_hour(row, place + 1 + minutes, number)
    to = _hour(row, place + 2)
    if row.has(place + 1, Role.TO) and to is not None and not led:
        # "ten to eleven" is 10:50, or from ten to eleven.
        yield Flaw(reason=Reason.TOO_MANY, usual=number < to), place + 3


def _day_of_month(row: Row, place: int) -> bool:
    """Return whether a bare number is rather a day: "Saturday 15", unlike "Saturday 9"."""
    number = row.value(place, Role.NUMBER) or 0
    marked = row.has(place + 1, Role.HOUR_MARK, Role.OF_HOURS)
    return number > _LATEST_TWELVE and row.has(place - 1, Role.WEEKDAY) and not marked


def _minutes_after(row: Row, place: int, hour: int, *, led: bool) -> Iterator[tuple[Fact, int]]:
    """Yield times that name the hour first: nueve y media, nine thirty, nine oh five."""
    after = row.past(place + 1, Role.HOUR_MARK)
    number = row.value(after + 1, Role.NUMBER)
    plus, minus = row.has(after, Role.PLUS), row.has(after, Role.MINUS)
    if plus and row.has(after + 1, Role.THIRTY):
        yield Clock(hour=hour, minute=30), after + 2
    if (plus or minus) and row.has(after + 1, Role.QUARTER):
        yield (Clock(hour=hour, minute=15) if plus else _before(hour, 15)), after + 2
    if plus and number is not None and 0 < number < 60:
        yield Clock(hour=hour, minute=number), after + 2
        if not led and number <= _LATEST_TWELVE:
            yield _FROM_TO, after + 2  # "9 y 10" may be two hours
    if minus and number is not None and 0 < number < 60:
        yield _before(hour, number), after + 2
    if row.has(after, Role.OH) and number is not None and number < 10:
        yield Clock(hour=hour, minute=number), after + 2
    minute = row.value(after, Role.NUMBER)
    if minute is not None and row.tight(after) and _plain_minutes(row, after, minute):
        yield Clock(hour=hour, minute=minute), after + 1


def _plain_minutes(row: Row, after: int, minute: int) -> bool:
    run = "".join(row.digits(after))
    return _FEWEST_PLAIN <= minute < 60 and len(run) in {0, 2}


def _half(row: Row, place: int) -> Iterator[tuple[Fact, int]]:
    """Yield "half past nine"; "half nine" is 9:30 to some and 8:30 to others."""
    past = row.has(place, Role.PAST)
    hour = _hour(row, place + past)
    if hour is not None:
        yield Clock(hour=hour, minute=30), place + past + 1
        if not past:
            yield _before(hour, 30), place + 1


def _from_hour(row: Row, place: int, minutes: int) -> Iterator[tuple[Fact, int]]:
    """Yield times that name the minutes first: ten past nine, diez para las nueve."""
    hour = _hour(row, place + 1)
    if hour is None or not 0 < minutes < 60:
        return
    if row.has(place, Role.PAST):
        yield Clock(hour=hour, minute=minutes), place + 2
    if row.has(place, Role.TO, Role.TO_THE):
        yield _before(hour, minutes), place + 2


def _before(hour: int, minutes: int) -> Clock:
    """Return a time before an hour; before one o'clock it is twelve, before midnight eleven."""
    earlier = hour - 1 if hour not in {0, 1} else hour + 11 + 12 * (hour == 0)
    return Clock(hour=earlier, minute=60 - minutes)
