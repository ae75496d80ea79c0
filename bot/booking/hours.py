"""The times of day that the facts of a phrase can mean."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from typing import Final

from bot.booking.dates import FlawedError, only
from bot.booking.facts import Clock, Fact, Within
from bot.booking.outcome import Part, Reason
from bot.booking.words import Stretch

# What people mean by these words: common usage in both languages, no source. An hour that a
# stretch does not hold, as in "twelve in the morning", is asked about.
_HOURS: Final[Mapping[Stretch, frozenset[int]]] = {
    Stretch.SMALL_HOURS: frozenset(range(7)),
    Stretch.MORNING: frozenset(range(1, 12)),
    Stretch.MIDDAY: frozenset(range(12, 16)),
    Stretch.AFTERNOON: frozenset(range(12, 21)),
    Stretch.EVENING: frozenset(range(16, 24)),
    Stretch.NIGHT: frozenset({*range(18, 24), 0}),
    Stretch.MIDNIGHT: frozenset({0}),
    Stretch.AM: frozenset(range(12)),
    Stretch.PM: frozenset(range(12, 24)),
}
_PARTS: Final[Mapping[Stretch, Part]] = {
    Stretch.SMALL_HOURS: Part.NIGHT,
    Stretch.MORNING: Part.MORNING,
    Stretch.AFTERNOON: Part.AFTERNOON,
    Stretch.EVENING: Part.EVENING,
    Stretch.NIGHT: Part.NIGHT,
    Stretch.AM: Part.MORNING,
    Stretch.PM: Part.AFTERNOON,
}
_LATE: Final = frozenset({Stretch.NIGHT, Stretch.MIDNIGHT})


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """The times that a clock time can mean.

    Attributes:
        times: All of them, earliest first.
        usual: The one a test would be booked for, if that is plain.
        turning: Whether it is the midnight between two days, either of which may be meant.
    """

    times: tuple[time, ...]
    usual: time | None
    turning: bool = False


def possible_times(facts: Sequence[Fact]) -> Hours | None:
    """Return the times that a reading can mean; `None` if it speaks of none.

    Raises:
        FlawedError: It comes to no time.
    """
    clock = only(facts, Clock)
    if clock is None:
        return None
    stretches = [fact.stretch for fact in facts if isinstance(fact, Within)]
    hours = _halves(clock)
    held = [hour for hour in hours if all(hour in _HOURS[stretch] for stretch in stretches)]
    if not held and len(hours) == 1:
        raise FlawedError(Reason.MISMATCH)
    times = tuple(time(hour, clock.minute) for hour in held or hours)
    midnight = held == [0] and bool(_LATE.intersection(stretches))
    return Hours(
        times=times,
        usual=_usual(clock, times, told=bool(stretches)),
        turning=midnight or (clock.exact and clock.hour == 0),
    )


def part_of(facts: Sequence[Fact]) -> Part | None:
    """Return the part of the day that a reading names.

    Raises:
        FlawedError: It names two, or one that cannot stand without an hour.
    """
    stretches = {fact.stretch for fact in facts if isinstance(fact, Within)}
    if not stretches <= set(_PARTS):
        raise FlawedError(None)
    parts = {_PARTS[stretch] for stretch in stretches}
    if len(parts) > 1:
        raise FlawedError(Reason.TOO_MANY)
    return next(iter(parts), None)


def _halves(clock: Clock) -> tuple[int, ...]:
    """Return the hours of the day that an hour as said can be."""
    if clock.exact or not 1 <= clock.hour <= 12:
        return (clock.hour,)
    return (clock.hour % 12, clock.hour % 12 + 12)


def _usual(clock: Clock, times: tuple[time, ...], *, told: bool) -> time | None:
    """Return the time that is plain: tests are booked by day, so 7 to 11 is the morning.

    Whoever says the hour of a booking is shown the weekday, date, time and zone, and confirms it.
    """
    if len(times) == 1:
        return times[0]
    if told or clock.hour < 7:
        return None
    return times[clock.hour == 12]
