"""Samples of the cohort, and bounds of chance by another library."""

from collections.abc import Sequence
from functools import cache
from random import Random
from statistics import fmean
from typing import Final

from bot.cohort.courses import Body, Course
from bot.cohort.people import draw_day, draw_person
from bot.cohort.population import Pattern
from bot.cohort.preparation import Preparation
from bot.protocol.definition import Position

UNALTERED: Final = Preparation(
    departures=(), audited=True, medicines=(), last_dose=None, hanging_arm=False
)
PEOPLE: Final = 600

STANDARD_ERRORS: Final = 4
"""A mean of a sample lies further off about once in 16,000 samples; the seeds stay the same."""


@cache
def days(pattern: Pattern, people: int = PEOPLE) -> tuple[Course, ...]:
    """Return a day of each of some people of a group, with nothing in the way."""
    chance = Random(f"days of {pattern}")
    return tuple(draw_day(draw_person(chance, pattern), UNALTERED, chance) for _ in range(people))


@cache
def changes(pattern: Pattern, minute: float) -> tuple[Body, ...]:
    """Return true changes of a group: at a minute of standing, from the fifth minute lying."""
    return tuple(
        day.at(Position.STANDING, minute) + day.at(Position.SUPINE, 5).scaled(-1, -1)
        for day in days(pattern)
    )


def mean_is(sizes: Sequence[float], expected: float) -> bool:
    """Return whether a sample's mean lies where chance puts it (scipy.stats.sem)."""
    from scipy import stats  # type: ignore[import-untyped]

    return abs(fmean(sizes) - expected) <= STANDARD_ERRORS * float(stats.sem(sizes))


def sd_interval(sizes: Sequence[float], share: float = 0.9999) -> tuple[float, float]:
    """Return where the SD that a normal sample comes from lies (scipy.stats.chi2)."""
    from scipy import stats

    free = len(sizes) - 1
    squares = float(stats.tvar(sizes)) * free
    low, high = stats.chi2.ppf([(1 - share) / 2, (1 + share) / 2], free)
    return (squares / float(high)) ** 0.5, (squares / float(low)) ** 0.5


def share_interval(hits: int, of: int, share: float = 0.9999) -> tuple[float, float]:
    """Return where the share that a count comes from lies (scipy.stats.binomtest)."""
    from scipy import stats

    found = stats.binomtest(hits, of).proportion_ci(share)
    return float(found.low), float(found.high)
