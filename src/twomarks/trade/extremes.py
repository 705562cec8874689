"""The level that a yearly extreme passes once in so many years, from a record of yearly extremes.

A generalised extreme value distribution is fitted by maximum likelihood. The shape `xi` is positive for a heavy upper tail.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from twomarks.errors import NoSolutionError
from twomarks.trade.arrays import require_within

__all__ = ["ExtremeFit", "ReturnLevel", "extreme_fit", "return_level"]

CHI2_95 = 3.841458820694124
"""The 95 % point of chi-square with one degree of freedom."""
EULER = 0.5772156649015329
LEAST_EXTREMES = 10


@dataclass(frozen=True, slots=True)
class ExtremeFit:
    """A fitted distribution of yearly maxima: place, scale, shape `xi`, and the negative log-likelihood."""

    place: float
    scale: float
    shape: float
    cost: float

    def level(self, *, once_in_years: float) -> float:
        """Return the level that is passed once in so many years, in the unit of the record.

        Parameters
        ----------
        once_in_years : float
            Mean number of years between two years that pass it [years], above 1.

        Returns
        -------
        float
            The level [unit of the record].

        Raises
        ------
        OutOfRangeError
            If `once_in_years` is not above 1.

        Notes
        -----
        ``place + scale ((-ln(1 - 1/T))^-xi - 1) / xi``. Departs from the source: none.

        References
        ----------
        coles_2001
        """
        require_within(once_in_years, quantity="years", source="coles_2001", above=1.0)
        return self.place + self.scale * _standard_level(self.shape, once_in_years)


@dataclass(frozen=True, slots=True)
class ReturnLevel:
    """A level with its 95 % interval by profile likelihood, in the unit of the record."""

    value: float
    low: float
    high: float


def _standard_level(shape: float, once_in_years: float) -> float:
    rate = -math.log1p(-1.0 / once_in_years)
    return -math.log(rate) if abs(shape) < 1e-9 else (rate**-shape - 1.0) / shape


def _cost(maxima: Sequence[float], place: float, scale: float, shape: float) -> float:
    """Return the negative log-likelihood; infinite where the record does not fit into the distribution's support."""
    total = len(maxima) * math.log(scale)
    for value in maxima:
        reduced = (value - place) / scale
        if abs(shape) < 1e-9:
            log_y = -reduced
        else:
            inside = 1.0 + shape * reduced
            if inside <= 0.0:
                return math.inf
            log_y = -math.log(inside) / shape
        if log_y > 700.0:
            return math.inf
        total += math.exp(log_y) - (1.0 + shape) * log_y
    return total


def _start(maxima: Sequence[float]) -> tuple[float, float, float]:
    """Return place, scale and shape from the L-moments (Hosking, Wallis and Wood 1985)."""
    ordered, n = sorted(maxima), len(maxima)
    b0 = math.fsum(ordered) / n
    b1 = math.fsum(i * value for i, value in enumerate(ordered)) / (n * (n - 1))
    b2 = math.fsum(i * (i - 1) * value for i, value in enumerate(ordered)) / (n * (n - 1) * (n - 2))
    spread, skew = 2.0 * b1 - b0, 6.0 * b2 - 6.0 * b1 + b0
    c = 2.0 * spread / (3.0 * spread + skew) - math.log(2.0) / math.log(3.0)
    k = 7.859 * c + 2.9554 * c * c
    if abs(k) < 1e-6:
        scale = spread / math.log(2.0)
        return b0 - EULER * scale, scale, 0.0
    gamma = math.gamma(1.0 + k)
    scale = spread * k / ((1.0 - 2.0**-k) * gamma)
    return b0 - scale * (1.0 - gamma) / k, scale, -k


def _lowest(function: Callable[[list[float]], float], start: list[float], steps: list[float]) -> tuple[list[float], float]:
    """Return where a function of few variables is lowest, and its value, by the downhill simplex of Nelder and Mead."""
    points = [list(start)] + [[x + (step if i == j else 0.0) for j, x in enumerate(start)] for i, step in enumerate(steps)]
    corners = sorted(((function(point), point) for point in points), key=lambda corner: corner[0])
    for _ in range(800):
        best, worst = corners[0][0], corners[-1][0]
        if worst - best < 1e-10 and max(abs(a - b) for _, p in corners for a, b in zip(p, corners[0][1], strict=True)) < 1e-7:
            break
        middle = [math.fsum(values) / (len(corners) - 1) for values in zip(*(p for _, p in corners[:-1]), strict=True)]

        def along(share: float, middle: list[float] = middle, last: list[float] = corners[-1][1]) -> tuple[float, list[float]]:
            point = [m + share * (w - m) for m, w in zip(middle, last, strict=True)]
            return function(point), point

        turned = along(-1.0)
        if turned[0] < best:
            further = along(-2.0)
            corners[-1] = min(turned, further, key=lambda corner: corner[0])
        elif turned[0] < corners[-2][0]:
            corners[-1] = turned
        else:
            nearer = along(-0.5) if turned[0] < worst else along(0.5)
            if nearer[0] < min(turned[0], worst):
                corners[-1] = nearer
            else:
                centre = corners[0][1]
                halved = [[c + 0.5 * (x - c) for c, x in zip(centre, p, strict=True)] for _, p in corners[1:]]
                corners = [corners[0], *((function(p), p) for p in halved)]
        corners.sort(key=lambda corner: corner[0])
    return corners[0][1], corners[0][0]


