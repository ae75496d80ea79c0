"""Shares out of counts: by hand, and against another library."""

from random import Random
from statistics import fmean

import numpy as np
import pytest
from scipy import stats  # type: ignore[import-untyped]

from bot.cohort.figures import band, early_falls, rates, reliability, score
from bot.cohort.tallies import (
    Against,
    Early,
    Forecast,
    Lasting,
    Said,
    Subject,
    Tally,
    Verdict,
)
from bot.findings.certainty import Band
from bot.findings.quality import Grade
from bot.findings.result import Line

RISE = Line.HEART_RATE_RISE


def counted(*rows: tuple[bool, Said, int], grade: Grade = Grade.GOOD) -> Tally:
    """Return a tally of verdicts on the rise."""
    tally = Tally()
    for true, said, count in rows:
        key = Verdict("four", grade, Subject.HEART_RATE_RISE, Against.PERSON, true, said)
        tally.verdicts[key] += count
    return tally


def test_sensitivity_and_specificity_by_hand() -> None:
    """Of 10 true 6 are found and 1 once; of 20 others 2 are found and 1 once."""
    tally = counted(
        (True, Said.FOUND, 6), (True, Said.ONCE, 1), (True, Said.NOTHING, 2),
        (True, Said.NOT_MET, 1), (False, Said.FOUND, 2), (False, Said.ONCE, 1),
        (False, Said.NOT_MET, 12), (False, Said.NOTHING, 5),
    )  # fmt: skip
    found = rates(tally, Subject.HEART_RATE_RISE, Against.PERSON)
    assert (found.sensitivity, found.confirmed, found.specificity) == (0.7, 0.6, 0.85)
    assert found.of_true(Said.NOTHING) == 0.2
    assert rates(tally, Subject.HEART_RATE_RISE, Against.READINGS).sensitivity is None


def test_rates_are_of_the_grade_and_protocol_asked_for() -> None:
    """Counts of another grade or protocol have no say."""
    tally = counted((True, Said.FOUND, 3))
    tally.add(counted((True, Said.NOT_MET, 5), grade=Grade.POOR))
    subject, against = Subject.HEART_RATE_RISE, Against.PERSON
    assert rates(tally, subject, against, "four", Grade.GOOD).sensitivity == 1
    assert rates(tally, subject, against, "four", Grade.POOR).sensitivity == 0
    assert rates(tally, subject, against, "four").sensitivity == 3 / 8
    assert rates(tally, subject, against, "six").sensitivity is None


def test_scores_are_those_of_another_library() -> None:
    """The Brier score is the mean squared error, and the bins are those of numpy and scipy."""
    chance = Random(20260322)
    given = [chance.random() for _ in range(500)] + [0.0, 1.0]
    came = [chance.random() < probability for probability in given]
    tally = Tally()
    for probability, true in zip(given, came, strict=True):
        tally.foretell(Forecast.TRUE_CHANGE, RISE, probability, true=true)
    found = score(tally, Forecast.TRUE_CHANGE, RISE)
    errors = np.array(given) - np.array(came)
    assert found.given == 502
    assert found.brier == pytest.approx(float(np.mean(errors**2)), abs=1e-6)
    assert found.base == pytest.approx(float(np.var(np.array(came))), abs=1e-9)
    shares = stats.binned_statistic(given, [given, came], bins=10, range=(0, 1)).statistic
    bins = reliability(tally, Forecast.TRUE_CHANGE, RISE)
    assert [one.mean for one in bins] == pytest.approx(list(shares[0]), abs=1e-6)
    assert [one.came_true for one in bins] == pytest.approx(list(shares[1]))
    gaps = [
        one.given * abs(mean - share)
        for one, mean, share in zip(bins, shares[0], shares[1], strict=True)
    ]
    assert found.gap == pytest.approx(sum(gaps) / 502, abs=1e-6)
    assert found.mean == pytest.approx(fmean(given), abs=1e-6)


def test_an_empty_tally_has_no_shares() -> None:
    """Without any test there is nothing to say, and nothing fails."""
    found = score(Tally(), Forecast.ANOTHER_DAY)
    assert (found.given, found.mean, found.brier, found.gap) == (0, None, None, None)
    assert band(Tally(), Band.CLEAR) == (0, None)


def test_bands_by_hand() -> None:
    """Of 4 clear ones 3 are true; other lines and bands have no say."""
    tally = Tally()
    tally.bands[RISE, Band.CLEAR, True] += 3
    tally.bands[RISE, Band.CLEAR, False] += 1
    tally.bands[RISE, Band.CLEARLY_NOT, False] += 5
    tally.bands[Line.LARGE_FALL, Band.CLEAR, False] += 4
    assert band(tally, Band.CLEAR, RISE) == (4, 0.75)
    assert band(tally, Band.CLEAR) == (8, 3 / 8)


def test_early_falls_by_hand() -> None:
    """Found by six readings alone, by both, by neither."""
    tally = Tally()
    passing, classical, later = Lasting.PASSING, Line.CLASSICAL_FALL, Line.LATER_FALL
    tally.early[Early(passing, None, classical)] += 5
    tally.early[Early(passing, later, classical)] += 3
    tally.early[Early(passing, None, None)] += 2
    tally.early[Early(Lasting.STAYING, later, None)] += 1
    found = early_falls(tally, passing)
    assert found == {
        "all": 10,
        "four: as an early fall": 0,
        "four: as a later fall": 3,
        "six: as an early fall": 8,
        "six: as a later fall": 0,
        "by six alone": 5,
        "by four alone": 0,
        "by neither": 2,
    }
