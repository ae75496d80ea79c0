"""Chances of random tests, each worked out once more with another library (scipy).

The errors are those of the clinical table: a quarter of a cuff's variance of 8 squared is new at
each pressure (design choice), an oximeter's heart rate has an SD of 3, a number on a display is
rounded; within-person SDs 6.5, 9.1 and 6.7 (Miwa 2023, CDISC pilot study: data).
"""

from collections.abc import Sequence
from itertools import combinations
from math import sqrt
from random import Random
from typing import Final

import pytest

from bot.findings.chances import (
    BETWEEN_DAYS_SD,
    Chance,
    Rule,
    Scale,
    either_pressure,
    one_change,
    rise_and_standing,
    two_changes,
)
from bot.findings.deltas import compare, hold
from bot.findings.lines import RISE_FROM_20, SYSTOLIC_RISE
from bot.findings.pressures import falls
from bot.protocol.circumstances import RateSource
from bot.protocol.record import Measure
from tests.findings import reference
from tests.findings.records import record

PRESSURE: Final = 16 + 1 / 12
RATE: Final = 9 + 1 / 12
MINUTES: Final = (1, 2, 5, 10)
Numbers = tuple[int, int, int]
SEEDS: Final = range(12)


def drawn(seed: int) -> tuple[Numbers, list[Numbers]]:
    """Return lying numbers, and standing ones not far from the lines."""
    chance = Random(seed)
    lying = (chance.randint(105, 150), chance.randint(65, 90), chance.randint(55, 90))
    return lying, [
        (
            lying[0] + chance.choice((-20, 20, 0)) + chance.randint(-9, 9),
            lying[1] + chance.choice((-10, 5)) + chance.randint(-7, 7),
            lying[2] + 30 + chance.randint(-10, 10),
        )
        for _ in MINUTES
    ]


def chances(seed: int) -> dict[Rule, Chance]:
    """Return what the project makes of them."""
    lying, standing = drawn(seed)
    rows = [
        f"standing@{minute}:00 {s}/{d} {h}"
        for minute, (s, d, h) in zip(MINUTES, standing, strict=True)
    ]
    deltas = compare(record(f"supine-5@5:00 {lying[0]}/{lying[1]} {lying[2]}", *rows))
    assert deltas.baseline is not None
    scale = Scale(baseline=deltas.baseline, rate_source=RateSource.OXIMETER)
    systolic = hold(deltas.changes, Measure.SYSTOLIC, SYSTOLIC_RISE)
    return {
        Rule.ONE_CHANGE: one_change(systolic, scale),
        Rule.TWO_CHANGES: two_changes(
            hold(deltas.changes, Measure.HEART_RATE, RISE_FROM_20), scale
        ),
        Rule.EITHER_PRESSURE: either_pressure(falls(deltas.changes), scale),
        Rule.RISE_AND_STANDING: rise_and_standing(systolic, scale),
    }


def either(past: Sequence[float], sd: Sequence[float]) -> float:
    """Return how likely one of two is past, their errors moving together by one half."""
    one, other = (size / spread for size, spread in zip(past, sd, strict=True))
    both = reference.all_below([one, other], [[1, 0.5], [0.5, 1]])
    return reference.below(one) + reference.below(other) - both


@pytest.mark.parametrize("seed", SEEDS)
def test_one_change(seed: int) -> None:
    """The largest systolic rise against 20: scipy.stats.norm, with twice the new variance."""
    lying, standing = drawn(seed)
    past = [(s - lying[0] - 20) / sqrt(2 * PRESSURE) for s, _, _ in standing]
    found = chances(seed)[Rule.ONE_CHANGE]
    assert found.probability == pytest.approx(reference.below(max(past)))
    assert found.at_most == pytest.approx(min(1, sum(map(reference.below, past))))
    days = max(s - lying[0] - 20 for s, _, _ in standing) / (9.1 * sqrt(2))
    assert found.another_day == pytest.approx(reference.below(days))


@pytest.mark.parametrize("seed", SEEDS)
def test_two_changes(seed: int) -> None:
    """The likeliest pair a minute apart: scipy.stats.multivariate_normal, half the error shared."""
    lying, standing = drawn(seed)
    past = [h - lying[2] - 30 for _, _, h in standing]
    covariance = [[2 * RATE, RATE], [RATE, 2 * RATE]]
    likely = [reference.all_below(pair, covariance) for pair in combinations(past, 2)]
    found = chances(seed)[Rule.TWO_CHANGES]
    assert found.probability == pytest.approx(max(likely), abs=1e-5)
    at_most = sum(reference.below(size / sqrt(2 * RATE)) for size in past)
    assert found.at_most == pytest.approx(min(1, at_most))
    smaller = sorted(past)[-2]
    assert found.another_day == pytest.approx(reference.below(smaller / (6.5 * sqrt(2))))


@pytest.mark.parametrize("seed", SEEDS)
def test_either_pressure(seed: int) -> None:
    """One of the two at least, at the likeliest reading; its bounds hold whatever their errors do.

    At least: the likelier alone. At most: the sum over all readings (Boole).
    """
    lying, standing = drawn(seed)
    past = [(lying[0] - 20 - s, lying[1] - 10 - d) for s, d, _ in standing]
    sd = sqrt(2 * PRESSURE)
    found = chances(seed)[Rule.EITHER_PRESSURE]
    likely = max(either(pair, (sd, sd)) for pair in past)
    alone = [reference.below(size / sd) for pair in past for size in pair]
    assert found.probability == pytest.approx(likely, abs=1e-5)
    assert found.at_least == pytest.approx(max(alone))
    assert found.at_most == pytest.approx(min(1, sum(alone)))
    days = (9.1 * sqrt(2), 6.7 * sqrt(2))
    assert found.another_day == pytest.approx(max(either(pair, days) for pair in past), abs=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_rise_and_standing(seed: int) -> None:
    """A rise of 20 and 140 standing; of the standing number the whole error of 8 counts."""
    lying, standing = drawn(seed)
    whole = 64 + 1 / 12
    covariance = [[whole, PRESSURE], [PRESSURE, 2 * PRESSURE]]
    likely = [reference.all_below([s - 140, s - lying[0] - 20], covariance) for s, _, _ in standing]
    found = chances(seed)[Rule.RISE_AND_STANDING]
    assert found.probability == pytest.approx(max(likely), abs=1e-5)
    assert found.at_most == pytest.approx(min(1, sum(likely)), abs=1e-4)


def test_spreads_between_days() -> None:
    """The root of 2 times the within-person SDs found: 6.5, 9.1 and 6.7 (data)."""
    expected = {Measure.HEART_RATE: 6.5, Measure.SYSTOLIC: 9.1, Measure.DIASTOLIC: 6.7}
    assert {
        measure: pytest.approx(sd / sqrt(2)) for measure, sd in BETWEEN_DAYS_SD.items()
    } == expected