def extreme_fit(maxima: Sequence[float]) -> ExtremeFit:
    """Return the distribution of yearly maxima that is most likely for a record.

    Parameters
    ----------
    maxima : sequence of float, shape (n,)
        One maximum a year [unit of the record]; for minima give their negatives. At least 10, not all equal.

    Returns
    -------
    ExtremeFit
        Place, scale, shape and cost, in the unit of the record.

    Raises
    ------
    OutOfRangeError
        If a value is not a finite number.
    NoSolutionError
        If there are fewer than 10 values, or they are all equal.

    Notes
    -----
    Maximum likelihood by a simplex search from the L-moments, with the shape held between -1 and 1, and a second search from
    shape 0; the better of the two. Departs from the sources: only known from memory.

    References
    ----------
    hosking_1985, coles_2001
    """
    for value in maxima:
        require_within(value, quantity="extreme", source="coles_2001")
    if len(maxima) < LEAST_EXTREMES or max(maxima) - min(maxima) < 1e-9:
        raise NoSolutionError("climate.too_few_years", found=len(maxima), expected=LEAST_EXTREMES)

    def cost(point: list[float]) -> float:
        return _cost(maxima, point[0], math.exp(point[1]), point[2]) if abs(point[2]) < 1.0 and abs(point[1]) < 50.0 else math.inf

    place, scale, shape = _start(maxima)
    found = []
    for start_shape in (max(min(shape, 0.5), -0.5), 0.0):
        start = [place, math.log(scale), start_shape]
        while math.isinf(cost(start)):
            start[2] *= 0.5
            start[1] += 0.2
        found.append(_lowest(cost, start, [0.5 * scale, 0.3, 0.1]))
    (place, log_scale, shape), least = min(found, key=lambda one: one[1])
    return ExtremeFit(place, math.exp(log_scale), shape, least)


def return_level(maxima: Sequence[float], *, once_in_years: float) -> ReturnLevel:
    """Return the level that the yearly maximum passes once in so many years, with its 95 % interval.

    Parameters
    ----------
    maxima : sequence of float, shape (n,)
        One maximum a year [unit of the record]; at least 10, not all equal.
    once_in_years : float
        Mean number of years between two years that pass it [years], above 1.

    Returns
    -------
    ReturnLevel
        The level and where its profile likelihood has fallen by half the 95 % point of chi-square.

    Raises
    ------
    OutOfRangeError
        If `once_in_years` is not above 1, or an extreme is not a finite number.
    NoSolutionError
        As for `extreme_fit`.

    Notes
    -----
    The level itself takes the place of the location parameter; for each trial value shape and scale are refitted. Departs
    from the sources: only known from memory.

    References
    ----------
    coles_2001
    """
    require_within(once_in_years, quantity="years", source="coles_2001", above=1.0)
    fit = extreme_fit(maxima)
    best = fit.level(once_in_years=once_in_years)
    limit = fit.cost + CHI2_95 / 2.0
    return ReturnLevel(best, _edge(maxima, fit, best, once_in_years, limit, -1.0), _edge(maxima, fit, best, once_in_years, limit, 1.0))


def _edge(maxima: Sequence[float], fit: ExtremeFit, best: float, once_in_years: float, limit: float, way: float) -> float:
    """Return where the profile passes the limit, going one way from the best level."""
    warm = [fit.shape, math.log(fit.scale)]

    def profile(level: float, start: list[float]) -> tuple[list[float], float]:
        def cost(point: list[float]) -> float:
            shape, scale = point[0], math.exp(min(point[1], 50.0))
            return _cost(maxima, level - scale * _standard_level(shape, once_in_years), scale, shape) if abs(shape) < 1.0 else math.inf

        return _lowest(cost, start, [0.05, 0.1])

    inner, outer, step = best, best, 0.25 * fit.scale
    for _ in range(60):
        outer = inner + way * step
        warm_outer, cost = profile(outer, warm)
        if cost > limit:
            break
        inner, warm, step = outer, warm_outer, step * 1.3
    for _ in range(24):
        middle = 0.5 * (inner + outer)
        warm_middle, cost = profile(middle, warm)
        if cost > limit:
            outer = middle
        else:
            inner, warm = middle, warm_middle
    return 0.5 * (inner + outer)
