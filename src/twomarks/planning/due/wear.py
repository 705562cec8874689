"""From a few measured values to how fast a thing wears, and how far it is from its limit, each with its spread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

__all__ = ["FARTHEST", "Wear", "wear_of"]

FARTHEST = 1e7
"""Nothing is looked for farther ahead than this [km or days]."""
WORTH = 4.0
"""How many values our judgement of the gauge's error is worth beside those that were measured."""
WANDERS = 0.2
"""By how much a later rate differs from the one so far, as a share of it; judgement, no source."""
_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Wear:
    """How far from its limit a thing was at the last value, and how fast it goes there, as two normal quantities.

    `margin` is in the unit of the value, `rate` per km or per day; their errors hang together: the steeper, the nearer.
    """

    margin: float
    rate: float
    margin_variance: float
    rate_variance: float
    together: float

    def chance_within(self, run: float) -> float:
        """Return the chance that the limit is reached within `run` [km or days] after the last value."""
        if run < 0:
            return 0.0
        spread = math.sqrt(self.margin_variance + run * run * self.rate_variance - 2 * run * self.together)
        ahead = self.rate * run - self.margin
        if spread == 0:
            return 1.0 if ahead >= 0 else 0.0
        return _NORMAL.cdf(ahead / spread)

    def run_to(self, chance: float) -> float | None:
        """Return the run [km or days] within which the limit is reached with this chance; None where that is farther than any."""
        if self.chance_within(0.0) >= chance:
            return 0.0
        if self.chance_within(FARTHEST) < chance:
            return None
        low, high = 0.0, FARTHEST
        while high - low > 1e-4 * high + 1e-6:
            middle = (low + high) / 2
            if self.chance_within(middle) < chance:
                low = middle
            else:
                high = middle
        return high


def wear_of(points: Sequence[tuple[float, float]], *, error: float) -> Wear | None:
    """Return the wear that values show: `points` are run [km or days] and margin to the limit, in order.

    A straight line by least squares; `error` is the gauge's, taken together with what the values themselves scatter.
    None where there is one value, or nothing to be seen between them: then nobody knows a rate.
    """
    count = len(points)
    if count < 2:
        return None
    mean_run = sum(run for run, _ in points) / count
    mean_margin = sum(margin for _, margin in points) / count
    squares = sum((run - mean_run) ** 2 for run, _ in points)
    if squares <= 0:
        return None
    slope = sum((run - mean_run) * (margin - mean_margin) for run, margin in points) / squares
    if slope >= 0:
        return None
    off = sum((margin - mean_margin - slope * (run - mean_run)) ** 2 for run, margin in points)
    variance = (WORTH * error * error + off) / (WORTH + count - 2)
    since = points[-1][0] - mean_run
    return Wear(
        margin=mean_margin + slope * since,
        rate=-slope,
        margin_variance=variance * (1 / count + since * since / squares),
        rate_variance=variance / squares + (WANDERS * slope) ** 2,
        together=-variance * since / squares,
    )
