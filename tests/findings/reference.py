"""Normal distributions and straight lines by another library, to hold the project's own against.

It takes a second to import, so it is imported where it is used.
"""

from collections.abc import Sequence


def below(z: float) -> float:
    """Return the share of a standard normal distribution up to `z`."""
    from scipy.stats import norm  # type: ignore[import-untyped]

    return float(norm.cdf(z))


def quantile(share: float) -> float:
    """Return the bound below which a share of a standard normal distribution lies."""
    from scipy.stats import norm

    return float(norm.ppf(share))


def all_below(bounds: Sequence[float], covariance: Sequence[Sequence[float]]) -> float:
    """Return the share of a normal distribution around 0 that lies up to every bound."""
    from scipy.stats import multivariate_normal

    return float(
        multivariate_normal.cdf(list(bounds), mean=[0.0] * len(bounds), cov=list(covariance))
    )


def line(times: Sequence[float], sizes: Sequence[float], sd: float) -> tuple[float, float]:
    """Return the slope of the least-squares line, and its SD where each size errs by one SD."""
    import numpy as np
    from scipy.optimize import curve_fit  # type: ignore[import-untyped]
    from scipy.stats import linregress

    _, covariance = curve_fit(
        lambda time, slope, start: slope * time + start,
        np.asarray(times, dtype=float),
        np.asarray(sizes, dtype=float),
        sigma=np.full(len(times), sd),
        absolute_sigma=True,
    )
    return float(linregress(times, sizes).slope), float(covariance[0][0]) ** 0.5
