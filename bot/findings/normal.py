"""The normal distribution, of one error and of two that move together."""

from collections.abc import Callable
from math import asin, cos, erfc, exp, pi, sin, sqrt
from typing import Final

MIDDLE_95: Final = 1.96
"""Half the width of the middle 95 % of a normal distribution, in SD (usual figure)."""

_STEPS: Final = 64


def below(z: float) -> float:
    """Return the share of a standard normal distribution up to `z`."""
    return 0.5 * erfc(-z / sqrt(2))


def both_below(one: float, other: float, correlation: float) -> float:
    """Return the share of two standard normal errors that lie up to `one` and up to `other`.

    By the integral over the correlation (Plackett; Drezner & Wesolowsky: from memory, not
    verified; held against another library in the tests).

    Args:
        one: In SD.
        other: In SD.
        correlation: Between -1 and 1. The share is right to 8 digits up to 0.9 either way, to 6 up
            to 0.999.

    Raises:
        ValueError: The correlation lies outside.
    """
    if abs(correlation) >= 1:
        raise ValueError(correlation)

    def density(angle: float) -> float:
        spread = one * one - 2 * one * other * sin(angle) + other * other
        return exp(-spread / (2 * cos(angle) ** 2)) / (2 * pi)

    return below(one) * below(other) + _integral(density, asin(correlation))


def either_below(one: float, other: float, correlation: float) -> float:
    """Return the share of two standard normal errors of which at least one lies up to its bound.

    Raises:
        ValueError: The correlation lies outside -1 to 1.
    """
    return below(one) + below(other) - both_below(one, other, correlation)


def _integral(function: Callable[[float], float], end: float) -> float:
    """Return the integral from 0 to `end`, by Simpson's rule."""
    step = end / _STEPS
    inner = sum((4 if i % 2 else 2) * function(i * step) for i in range(1, _STEPS))
    return step / 3 * (function(0) + inner + function(end))
