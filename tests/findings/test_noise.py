"""The error of a reading and of a change, worked out by hand, and bounded by data."""

from math import sqrt

import pytest

from bot.findings.comparison import WITHIN_PERSON_SD
from bot.findings.noise import CUFF_SD, NEW_SHARE, change_sd, new_variance, pressure_sd, sourced
from bot.protocol.circumstances import RateSource
from bot.protocol.record import Measure

UNKNOWN = [RateSource.WATCH, RateSource.FINGERS, None]


@pytest.mark.parametrize("measure", [Measure.SYSTOLIC, Measure.DIASTOLIC])
def test_the_error_of_a_pressure_change(measure: Measure) -> None:
    """By hand: 4 mmHg new in each reading and a 12th for the rounding, twice: 32.17, SD 5.67."""
    assert change_sd(measure, 120, 100, RateSource.CUFF) ** 2 == pytest.approx(193 / 6)
    assert change_sd(measure, 120, 100, None) == pytest.approx(5.67, abs=0.005)


def test_the_error_of_a_pressure_as_read() -> None:
    """By hand: 8 mmHg (ISO 81060-2: found) and the rounding; nothing drops out."""
    assert pressure_sd() == pytest.approx(sqrt(64 + 1 / 12))


def test_the_error_of_a_rate_change() -> None:
    """By hand: 3 a minute twice (oximeter), 5 % as a limit (cuff), and the rounding twice."""
    oximeter = change_sd(Measure.HEART_RATE, 70, 100, RateSource.OXIMETER)
    assert oximeter == pytest.approx(sqrt(9 + 9 + 2 / 12))
    cuff = change_sd(Measure.HEART_RATE, 70, 100, RateSource.CUFF)
    assert cuff == pytest.approx(sqrt(3.5**2 / 3 + 5**2 / 3 + 2 / 12))


@pytest.mark.parametrize("source", UNKNOWN)
def test_without_a_figure_the_wider_one_holds(source: RateSource | None) -> None:
    """Up to 103 a minute that is the oximeter's, from 104 the cuff's: 3 is 5 % of 60, by root 3."""
    for rate, wider in ((103, RateSource.OXIMETER), (104, RateSource.CUFF)):
        assert new_variance(Measure.HEART_RATE, rate, source) == new_variance(
            Measure.HEART_RATE, rate, wider
        )
        assert new_variance(Measure.HEART_RATE, rate, source) >= max(
            new_variance(Measure.HEART_RATE, rate, known)
            for known in (RateSource.CUFF, RateSource.OXIMETER)
        )


def test_which_sources_have_a_figure() -> None:
    """The cuff and the oximeter have one; a watch, a finger on the pulse and the untold do not."""
    assert [sourced(source) for source in UNKNOWN] == [False, False, False]
    assert sourced(RateSource.CUFF)
    assert sourced(RateSource.OXIMETER)


@pytest.mark.parametrize("source", [RateSource.CUFF, RateSource.OXIMETER])
def test_errors_leave_room_for_the_days(source: RateSource) -> None:
    """Device errors stay under what one person's changes vary by, all causes together.

    CDISC pilot study (data): 5.5 a minute, 9.1 and 6.7 mmHg; Miwa 2023: 6.5 a minute.
    """
    assert change_sd(Measure.HEART_RATE, 70, 100, source) < 5.5
    assert change_sd(Measure.SYSTOLIC, 120, 100, source) < WITHIN_PERSON_SD[Measure.SYSTOLIC]
    assert change_sd(Measure.DIASTOLIC, 80, 70, source) < WITHIN_PERSON_SD[Measure.DIASTOLIC]


def test_the_new_share_lies_below_what_the_standard_implies() -> None:
    """ISO 81060-2 at both its limits, SD 8 and 6.95 for means of three, leaves 0.37 for the new.

    By hand: b + w = 64 and b + w/3 = 48.3. The 6.95 is from memory, not verified.
    """
    new = (CUFF_SD**2 - 6.95**2) * 3 / 2
    assert new / CUFF_SD**2 == pytest.approx(0.37, abs=0.005)
    assert new / CUFF_SD**2 > NEW_SHARE
