"""What displays show: the published errors, and what a day's preparation does."""

from collections.abc import Callable
from dataclasses import replace
from random import Random
from statistics import fmean

import pytest

from bot.cohort.courses import NOTHING, Body
from bot.cohort.devices import Kit, draw_kit, measure
from bot.cohort.people import draw_day, draw_person
from bot.cohort.population import Pattern
from bot.cohort.preparation import DEPARTURES, HANGING_ARM, MEDICINES, Alteration, prepare
from bot.findings.deltas import number
from bot.findings.explanations import EFFECTS, Effect
from bot.findings.noise import change_sd
from bot.protocol.circumstances import Cuff, Departure, Medicine, RateSource
from bot.protocol.record import Measure
from tests.cohort.drawn import UNALTERED, mean_is, sd_interval, share_interval

TRUE = Body(80, 120, 80)


def shown(kit: Kit, count: int) -> list[tuple[int, int, int]]:
    """Return what displays show of the same numbers again and again."""
    chance = Random(20260314)
    values = [measure(TRUE, kit, chance) for _ in range(count)]
    return [(v.systolic or 0, v.diastolic or 0, v.heart_rate or 0) for v in values]


def test_a_cuff_that_just_passes() -> None:
    """ISO 81060-2: over people and readings the error's SD is 8; a model's mean is within 5.

    The model's mean, drawn evenly up to 5 either way, adds 25 / 3 to the variance here.
    """
    chance = Random(20260315)
    errors: list[float] = []
    while len(errors) < 1500:
        kit = draw_kit(chance)
        if kit.cuff is not Cuff.WRIST:
            errors.append((measure(TRUE, kit, chance).systolic or 0) - TRUE.systolic)
    assert mean_is(errors, 0)
    low, high = sd_interval(errors)
    assert low < (64 + 25 / 3 + 1 / 12) ** 0.5 < high


@pytest.mark.parametrize(
    ("source", "sd"),
    [
        # makers' ±3; ±5 % of 80 drawn evenly: 4 over the root of 3; rounding adds 1/12
        (RateSource.OXIMETER, (9 + 1 / 12) ** 0.5),
        (RateSource.CUFF, (16 / 3 + 1 / 12) ** 0.5),
    ],
)
def test_heart_rates_err_as_makers_say(source: RateSource, sd: float) -> None:
    """The SD of the error is that of the source, and its mean is nothing."""
    kit = Kit(cuff=Cuff.UPPER_ARM, rate_source=source, bias=NOTHING, new_sd=4.0)
    rates = [rate - TRUE.rate for _, _, rate in shown(kit, 1500)]
    assert mean_is(rates, 0)
    low, high = sd_interval(rates)
    assert low < sd < high


def test_what_a_kit_adds_is_in_every_reading() -> None:
    """A bias of 6/-3 is there each time; what is new has the SD of 4 (a quarter of 8 squared)."""
    kit = Kit(cuff=Cuff.UPPER_ARM, rate_source=None, bias=Body(0, 6, -3), new_sd=4.0)
    drawn = shown(kit, 1500)
    assert mean_is([systolic for systolic, _, _ in drawn], 126)
    assert mean_is([diastolic for _, diastolic, _ in drawn], 77)
    low, high = sd_interval([systolic for systolic, _, _ in drawn])
    assert low < (16 + 1 / 12) ** 0.5 < high


def test_a_hanging_arm_reads_higher() -> None:
    """Liu 2024 (JAMA Intern Med): +6.5 and +4.4 mmHg."""
    assert Body(0, 6.5, 4.4) == HANGING_ARM


_SIGNS: dict[Effect, Callable[[Alteration], bool]] = {
    Effect.RISE_LARGER: lambda a: a.change.rate > 0,
    Effect.RISE_SMALLER: lambda a: a.change.rate < 0 or a.rise < 1,
    Effect.FALL_DEEPER: lambda a: a.change.systolic < 0,
    Effect.FALL_SMALLER: lambda a: a.change.systolic > 0,
    Effect.RATE_HIGHER: lambda a: a.lying.rate > 0,
    Effect.RATE_LOWER: lambda a: a.lying.rate < 0,
    Effect.PRESSURE_HIGHER: lambda a: a.lying.systolic > 0,
}


@pytest.mark.parametrize("cause", [*Departure, *Medicine])
def test_each_thing_goes_the_way_that_the_findings_say(cause: Departure | Medicine) -> None:
    """What could explain a finding there does it here, in the same direction."""
    _, alteration = DEPARTURES[cause] if isinstance(cause, Departure) else MEDICINES[cause]
    wrong = [effect for effect in EFFECTS.get(cause, {}) if not _SIGNS[effect](alteration)]
    assert wrong == []


def test_a_beta_blocker_slows_and_damps() -> None:
    """On a beta-blocker the heart rate is lower lying, and rises less."""
    chance = Random(20260316)
    taken = [
        draw_day(
            draw_person(chance, Pattern.RAPID_RISE),
            replace(UNALTERED, medicines=(Medicine.BETA_BLOCKER,)),
            chance,
        )
        for _ in range(300)
    ]
    assert mean_is([day.lying.rate for day in taken], 73 - 9)
    assert mean_is([day.change.rate for day in taken], 40 * 0.6)


def test_preparations_are_drawn_by_their_shares() -> None:
    """Departures and medicines are as common as their tables say, and doses only with medicines."""
    chance = Random(20260317)
    drawn = [prepare(chance) for _ in range(1500)]
    for departure, (share, _) in DEPARTURES.items():
        count = sum(departure in one.departures for one in drawn)
        low, high = share_interval(count, len(drawn))
        assert low < share < high
    assert all(one.medicines for one in drawn if one.last_dose is not None)
    assert 0 < fmean(one.hanging_arm for one in drawn) < 0.2


@pytest.mark.parametrize("measure_name", list(Measure))
def test_changes_err_as_the_findings_say(measure_name: Measure) -> None:
    """The SD of a change's error is that of `bot.findings.noise`, which is written on its own.

    An oximeter and an arm cuff, whose bias drops out; scipy.stats.chi2.
    """
    chance = Random(20260325)
    kit = Kit(cuff=Cuff.UPPER_ARM, rate_source=RateSource.OXIMETER, bias=Body(0, 9, -4), new_sd=4.0)
    errors = []
    for _ in range(1500):
        lying = Body(chance.uniform(65, 75), chance.uniform(115, 125), chance.uniform(75, 85))
        up = lying + Body(30, -20, -10)
        shown = [number(measure(body, kit, chance), measure_name) or 0 for body in (lying, up)]
        expected = {Measure.HEART_RATE: 30, Measure.SYSTOLIC: -20, Measure.DIASTOLIC: -10}
        errors.append(shown[1] - shown[0] - expected[measure_name])
    low, high = sd_interval(errors)
    assert low < change_sd(measure_name, 70, 100, RateSource.OXIMETER) < high
    assert mean_is(errors, 0)
