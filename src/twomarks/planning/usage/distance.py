"""From what is believed about the rate to the distance of the coming days: its mean and variance, in closed form."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence

from twomarks.planning.usage.filter import TUNED, Belief, Settings
from twomarks.planning.usage.incomplete import beta_prime_cdf, regularised_gamma

__all__ = ["FARTHEST_DAYS", "Distance"]

FARTHEST_DAYS = 3653
_SHORT_STEPS = (2.0, 3.0, 5.0, 5.0, 5.0, 10.0, 10.0, 10.0, 10.0, 10.0, 10.0, 10.0)
_STEP_DAYS = 30.0
MOST_NOISE = 0.999


class _Moments:
    """Mean and variance of the distance after the days of a grid, for one belief; the grid grows as it is asked for."""

    __slots__ = ("_belief", "_inner", "_memory", "_slope", "days", "mean", "variance")

    def __init__(self, belief: Belief, settings: Settings) -> None:
        self._belief = belief
        self._memory = settings.fast_days
        self._inner = (0.0, 0.0, 0.0, 0.0, 0.0)
        self.days = [0.0]
        self.mean = [0.0]
        self.variance = [0.0]
        self._slope = self._growth(0.0)

    def _growth(self, day: float) -> float:
        b = self._belief
        keep = math.exp(-day / self._memory)
        level = b.slow * math.exp(-day * b.loss) + b.fast * keep
        spread = b.slow_variance + b.wander * day + 2 * b.covariance * keep
        spread += b.fast_variance + (b.fast_now_variance - b.fast_variance) * keep * keep
        i1, i2, i3, i4, i5 = self._inner
        return 2 * (i1 + i2 + i3 + level * (i4 + i5)) + 4 * b.noise * (level * level + spread)

    def reach(self, day: float) -> None:
        """Extend the grid to `day` [days] by steps over which rates hardly change."""
        b = self._belief
        while self.days[-1] < day:
            index = len(self.days) - 1
            step = _SHORT_STEPS[index] if index < len(_SHORT_STEPS) else _STEP_DAYS
            middle = self.days[-1] + step / 2
            keep = math.exp(-middle / self._memory)
            level = b.slow * math.exp(-middle * b.loss) + b.fast * keep
            both = b.covariance * keep
            stays = b.slow_variance + b.wander * middle + both
            falls = b.fast_variance + (b.fast_now_variance - b.fast_variance) * keep * keep + both
            once = math.exp(-step / self._memory)
            tail, tail2 = self._memory * (1 - once), self._memory / 2 * (1 - once * once)
            i1, i2, i3, i4, i5 = self._inner
            self._inner = (
                i1 + 2 * stays * stays * step,
                i2 * once + 4 * stays * falls * tail,
                i3 * once * once + 2 * falls * falls * tail2,
                i4 + 4 * stays * level * step,
                i5 * once + 4 * falls * level * tail,
            )
            self.days.append(self.days[-1] + step)
            self.mean.append(self.mean[-1] + (level * level + stays + falls) * step)
            slope = self._growth(self.days[-1])
            self.variance.append(self.variance[-1] + (self._slope + slope) / 2 * step)
            self._slope = slope

    def at(self, day: float) -> tuple[float, float]:
        """Return mean and variance of the distance `day` days after the origin."""
        self.reach(day)
        index = max(1, bisect_left(self.days, day))
        low, high = self.days[index - 1], self.days[index]
        part = (day - low) / (high - low)
        return (
            self.mean[index - 1] + (self.mean[index] - self.mean[index - 1]) * part,
            self.variance[index - 1] + (self.variance[index] - self.variance[index - 1]) * part,
        )


LEAST_WEIGHT = 1e-4
"""Settings that hardly anything speaks for are left out of the sum: each costs as much as one that counts."""


class Distance:
    """The distance in the days after the origin, as the weighed settings of the filter foretell it.

    For each setting the distance is a compound gamma quantity: gamma distributed about what the rate makes of it, the
    rate itself spread; shape and tail are those that give the mean, the variance and the share of the noise in it.
    """

    __slots__ = ("_moments", "_noises", "_vague_days2", "_weights")

    def __init__(self, beliefs: Sequence[Belief], *, settings: Settings = TUNED, vague_days2: float = 0.0) -> None:
        heard = [belief for belief in beliefs if belief.weight >= LEAST_WEIGHT]
        total = sum(belief.weight for belief in heard)
        self._weights = tuple(belief.weight / total for belief in heard)
        self._noises = tuple(belief.noise for belief in heard)
        self._moments = tuple(_Moments(belief, settings) for belief in heard)
        self._vague_days2 = vague_days2

    def parts(self, days: float) -> tuple[tuple[float, float, float], ...]:
        """Return weight, mean and variance of the distance after `days`, by setting."""
        found = []
        for weight, moments in zip(self._weights, self._moments, strict=True):
            mean, variance = moments.at(days)
            rate = mean / days
            found.append((weight, mean, variance + rate * rate * self._vague_days2))
        return tuple(found)

    def mean_km(self, *, days: float) -> float:
        """Return the mean distance after `days` [km]."""
        return sum(weight * mean for weight, mean, _ in self.parts(days)) if days > 0 else 0.0

    def chance_at_most(self, *, distance_km: float, days: float) -> float:
        """Return the chance that the distance after `days` is at most `distance_km`."""
        if days <= 0:
            return 1.0 if distance_km >= 0 else 0.0
        chance = 0.0
        for (weight, mean, variance), noise in zip(self.parts(days), self._noises, strict=True):
            spread = variance / (mean * mean)
            of_noise = 4 * noise / mean
            if of_noise > MOST_NOISE * spread:
                # The rate is as good as certain: a plain gamma quantity.
                chance += weight * regularised_gamma(shape=1 / spread, x=distance_km / (mean * spread))
                continue
            shape = 1 / of_noise
            tail = 2 + (1 + of_noise) / (spread - of_noise)
            chance += weight * beta_prime_cdf(shape=shape, tail=tail, scale=mean * (tail - 1) / shape, x=distance_km)
        return chance
