"""Every change of the clocks in two years, found by looking at the clocks."""

from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import pairwise
from zoneinfo import ZoneInfo, available_timezones

SINCE = datetime(2026, 11, 1, tzinfo=UTC)
UNTIL = datetime(2028, 11, 10, tzinfo=UTC)
_DAY = timedelta(days=1)
_MINUTE = timedelta(minutes=1)
_DAYS = tuple(SINCE + count * _DAY for count in range((UNTIL - SINCE).days + 1))


@cache
def changes() -> dict[str, tuple[datetime, ...]]:
    """Return the zones that change their clocks, each with the first minutes after each change."""
    found = {zone: tuple(_changes(ZoneInfo(zone))) for zone in sorted(available_timezones())}
    return {zone: instants for zone, instants in found.items() if instants}


def shown(at: datetime, zone: str) -> datetime:
    """Return what a clock shows, without a zone."""
    return at.astimezone(ZoneInfo(zone)).replace(tzinfo=None)


def _changes(zone: ZoneInfo) -> list[datetime]:
    offsets = (day.astimezone(zone).utcoffset() for day in _DAYS)
    return [
        _between(day, after, zone)
        for (day, after), (one, other) in zip(pairwise(_DAYS), pairwise(offsets), strict=True)
        if one != other
    ]


def _between(before: datetime, after: datetime, zone: ZoneInfo) -> datetime:
    while after - before > _MINUTE:
        middle = before + (after - before) // _MINUTE // 2 * _MINUTE
        if _offset(middle, zone) == _offset(before, zone):
            before = middle
        else:
            after = middle
    return after


def _offset(at: datetime, zone: ZoneInfo) -> timedelta | None:
    return at.astimezone(zone).utcoffset()
