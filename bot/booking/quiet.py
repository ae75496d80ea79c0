"""The hours in which no reminder is sent."""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bot.booking.zones import Doubled, Instant, Skipped, settle

_DAY: Final = timedelta(days=1)
_LONGEST: Final = timedelta(hours=20)

Span = tuple[datetime, datetime]
"""Two instants in UTC; the second is the first that is outside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quiet:
    """The quiet hours, on the person's clock; none if both are the same.

    Attributes:
        starts: The first quiet minute. Design choice.
        ends: The first minute that is not quiet any more. Design choice.

    Raises:
        ValueError: They leave less than four hours of a day.
    """

    starts: time = time(21, 30)
    ends: time = time(7, 30)

    def __post_init__(self) -> None:
        """Refuse hours that would leave no time for reminders."""
        if self.lasts > _LONGEST:
            raise ValueError("quiet hours leave no time for reminders")

    @property
    def lasts(self) -> timedelta:
        """How long they are in a day without a change of the clocks."""
        return (since_midnight(self.ends) - since_midnight(self.starts)) % _DAY


def quiet_spans(quiet: Quiet, zone: str, first: datetime, last: datetime) -> tuple[Span, ...]:
    """Return the quiet spans that touch a stretch of time, in order.

    On the days when the clocks change they hold at least all minutes whose clock time is quiet.

    Args:
        quiet: The quiet hours.
        zone: Whose clock.
        first: Where the stretch begins.
        last: Where it ends.
    """
    if quiet.starts == quiet.ends:
        return ()
    day = first.astimezone(ZoneInfo(zone)).date() - _DAY
    spans: list[Span] = []
    while True:
        starts = earliest(datetime.combine(day, quiet.starts), zone)
        if starts > last:
            return tuple(spans)
        ends_on = day if quiet.starts < quiet.ends else day + _DAY
        ends = _latest(datetime.combine(ends_on, quiet.ends), zone)
        if ends > first:
            spans.append((starts, ends))
        day += _DAY


def quiet_span(quiet: Quiet, zone: str, at: datetime) -> Span | None:
    """Return the quiet span that an instant lies in, if it is quiet then."""
    spans = quiet_spans(quiet, zone, at, at)
    return next((span for span in spans if span[0] <= at < span[1]), None)


def awake(quiet: Quiet, zone: str, first: datetime, last: datetime) -> tuple[Span, ...]:
    """Return what is left of a stretch of time without its quiet spans."""
    left: list[Span] = []
    since = first.astimezone(UTC)
    for starts, ends in quiet_spans(quiet, zone, first, last):
        if since < starts:
            left.append((since, min(starts, last)))
        since = max(since, ends)
    if since < last:
        left.append((since, last))
    return tuple(left)


def since_midnight(clock: time) -> timedelta:
    """Return how long after midnight a clock time is, on a day without a change."""
    return timedelta(hours=clock.hour, minutes=clock.minute, seconds=clock.second)


def earliest(local: datetime, zone: str) -> datetime:
    """Return the instant of a local time; the earlier one if the clocks skip or double it."""
    match settle(local, zone):
        case Instant(at=at) | Doubled(first=at) | Skipped(before=at):
            return at


def _latest(local: datetime, zone: str) -> datetime:
    match settle(local, zone):
        case Instant(at=at) | Doubled(second=at) | Skipped(after=at):
            return at
