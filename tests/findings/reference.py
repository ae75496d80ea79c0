"""Normal distributions by another library, to hold the project's own against."""

from collections.abc import Sequence

from scipy.stats import multivariate_normal, norm  # type: ignore[import-untyped]


def below(z: float) -> float:
    """Return the share of a standard normal distribution up to `z`."""
    return float(norm.cdf(z))


def quantile(share: float) -> float:
    """Return the bound below which a share of a standard normal distribution lies."""
    return float(norm.ppf(share))


def all_below(bounds: Sequence[float], covariance: Sequence[Sequence[float]]) -> float:
    """Return the share of a normal distribution around 0 that lies up to every bound."""
    return float(
        multivariate_normal.cdf(list(bounds), mean=[0.0] * len(bounds), cov=list(covariance))
    )
