"""Every way to read a whole phrase: no word may be left over."""

from collections.abc import Iterator
from typing import Final

from bot.booking.clocks import clocks
from bot.booking.days import days
from bot.booking.facts import Fact, Flaw, Step, Within
from bot.booking.outcome import Reason
from bot.booking.row import Row
from bot.booking.tokens import Form, Unit
from bot.booking.words import Role

Reading = tuple[Fact, ...]

_LEADING: Final = (Role.AT, Role.ON, Role.THE, Role.OF, Role.AND)
_DAYS: Final = (
    Role.WEEKDAY,
    Role.MONTH,
    Role.AHEAD,
    Role.TODAYS,
    Role.THE,
    Role.ON,
    Role.THIS,
    Role.NEXT,
)
_TO_HOURS: Final = (
    Role.AT,
    Role.PAST,
    Role.TO,
    Role.TO_THE,
    Role.PLUS,
    Role.MINUS,
    Role.OH,
)
_TELLING: Final = frozenset(
    {
        Role.NUMBER,
        Role.ORDINAL,
        Role.WEEKDAY,
        Role.MONTH,
        Role.AHEAD,
        Role.STRETCH,
        Role.TODAYS,
        Role.WEEK,
        Role.NOON,
        Role.MIDNIGHT,
        Role.UNIT,
        Role.COUNTED_DAYS,
        Role.LENGTH,
    }
)


def tells(unit: Unit) -> bool:
    """Return whether a unit by itself speaks of a day or a time."""
    return bool(unit.numbers) or any(sense.role in _TELLING for sense in unit.senses)


def read(units: tuple[Unit, ...]) -> tuple[frozenset[Reading], int]:
    """Return all readings of the units, and how far the best attempt got.

    Returns:
        The readings; and the place of the first unit that no attempt could use.
    """
    row = Row(units)
    furthest = 0
    readings: dict[int, frozenset[Reading]] = {len(units): frozenset({()})}
    for place in range(len(units) - 1, -1, -1):
        readings[place] = frozenset(
            _joined(facts, rest) for facts, after in _steps(row, place) for rest in readings[after]
        )
    reached = {0}
    for place in range(len(units)):
        if place in reached:
            reached.update(after for _, after in _steps(row, place))
            furthest = place
    return readings[0], furthest


def _joined(facts: Reading, rest: Reading) -> Reading:
    """Return facts and those after them; a reading with a flaw comes down to the worst of them."""
    whole = facts + tuple(fact for fact in rest if fact not in facts)
    kinds = [type(fact) for fact in facts + rest if not isinstance(fact, Within)]
    flaws = [fact for fact in whole if isinstance(fact, Flaw)]
    if len(kinds) > len(set(kinds)) and not flaws:
        flaws = [Flaw(reason=Reason.TOO_MANY)]
    if flaws:
        return (max(flaws, key=lambda flaw: (flaw.usual, flaw.reason.weight)),)
    return whole


def _steps(row: Row, place: int) -> Iterator[Step]:
    yield from days(row, place)
    yield from clocks(row, place)
    if (stretch := row.stretch(place, Role.STRETCH)) is not None:
        yield (Within(stretch=stretch),), place + 1
    if row.has(place, Role.OR):
        yield (Flaw(reason=Reason.TOO_MANY, usual=True),), place + 1
    if row.has(place, Role.AND) and row.numeric(place + 1):
        yield (Flaw(reason=Reason.TOO_MANY),), place + 1
    if _leads(row, place):
        yield (), place + 1


def _leads(row: Row, place: int) -> bool:
    """Return whether a word may be passed over for what comes after it."""
    if place + 1 >= len(row.units):
        return False
    if row.has(place, Role.IN):
        return row.has(place + 1, Role.WEEKDAY, Role.MONTH)
    if row.has(place, Role.A):
        return row.has(place + 1, Role.AHEAD)  # "a mañana"; but "a Saturday" is any of them
    if row.has(place, Role.TOWARDS):
        return row.has(place + 1, *_DAYS) and not row.numeric(place - 1)
    return row.has(place, *_LEADING) and not row.numeric(place + 1)


def several(units: tuple[Unit, ...]) -> bool:
    """Return whether numbers stand beside each other as a list or a stretch: 13 - 15 July."""
    row = Row(units)
    return any(_listed(row, place) for place in range(1, len(units)))


def _listed(row: Row, place: int) -> bool:
    if not row.numeric(place - 1):
        return False
    if row.units[place].after_dash:
        dated = row.has(place - 1, Role.ORDINAL) or row.has(place - 2, Role.MONTH)
        return row.numeric(place) or (row.form(place) is Form.CLOCK and not dated)
    month = row.past(place + 1, Role.OF)
    dated = row.has(place - 2, Role.MONTH, *_TO_HOURS)
    return row.numeric(place) and row.has(month, Role.MONTH) and not dated
