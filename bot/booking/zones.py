"""From what a person's clock says to their time zone, and from a time there to an instant."""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from functools import cache
from typing import Final, assert_never
from zoneinfo import ZoneInfo, available_timezones

from bot.booking.cities import CITIES
from bot.booking.countries import COUNTRIES
from bot.booking.places import MANY_CLOCKS, OLD_NAMES, SHARED, WELL_KNOWN
from bot.booking.shown_places import SHOWN

SLACK: Final = timedelta(minutes=8)
"""How far off a clock may be. Offsets are multiples of 15 minutes, so no more than two fit."""

_AREAS: Final = frozenset(
    {
        "Africa",
        "America",
        "Antarctica",
        "Arctic",
        "Asia",
        "Atlantic",
        "Australia",
        "Europe",
        "Indian",
        "Pacific",
    }
)
_DAY: Final = timedelta(days=1)
_HALF: Final = timedelta(hours=12)


@dataclass(frozen=True, slots=True, kw_only=True)
class Instant:
    """The clock shows that time once.

    Attributes:
        at: When, in UTC.
    """

    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Skipped:
    """The clocks go forward past that time; it is never shown.

    Attributes:
        before: What it would be if they had already changed, in UTC: 1:30 for a skipped 2:30.
        after: What it would be if they had not changed yet, in UTC: 3:30 for a skipped 2:30.
    """

    before: datetime
    after: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubled:
    """The clocks go back over that time; it is shown twice.

    Attributes:
        first: The first time, in UTC.
        second: The second time, in UTC.
    """

    first: datetime
    second: datetime


def offsets(said: time, now: datetime, *, either_half: bool = False) -> tuple[timedelta, ...]:
    """Return the offsets from UTC at which clocks show about what was said, in some zone.

    Offsets a day apart show the same, so there may be two even for an exact clock: -11 h and 13 h.

    Args:
        said: What the person's clock shows.
        now: The present, in any zone.
        either_half: Whether the morning and the evening are both meant.

    Returns:
        The nearest first; of equally near ones, that of the more people first.
    """
    nearest: dict[timedelta, timedelta] = {}
    shown = timedelta(hours=said.hour, minutes=said.minute)
    for zone in _zones():
        offset = _offset(zone, now)
        away = _away(offset, shown, now, _HALF if either_half else _DAY)
        if away <= SLACK:
            nearest.setdefault(offset, away)
    return tuple(sorted(nearest, key=nearest.__getitem__))


def zones_at(offset: timedelta, now: datetime) -> tuple[str, ...]:
    """Return the zones with an offset from UTC at present, the better-known ones first."""
    return tuple(zone.key for zone in _zones() if _offset(zone, now) == offset)


def valid_zone(text: str) -> str | None:
    """Return the zone that a text names, by its id or by the city in its id.

    Letter case, accents and spaces for underscores do not matter. Old ids give the new ones.
    A city that has a well-known namesake, or no zone of its own, gives nothing.
    """
    name = _folded(text)
    return _ids().get(name) or _cities().get(name)


_MOST_COMMAS: Final = 5
"""In a place's name: city, district, county, state, country, and one to spare (design choice)."""


def place_zone(text: str) -> str | None:
    """Return the zone of a place as a person writes it: a city, a country with one clock, or both.

    "Madrid, Spain" has to agree in itself; a country alone that has many clocks gives nothing.
    """
    known = valid_zone(text) or _named().get(_folded(text.replace(",", " ")))
    city, comma, country = text.rpartition(",")
    if known is not None or not comma or text.count(",") > _MOST_COMMAS:
        return known
    zone, area = place_zone(city), MANY_CLOCKS.get(_folded(country))
    if zone is None:
        return None
    agree = zone.startswith(area) if area is not None else place_zone(country) == zone
    return zone if agree else None


def settle(local: datetime, zone: str) -> Instant | Skipped | Doubled:
    """Return the instant at which a clock in a zone shows a date and time.

    Args:
        local: Without a zone, as the person sees it.
        zone: An id of the time-zone database.

    Raises:
        ValueError: The local time has a zone.
        ZoneInfoNotFoundError: There is no such zone.
    """
    if local.tzinfo is not None:
        raise ValueError("a local time has no zone of its own")
    there = ZoneInfo(zone)
    first, second = (local.replace(tzinfo=there, fold=fold).astimezone(UTC) for fold in (0, 1))
    if first == second:
        return Instant(at=first)
    if first < second:
        return Doubled(first=first, second=second)
    return Skipped(before=second, after=first)


def settled_at(local: datetime, zone: str) -> datetime:
    """Return the instant of a local time: after a gap of the clocks, the first of two."""
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


def _offset(zone: ZoneInfo, now: datetime) -> timedelta:
    offset = now.astimezone(zone).utcoffset()
    assert offset is not None
    return offset


def _away(offset: timedelta, shown: timedelta, now: datetime, turn: timedelta) -> timedelta:
    """Return how far a clock with this offset is from what is shown, on a dial of one turn."""
    present = now.astimezone(UTC)
    since_midnight = timedelta(hours=present.hour, minutes=present.minute, seconds=present.second)
    ahead = (since_midnight + offset - shown) % turn
    return min(ahead, turn - ahead)


@cache
def _known() -> frozenset[str]:
    return frozenset(available_timezones())


@cache
def _zones() -> tuple[ZoneInfo, ...]:
    """Return the zones that are named after an area and a city, the better-known ones first."""
    ranks = {name: rank for rank, name in enumerate(WELL_KNOWN)}
    names = [name for name in _known() if _is_place(name) and name not in OLD_NAMES]
    return tuple(ZoneInfo(name) for name in sorted(names, key=lambda name: _rank(name, ranks)))


def _rank(name: str, ranks: dict[str, int]) -> tuple[int, str]:
    return ranks.get(name, len(ranks)), name


def _is_place(name: str) -> bool:
    return name.partition("/")[0] in _AREAS


def _current(name: str) -> str:
    current = OLD_NAMES.get(name, name)
    return current if current in _known() else name


@cache
def _ids() -> dict[str, str]:
    known = [name for name in _known() if _is_place(name) or name in OLD_NAMES]
    return {_folded(name): _current(name) for name in known}


@cache
def _cities() -> dict[str, str]:
    return dict(_unshared(name for name in _known() if _is_place(name)))


@cache
def _named() -> dict[str, str]:
    """Return the zones by the names of large cities, of countries, and of places as shown."""
    return {
        name: zone
        for table in (SHOWN, COUNTRIES, CITIES)
        for zone, names in _lines(table)
        for name in names.split(", ")
        if zone in _known()
    }


def _lines(table: str) -> Iterable[tuple[str, str]]:
    """Yield the zone and the names of each line; one that goes on begins with a space."""
    for line in table.strip().replace("\n        ", " ").splitlines():
        zone, _, names = line.partition(": ")
        yield zone, names


def _unshared(names: Iterable[str]) -> Iterable[tuple[str, str]]:
    """Yield the cities that name one zone, with it."""
    found: dict[str, set[str]] = {}
    for name in names:
        found.setdefault(_folded(name.rpartition("/")[2]), set()).add(_current(name))
    for city, zones in found.items():
        if len(zones) == 1 and city not in SHARED:
            yield city, zones.pop()


def _folded(text: str) -> str:
    """Return small letters without accents, and single spaces for what parts words."""
    spread = unicodedata.normalize("NFKD", text).casefold()
    plain = "".join(piece for piece in spread if not unicodedata.category(piece).startswith("M"))
    return " ".join(plain.replace("_", " ").replace("-", " ").replace(".", " ").split())
