"""The figures of the filter, for a vehicle alone and for one whose sisters are known."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["ALONE", "LEAST_ROOT", "MONTH_DAYS", "WITH_SISTERS", "YEAR_DAYS", "Settings"]

MONTH_DAYS = 30.4375
YEAR_DAYS = 365.25
FULL_YEAR = 12
LEAST_ROOT = 0.5
"""A rate of use below which the levels are not let wander less [root of km a day]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How the filter weighs what it sees.

    Fitted on one half of the buses of `benchmarks/data` and, for a vehicle alone, on the one car with a fifth of the
    weight: what fits the buses best is far worse for the car. Judged on the other half of the buses.

    `noise_km` are the settings of the noise that run side by side (variance of a distance = 4 noise_km x distance),
    `noise_centre_km` and `noise_width` the centre and the width of their prior weights. The variance of the middle level is
    `middle_noise` noises of a month, its spread at most `middle_share` of the whole rate's root, its memory `middle_days`;
    `fast_share` is the variance of the fast level in noises of a month, `fast_days` its memory. `loss` is the share of its
    root that the slow level loses a year, twice as much in distance, as vehicles are used less while they age. Misses
    beyond `clip` spreads count as that many; `forget` is how far earlier misses count for the noise. `spread` corrects the
    variances of the levels and the noise. With sisters: `same_model` is the weight of those of the same model against all,
    `sisters_fall` the share of their level lost a year from the origin on, `sisters_spread` a factor on how far vehicles
    differ.
    """

    noise_km: tuple[float, ...] = (2.0, 7.0, 25.0, 90.0)
    noise_centre_km: float
    noise_width: float
    middle_noise: float
    middle_share: float
    middle_days: float
    fast_share: float
    fast_days: float
    loss: float
    clip: float
    spread: float
    forget: float = 0.925
    same_model: float = 0.0
    sisters_fall: float = 0.0
    sisters_spread: float = 1.0
    block_days: int = 26
    longest_history_days: int = 3000

    def middle_variance(self, *, noise_km: float, root: float) -> float:
        """Return the variance that the middle level comes to have where the root of the rate is `root`."""
        wide = self.middle_share * max(root, LEAST_ROOT)
        return min(self.middle_noise * noise_km / MONTH_DAYS, wide * wide)

    def widening(self, stretches: int) -> float:
        """Return by what the variances are to be multiplied; it comes in with the first year's stretches."""
        return 1 + (self.spread - 1) * min(1.0, stretches / FULL_YEAR)


ALONE = Settings(
    noise_centre_km=0.67,
    noise_width=0.86,
    middle_noise=15.3,
    middle_share=0.7,
    middle_days=2670.0,
    fast_share=9.9,
    fast_days=34.5,
    loss=0.025,
    clip=1.43,
    spread=1.25,
)
WITH_SISTERS = Settings(
    noise_centre_km=41.0,
    noise_width=0.41,
    middle_noise=math.inf,
    middle_share=0.132,
    middle_days=3030.0,
    fast_share=6.6,
    fast_days=60.0,
    loss=0.0,
    clip=1.47,
    spread=0.56,
    same_model=0.61,
    sisters_fall=0.053,
    sisters_spread=0.54,
)
