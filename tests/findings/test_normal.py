"""The normal distribution against another library and against known identities."""

from math import asin, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.findings.normal import MIDDLE_95, below, both_below, either_below
from tests.findings import reference

Z = st.floats(-8, 8)
CORRELATIONS = st.floats(-0.95, 0.95)


@pytest.mark.parametrize("z", [-8.0, -3.1, -1.0, -0.25, 0.0, 0.7, 1.96, 5.0])
def test_one_error(z: float) -> None:
    """The share up to a bound is that of scipy.stats.norm, in the far tail too."""
    assert below(z) == pytest.approx(reference.below(z), rel=1e-12)


def test_the_middle_95() -> None:
    """The usual 1.96 is the 97.5th centile, rounded: scipy.stats.norm."""
    assert pytest.approx(reference.quantile(0.975), abs=0.0001) == MIDDLE_95


@pytest.mark.parametrize("correlation", [-0.7, -0.2, 0.0, 0.3, 0.5, 0.9, 0.95, 0.999])
@pytest.mark.parametrize("other", [-4.0, -1.3, 0.0, 0.4, 2.5])
@pytest.mark.parametrize("one", [-2.2, -0.4, 0.0, 0.4, 3.0])
def test_two_errors(one: float, other: float, correlation: float) -> None:
    """The share up to both bounds is that of scipy.stats.multivariate_normal."""
    expected = reference.all_below([one, other], [[1.0, correlation], [correlation, 1.0]])
    assert both_below(one, other, correlation) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("correlation", [-0.6, 0.0, 0.25, 0.5, 0.8])
def test_at_the_middle_of_both(correlation: float) -> None:
    """At 0 and 0 the share is 1/4 and the arc sine of the correlation over 2 pi (Sheppard)."""
    expected = 0.25 + asin(correlation) / (2 * pi)
    assert both_below(0, 0, correlation) == pytest.approx(expected, abs=1e-9)


@given(one=Z, other=Z)
def test_errors_of_their_own_multiply(one: float, other: float) -> None:
    """With no correlation the share of both is the product."""
    assert both_below(one, other, 0) == pytest.approx(below(one) * below(other), abs=1e-12)


@given(one=Z, other=Z, correlation=CORRELATIONS)
def test_shares_keep_to_their_bounds(one: float, other: float, correlation: float) -> None:
    """Both is no more than the smaller, either no less than the larger and no more than the sum."""
    smaller, larger = sorted((below(one), below(other)))
    both, either = both_below(one, other, correlation), either_below(one, other, correlation)
    assert max(0.0, smaller + larger - 1) - 1e-7 <= both <= smaller + 1e-7
    assert larger - 1e-7 <= either <= min(1.0, smaller + larger) + 1e-7
    assert both + either == pytest.approx(smaller + larger, abs=1e-12)


@pytest.mark.parametrize("correlation", [-1.0, 1.0, 1.5])
def test_no_such_correlation(correlation: float) -> None:
    """A correlation of 1 or more either way is refused."""
    with pytest.raises(ValueError, match=str(correlation)):
        both_below(0, 0, correlation)
    with pytest.raises(ValueError, match=str(correlation)):
        either_below(0, 0, correlation)
