"""The regularised incomplete gamma and beta functions, with `math` alone, so that a forecast starts at once."""

from __future__ import annotations

import math

from twomarks.errors import OutOfRangeError

__all__ = ["beta_prime_cdf", "regularised_beta", "regularised_gamma"]

_TINY = 1e-300
_CLOSE = 1e-14
_LONGEST = 20_000
_NORMAL_FROM = 20_000.0


def regularised_gamma(*, shape: float, x: float) -> float:
    """Return P(shape, x), the lower regularised incomplete gamma function, by its series or its continued fraction.

    From a shape of 20 000 on the Wilson-Hilferty cube root stands in; it is then right to better than 1e-5.
    """
    if not shape > 0 or math.isnan(x):
        raise OutOfRangeError("usage.shape", quantity="shape", value=shape, low=0.0)
    if x <= 0:
        return 0.0
    if shape > _NORMAL_FROM:
        root = (x / shape) ** (1 / 3)
        return 0.5 * math.erfc(-(root - 1 + 1 / (9 * shape)) * 3 * math.sqrt(shape) / math.sqrt(2))
    front = math.exp(shape * math.log(x) - x - math.lgamma(shape))
    if x < shape + 1:
        term = total = 1 / shape
        n = shape
        for _ in range(_LONGEST):
            n += 1
            term *= x / n
            total += term
            if term < total * _CLOSE:
                break
        return min(1.0, total * front)
    b = x + 1 - shape
    c = 1 / _TINY
    d = 1 / b
    fraction = d
    for i in range(1, _LONGEST):
        step = -i * (i - shape)
        b += 2
        d = step * d + b
        d = 1 / (d if abs(d) > _TINY else _TINY)
        c = b + step / c
        c = c if abs(c) > _TINY else _TINY
        ratio = d * c
        fraction *= ratio
        if abs(ratio - 1) < _CLOSE:
            break
    return max(0.0, 1 - front * fraction)


def regularised_beta(*, a: float, b: float, x: float) -> float:
    """Return I_x(a, b), the regularised incomplete beta function, by its continued fraction (modified Lentz)."""
    if not (a > 0 and b > 0):
        raise OutOfRangeError("usage.shape", quantity="shape", value=min(a, b), low=0.0)
    if x <= 0:
        return 0.0
    if x >= 1:
        return 1.0
    if x > (a + 1) / (a + b + 2):
        return 1 - regularised_beta(a=b, b=a, x=1 - x)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)) / a
    c = 1.0
    d = 1 - (a + b) * x / (a + 1)
    d = 1 / (d if abs(d) > _TINY else _TINY)
    fraction = d
    for m in range(1, _LONGEST):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for step in (even, odd):
            d = 1 + step * d
            d = 1 / (d if abs(d) > _TINY else _TINY)
            c = 1 + step / c
            c = c if abs(c) > _TINY else _TINY
            ratio = d * c
            fraction *= ratio
        if abs(ratio - 1) < _CLOSE:
            break
    return min(1.0, front * fraction)


def beta_prime_cdf(*, shape: float, tail: float, scale: float, x: float) -> float:
    """Return the chance that a compound gamma quantity is at most `x`.

    The quantity is gamma distributed with `shape`, and its rate is itself gamma distributed with the shape `tail` and
    the rate `scale`; divided by `scale` it follows the beta prime distribution (`shape`, `tail`).
    """
    if x <= 0:
        return 0.0
    return regularised_beta(a=shape, b=tail, x=x / (x + scale))
