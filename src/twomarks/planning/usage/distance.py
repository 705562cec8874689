"""From what is believed about the rate to the distance of the coming days: its mean, its variance and its chances, in closed form."""

from __future__ import annotations

import math
from bisect import bisect_left

from twomarks.planning.usage.filter import Belief
from twomarks.planning.usage.settings import ALONE, MONTH_DAYS, YEAR_DAYS, Settings
from twomarks.planning.usage.sisters import NO_SISTERS, Common
from twomarks.planning.usage.student import chance_below, quantile

__all__ = ["FARTHEST_DAYS", "Distance", "grid_step", "root_of"]

FARTHEST_DAYS = 3653
_FIRST_STEPS = (2.0, 3.0, 5.0, 10.0, 10.0)
_STEP_DAYS = 30.0
LOWEST_ROOT = 0.05
MOST_VARIANCE = 1.6
"""The variance of a distance in units of its squared mean; beyond that no normal root has such moments."""


def grid_step(index: int) -> float:
    """Return the length of the step with this index, over which rates hardly change [days]."""
    return _FIRST_STEPS[index] if index < len(_FIRST_STEPS) else _STEP_DAYS


def root_of(mean: float, variance: float) -> tuple[float, float]:
    """Return mean and spread of the normal quantity whose square has this `mean` and this `variance`."""
    if mean <= 0:
        return 0.0, 0.0
    square = math.sqrt(mean * mean - min(variance, MOST_VARIANCE * mean * mean) / 2)
    return math.sqrt(square), math.sqrt(max(0.0, mean - square))


class Distance:
    """The distance in the days after the origin.

    Its root is a quantity with the tails of `student.py`, below zero meaning that the vehicle stands; mean and variance
    of the distance are those that the levels of the filter make of it.
    """

    __slots__ = (
        "_ahead",
        "_belief",
        "_carried",
        "_days",
        "_fall",
        "_level",
        "_means",
        "_middle_all",
        "_origin_day",
        "_settings",
        "_vague_days2",
        "_variances",
    )

    def __init__(
        self,
        belief: Belief,
        *,
        settings: Settings = ALONE,
        common: Common = NO_SISTERS,
        origin_day: float = 0.0,
        vague_days2: float = 0.0,
    ) -> None:
        self._belief = belief
        self._settings = settings
        self._ahead = common
        self._origin_day = origin_day
        self._vague_days2 = vague_days2
        self._level = common.level(origin_day)
        self._fall = common.fall / YEAR_DAYS
        self._middle_all = settings.middle_variance(noise_km=belief.noise, root=self._level + belief.slow + belief.middle)
        if not belief.stretches:
            self._middle_all = belief.mm
        self._carried = (0.0, 0.0, 0.0)
        self._days = [0.0]
        self._means = [0.0]
        self._variances = [0.0]

    def _reach(self, day: float) -> None:
        """Extend the grid to `day`: what of the levels' spread is carried on gathers in three sums, one a level."""
        b, s = self._belief, self._settings
        loss = s.loss / YEAR_DAYS
        fast_all = s.fast_share * b.noise / MONTH_DAYS
        while self._days[-1] < day:
            step = grid_step(len(self._days) - 1)
            at = self._days[-1] + step / 2
            season = self._ahead.season(self._origin_day + at)
            x, y, z = math.exp(-at * loss), math.exp(-at / s.middle_days), math.exp(-at / s.fast_days)
            level = max(self._level * math.exp(-at * self._fall) + b.slow * x + b.middle * y + b.fast * z, LOWEST_ROOT)
            sm, sf, mf = b.sm * x * y, b.sf * x * z, b.mf * y * z
            slow = b.ss * x * x + sm + sf
            middle = sm + self._middle_all + (b.mm - self._middle_all) * y * y + mf
            fast = sf + mf + fast_all + (b.ff - fast_all) * z * z
            spread = slow + middle + fast
            square = season * season
            weight = level * square * (1 + spread / (2 * level * level))
            before = self._carried
            kept, lasting = math.exp(-step / s.middle_days), math.exp(-step / s.fast_days)
            self._carried = (
                before[0] * math.exp(-step * loss) + weight * slow * step,
                before[1] * kept + weight * middle * s.middle_days * (1 - kept),
                before[2] * lasting + weight * fast * s.fast_days * (1 - lasting),
            )
            rate = (level * level + spread) * square
            growth = 4 * level * square * (sum(before) + sum(self._carried)) + 4 * b.noise * rate * square
            self._days.append(self._days[-1] + step)
            self._means.append(self._means[-1] + rate * step)
            self._variances.append(self._variances[-1] + growth * step)

    def moments(self, days: float) -> tuple[float, float]:
        """Return mean and variance of the distance after `days`."""
        self._reach(days)
        index = max(1, bisect_left(self._days, days))
        low, high = self._days[index - 1], self._days[index]
        part = (days - low) / (high - low)
        mean = self._means[index - 1] + (self._means[index] - self._means[index - 1]) * part
        variance = self._variances[index - 1] + (self._variances[index] - self._variances[index - 1]) * part
        rate = mean / days
        return mean, variance + rate * rate * self._vague_days2

    def mean_km(self, *, days: float) -> float:
        """Return the mean distance after `days` [km]."""
        return self.moments(days)[0] if days > 0 else 0.0

    def chance_at_most(self, *, distance_km: float, days: float) -> float:
        """Return the chance that the distance after `days` is at most `distance_km`."""
        if days <= 0:
            return 1.0 if distance_km >= 0 else 0.0
        if distance_km < 0:
            return 0.0
        root, spread = root_of(*self.moments(days))
        return chance_below((math.sqrt(distance_km) - root) / spread)

    def quantile_km(self, *, chance: float, days: float) -> float:
        """Return the distance that is not passed after `days` with this `chance` [km]."""
        if days <= 0:
            return 0.0
        root, spread = root_of(*self.moments(days))
        return max(0.0, root + quantile(chance) * spread) ** 2
