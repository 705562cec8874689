"""Student's distribution with six degrees of freedom: closed form, with tails as wide as the faults of a forecast."""

from __future__ import annotations

import math
from functools import cache

from twomarks.errors import OutOfRangeError

__all__ = ["FREEDOM", "chance_below", "quantile"]

FREEDOM = 6
_FARTHEST = 1e4


def chance_below(z: float) -> float:
    """Return the chance of a value of at most `z`."""
    cosine2 = FREEDOM / (FREEDOM + z * z)
    sine = z / math.sqrt(FREEDOM + z * z)
    return 0.5 + 0.5 * sine * (1 + cosine2 * (0.5 + 0.375 * cosine2))


@cache
def quantile(chance: float) -> float:
    """Return the value that is not passed with `chance`, between 0 and 1."""
    if not 0 < chance < 1:
        raise OutOfRangeError("usage.chance", quantity="chance", value=chance, low=0.0, high=1.0)
    low, high = -_FARTHEST, _FARTHEST
    while high - low > 1e-12 * max(1.0, abs(low)):
        middle = (low + high) / 2
        if chance_below(middle) < chance:
            low = middle
        else:
            high = middle
    return (low + high) / 2
