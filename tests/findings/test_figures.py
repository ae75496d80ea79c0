"""Published figures, as they were read."""

import pytest

from bot.findings import Known
from bot.findings.figures import PUBLISHED, Fact, Unit
from tests.findings import reference


@pytest.mark.parametrize(
    ("fact", "value", "unit", "first_author"),
    [
        # clinical table: found
        (Fact.RISE_LINE_SENSITIVITY, 87, Unit.PERCENT, "Plash 2013"),
        (Fact.RISE_LINE_SPECIFICITY, 67, Unit.PERCENT, "Plash 2013"),
        (Fact.HEALTHY_RISE_MEAN, 9.9, Unit.BEATS, "Iftekhar 2025"),
        (Fact.HEALTHY_RISE_SD, 8.2, Unit.BEATS, "Iftekhar 2025"),
        (Fact.HEALTHY_RISE_95TH_CENTILE, 23, Unit.BEATS, "Iftekhar 2025"),
        (Fact.MISSED_AT_5_MINUTES, 27, Unit.PERCENT, "Roma 2018"),
        (Fact.MISSED_AT_2_MINUTES, 53, Unit.PERCENT, "Roma 2018"),
        (Fact.MET_IN_THE_MORNING, 82.6, Unit.PERCENT, "Moon 2016"),
        (Fact.MET_IN_THE_AFTERNOON, 52.2, Unit.PERCENT, "Moon 2016"),
        (Fact.HANGING_ARM_SYSTOLIC, 6.5, Unit.PRESSURE, "Liu 2024"),
        (Fact.HANGING_ARM_DIASTOLIC, 4.4, Unit.PRESSURE, "Liu 2024"),
    ],
)
def test_each_figure(fact: Fact, value: float, unit: Unit, first_author: str) -> None:
    """Each has its number, its unit and the text it was read in."""
    figure = PUBLISHED[fact]
    assert (figure.value, figure.unit, figure.source.known) == (value, unit, Known.FOUND)
    assert figure.source.text.startswith(f"{first_author} (")


def test_every_fact_has_its_figure() -> None:
    """None is left out, and those of small groups say how small."""
    assert list(PUBLISHED) == list(Fact)
    assert {fact: f.people for fact, f in PUBLISHED.items() if f.people is not None} == {
        Fact.RISE_LINE_SENSITIVITY: 15,
        Fact.RISE_LINE_SPECIFICITY: 15,
        Fact.HEALTHY_RISE_MEAN: 112,
        Fact.HEALTHY_RISE_SD: 112,
        Fact.HEALTHY_RISE_95TH_CENTILE: 112,
    }


def test_the_centile_follows_from_the_mean_and_the_sd() -> None:
    """About 23 a minute: the 95th centile of a normal distribution of that mean and SD."""
    mean, sd = PUBLISHED[Fact.HEALTHY_RISE_MEAN], PUBLISHED[Fact.HEALTHY_RISE_SD]
    centile = mean.value + reference.quantile(0.95) * sd.value
    assert centile == pytest.approx(PUBLISHED[Fact.HEALTHY_RISE_95TH_CENTILE].value, abs=0.5)
