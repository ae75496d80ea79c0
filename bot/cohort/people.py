"""A person of the cohort: drawn once, with a course for each day."""

from dataclasses import dataclass, replace
from itertools import accumulate
from math import sqrt
from random import Random
from typing import Final

from bot.cohort.courses import NOTHING, Body, Course, Shape
from bot.cohort.population import (
    DAY_SD,
    DIP_SD,
    DIPPING,
    GROUPS,
    LYING_DAY_SD,
    ONSET,
    PASSING,
    PASSING_RATE,
    TRANSIENT,
    WANDER_SD,
    Group,
    Pattern,
    between_people,
)
from bot.cohort.preparation import Preparation
from bot.protocol.definition import Position
from bot.protocol.record import AgeBand

TOGETHER: Final = 0.5
"""How closely the two pressures move together, between people, days and minutes. Design choice."""

_MINUTES: Final = {Position.SUPINE: 9, Position.SEATED: 9, Position.STANDING: 14}
_BANDS_UNTOLD: Final = 0.01
_UNDER_12: Final = 0.01
_PATTERNS: Final = tuple(GROUPS)
_SHARES: Final = tuple(accumulate(GROUPS[pattern].share for pattern in _PATTERNS))


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody as they are, before any day.

    Attributes:
        pattern: Their group.
        age_band: As they told it; `None` when they did not.
        usual: Their course with nothing in the way: no departure, no medicine, no day.
    """

    pattern: Pattern
    age_band: AgeBand | None
    usual: Course


def draw_person(chance: Random, pattern: Pattern | None = None) -> Person:
    """Draw a person.

    Args:
        chance: Where the draws come from.
        pattern: The group; drawn by the shares of the groups when not given.
    """
    if pattern is None:
        (pattern,) = chance.choices(_PATTERNS, cum_weights=_SHARES)
    group = GROUPS[pattern]
    rate_shape, pressure_shape = _shapes(pattern, group, chance)
    dip = group.dip if group.dip == NOTHING else group.dip + spread(DIP_SD, chance)
    return Person(
        pattern=pattern,
        age_band=_told_band(group.age_band, chance),
        usual=Course(
            lying=group.lying + spread(group.lying_sd, chance),
            change=group.change + spread(_between(group.change_sd), chance),
            rate_shape=rate_shape,
            pressure_shape=pressure_shape,
            dip=dip,
            dip_shape=DIPPING,
            wander={},
        ),
    )


def draw_day(person: Person, preparation: Preparation, chance: Random) -> Course:
    """Draw the course of one day: the person's own, the day's, and what the preparation does."""
    usual = person.usual
    lying = usual.lying + spread(LYING_DAY_SD, chance)
    change = usual.change + spread(DAY_SD, chance)
    for alteration in preparation.alterations:
        lying += alteration.lying
        change = change.scaled(alteration.rise, 1.0) + alteration.change
    wander = {
        position: tuple(spread(WANDER_SD, chance) for _ in range(minutes))
        for position, minutes in _MINUTES.items()
    }
    return replace(usual, lying=lying, change=change, wander=wander)


def spread(sd: Body, chance: Random) -> Body:
    """Draw a deviation around nothing, with pressures that move together."""
    shared = sqrt(TOGETHER) * chance.gauss(0.0, 1.0)
    apart = sqrt(1 - TOGETHER)
    return Body(
        sd.rate * chance.gauss(0.0, 1.0),
        sd.systolic * (shared + apart * chance.gauss(0.0, 1.0)),
        sd.diastolic * (shared + apart * chance.gauss(0.0, 1.0)),
    )


def _between(total: Body) -> Body:
    return Body(
        between_people(total.rate, DAY_SD.rate, WANDER_SD.rate),
        between_people(total.systolic, DAY_SD.systolic, WANDER_SD.systolic),
        between_people(total.diastolic, DAY_SD.diastolic, WANDER_SD.diastolic),
    )


def _shapes(pattern: Pattern, group: Group, chance: Random) -> tuple[Shape, Shape]:
    """Return how a person's rate and pressures come and go."""
    if pattern is Pattern.CLASSICAL_FALL and chance.random() < TRANSIENT:
        return PASSING_RATE, PASSING
    if pattern is Pattern.DELAYED_FALL:
        onset = chance.uniform(*ONSET)
        return group.rate_shape, Shape((0.0, onset, 10.0), (0.0, 0.0, 1.0))
    return group.rate_shape, group.pressure_shape


def _told_band(band: AgeBand, chance: Random) -> AgeBand | None:
    drawn = chance.random()
    if drawn < _BANDS_UNTOLD:
        return None
    return AgeBand.UNDER_12 if drawn < _BANDS_UNTOLD + _UNDER_12 else band
