"""What is true of heart rate and blood pressure at each moment of a test, before any device."""

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, assert_never

from bot.protocol.definition import Position

SITTING_SHARE: Final = 0.4
"""How much of the change at 1 min of standing sitting makes. Design choice; no line looks at it."""

LOWEST: Final = (35.0, 55.0, 30.0)
"""Heart rate, systolic, diastolic below which nothing is drawn. Design choice."""

NARROWEST: Final = 12.0
"""The least pulse pressure drawn, in mmHg. Design choice."""


@dataclass(frozen=True, slots=True)
class Body:
    """Heart rate (beats a minute) and pressures (mmHg), or changes of them."""

    rate: float
    systolic: float
    diastolic: float

    def __add__(self, other: "Body") -> "Body":
        return Body(
            self.rate + other.rate,
            self.systolic + other.systolic,
            self.diastolic + other.diastolic,
        )

    def scaled(self, rate: float, pressure: float) -> "Body":
        """Return it with the heart rate and the pressures each times a share."""
        return Body(self.rate * rate, self.systolic * pressure, self.diastolic * pressure)

    def possible(self) -> "Body":
        """Return the nearest that a living person can have."""
        systolic = max(self.systolic, LOWEST[1])
        diastolic = min(max(self.diastolic, LOWEST[2]), systolic - NARROWEST)
        return Body(max(self.rate, LOWEST[0]), systolic, diastolic)


NOTHING: Final = Body(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Shape:
    """How a change comes and goes: shares of its size at minutes of standing, straight between.

    Attributes:
        minutes: In order, the first of them 0.
        shares: One for each; the last holds from then on.
    """

    minutes: tuple[float, ...]
    shares: tuple[float, ...]

    def __post_init__(self) -> None:
        rising = all(before < after for before, after in pairwise(self.minutes))
        if len(self.minutes) != len(self.shares) or self.minutes[0] != 0 or not rising:
            raise ValueError(self.minutes)

    def at(self, minute: float) -> float:
        """Return the share at a minute of standing."""
        place = bisect_right(self.minutes, minute)
        if place == len(self.minutes):
            return self.shares[-1]
        start, end = self.minutes[place - 1], self.minutes[place]
        before, after = self.shares[place - 1], self.shares[place]
        return before + (after - before) * (minute - start) / (end - start)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One person on one day.

    Attributes:
        lying: At rest.
        change: What standing does to it, at its full size.
        rate_shape: How the heart rate's change comes and goes.
        pressure_shape: How the pressures' changes do.
        dip: A first short change on top, at its deepest.
        dip_shape: How that comes and goes.
        wander: What the numbers do by themselves, for each position minute by minute.
    """

    lying: Body
    change: Body
    rate_shape: Shape
    pressure_shape: Shape
    dip: Body
    dip_shape: Shape
    wander: Mapping[Position, tuple[Body, ...]]

    def at(self, position: Position, minute: float) -> Body:
        """Return what is true at a minute of a position."""
        body = self.lying + self._moved(position, minute)
        wander = self.wander.get(position, ())
        if wander:
            body += wander[min(int(minute), len(wander) - 1)]
        return body.possible()

    def _moved(self, position: Position, minute: float) -> Body:
        match position:
            case Position.SUPINE:
                return NOTHING
            case Position.SEATED:
                return self.change.scaled(
                    SITTING_SHARE * self.rate_shape.at(1), SITTING_SHARE * self.pressure_shape.at(1)
                )
            case Position.STANDING:
                dipped = self.dip_shape.at(minute)
                return self.change.scaled(
                    self.rate_shape.at(minute), self.pressure_shape.at(minute)
                ) + self.dip.scaled(dipped, dipped)
            case _:
                assert_never(position)
