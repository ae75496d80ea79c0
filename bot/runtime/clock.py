"""Clocks: the system's, a faster one, and one that stands still until it is moved."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta


class SystemClock:
    """The time of the machine."""

    def now(self) -> datetime:
        """Return the present instant."""
        return datetime.now(UTC)

    def wait(self, until: datetime) -> timedelta:
        """Return how long it is until then; at least 0."""
        return max(until - self.now(), timedelta(0))

    def ahead(self, wait: timedelta) -> datetime:
        """Return the instant after a wait."""
        return self.now() + wait

    def shown_at(self, instant: datetime) -> datetime:
        """Return the instant itself."""
        return instant


@dataclass(frozen=True, slots=True, kw_only=True)
class FastClock:
    """Runs `speed` times as fast as the machine's clock since an anchor.

    Attributes:
        anchor: The instant at which it was set, on the machine's clock.
        shown: What it showed then.
        speed: How many of its seconds pass in one.
    """

    anchor: datetime
    shown: datetime
    speed: float

    def now(self) -> datetime:
        """Return the present instant of this clock."""
        return self.shown_at(datetime.now(UTC))

    def shown_at(self, instant: datetime) -> datetime:
        """Return what it showed at an instant of ordinary time."""
        return self.shown + (instant - self.anchor) * self.speed

    def wait(self, until: datetime) -> timedelta:
        """Return how long it is until then in ordinary time; at least 0."""
        return max((until - self.now()) / self.speed, timedelta(0))

    def ahead(self, wait: timedelta) -> datetime:
        """Return what it will show after a wait in ordinary time."""
        return self.now() + wait * self.speed


class StandingClock:
    """Stands still until it is moved; refuses to go back."""

    def __init__(self, start: datetime) -> None:
        self._now = start

    def now(self) -> datetime:
        """Return the instant it stands at."""
        return self._now

    def wait(self, until: datetime) -> timedelta:
        """Return how far away an instant is; at least 0."""
        return max(until - self._now, timedelta(0))

    def ahead(self, wait: timedelta) -> datetime:
        """Return the instant after a wait."""
        return self._now + wait

    def shown_at(self, instant: datetime) -> datetime:
        """Return the instant it stands at, whatever the time is elsewhere."""
        del instant
        return self._now

    def move_to(self, instant: datetime) -> None:
        """Move on to an instant.

        Raises:
            ValueError: It lies in the past.
        """
        if instant < self._now:
            raise ValueError("the clock does not go back")
        self._now = instant
