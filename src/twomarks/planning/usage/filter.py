"""From clean readings to what is believed about the rate of use: a filter with a slow, a middle and a fast level.

The square root of the rate is the sum of three levels: a slow one that only falls a little as vehicles age, a middle one
that wanders within years, in proportion to the rate, and a fast one that falls back to nothing within weeks. Each stretch
between readings adds noise whose variance grows with the distance. How steady a vehicle is, is not known beforehand: a
few settings of the noise run side by side, each counts by how well it foretold the readings so far, and what they believe
at the end is taken together.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from twomarks.planning.usage.prior import UsagePrior
from twomarks.planning.usage.settings import ALONE, MONTH_DAYS, YEAR_DAYS, Settings
from twomarks.planning.usage.sisters import NO_SISTERS, Common

__all__ = ["Belief", "Block", "believe", "blocks"]

PRIOR_WANDERS = 0.75
"""At most this share of the prior's variance is that of the middle level; judgement, no source."""


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch between two readings: its middle day, its length, its distance, how vague its ends are."""

    middle_day: float
    days: float
    distance: float
    end_variance_days2: float = 0.0


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed at the origin: mean of each level, their variances and covariances, the noise [km], and from how much.

    `ss`, `sm`, `sf`, `mm`, `mf`, `ff` are the covariances of the slow, middle and fast level; `stretches` how many were seen.
    """

    slow: float
    middle: float
    fast: float
    ss: float
    sm: float
    sf: float
    mm: float
    mf: float
    ff: float
    noise: float
    stretches: int


def blocks(
    points: Sequence[tuple[float, float, float]], *, breaks: Iterable[int] = (), block_days: int = ALONE.block_days
) -> tuple[Block, ...]:
    """Return the stretches between `points` (day, value, half width of the day), none shorter than `block_days` but the last.

    `breaks` are the indices at which a run begins anew: no stretch reaches across.
    """
    cut = set(breaks)
    found = []
    start = 0
    for index in range(1, len(points)):
        if index in cut:
            start = index
            continue
        days = points[index][0] - points[start][0]
        last = index + 1 == len(points) or index + 1 in cut
        if days >= block_days or (last and days > 0):
            vague = (points[start][2] ** 2 + points[index][2] ** 2) / 3
            found.append(Block((points[start][0] + points[index][0]) / 2, days, points[index][1] - points[start][1], vague))
            start = index
    return tuple(found)


def believe(
    stretches: Sequence[Block], *, origin_day: float, prior: UsagePrior, settings: Settings = ALONE, common: Common = NO_SISTERS
) -> Belief:
    """Return what is believed at `origin_day` after `stretches`; `common` is the level and season shared with sisters."""
    first = origin_day - settings.longest_history_days
    seen = [_Seen.of(stretch, common) for stretch in stretches if stretch.middle_day >= first]
    root_mean, root_spread = common.start or (prior.root_mean, prior.root_spread)
    start_level = common.level(seen[0].middle_day if seen else origin_day)
    run = []
    for noise in settings.noise_km:
        lean = math.log(noise / settings.noise_centre_km) / settings.noise_width
        belief, fit = _filtered(seen, noise, origin_day, root_mean, root_spread, start_level, settings)
        run.append((fit - lean * lean / 2, belief))
    best = max(fit for fit, _ in run)
    weighed = [(math.exp(fit - best), belief) for fit, belief in run]
    total = sum(weight for weight, _ in weighed)
    return _together([(weight / total, belief) for weight, belief in weighed], settings)


@dataclass(frozen=True, slots=True)
class _Seen:
    """A stretch with its distance freed from the season, and the level that sisters had then."""

    middle_day: float
    days: float
    rate: float
    vague: float
    level: float

    @classmethod
    def of(cls, stretch: Block, common: Common) -> _Seen:
        season = common.season(stretch.middle_day)
        rate = max(0.0, stretch.distance) / stretch.days / (season * season)
        vague = rate * stretch.end_variance_days2 / (4 * stretch.days * stretch.days)
        return cls(stretch.middle_day, stretch.days, rate, vague, common.level(stretch.middle_day - stretch.days / 2))


def _filtered(
    seen: Sequence[_Seen], noise: float, origin_day: float, root_mean: float, root_spread: float, start_level: float, settings: Settings
) -> tuple[Belief, float]:
    loss = settings.loss / YEAR_DAYS
    middle_days, fast_days, clip = settings.middle_days, settings.fast_days, settings.clip
    fast_all = settings.fast_share * noise / MONTH_DAYS
    slow, middle, fast = root_mean, 0.0, 0.0
    # The spread of the prior is that of the levels together.
    mm = min(settings.middle_variance(noise_km=noise, root=start_level + root_mean), PRIOR_WANDERS * root_spread**2)
    ss, sm, sf, mf, ff = root_spread**2 - mm, 0.0, 0.0, 0.0, fast_all
    fit = 0.0
    now = seen[0].middle_day if seen else origin_day
    for stretch in seen:
        gone = stretch.middle_day - now
        now = stretch.middle_day
        a, b, c = math.exp(-gone * loss), math.exp(-gone / middle_days), math.exp(-gone / fast_days)
        slow, middle, fast = slow * a, middle * b, fast * c
        middle_all = settings.middle_variance(noise_km=noise, root=stretch.level + slow + middle)
        ss, sm, sf, mf = ss * a * a, sm * a * b, sf * a * c, mf * b * c
        mm = middle_all + (mm - middle_all) * b * b
        ff = fast_all + (ff - fast_all) * c * c
        # The mean of the fast level over a stretch, in terms of its value in the middle.
        span = fast_days / stretch.days
        share = 2 * span * (1 - math.exp(-0.5 / span))
        rest = fast_all * max(0.0, 2 * span * (1 - span * (1 - math.exp(-1 / span))) - share * share)
        per_day = noise / stretch.days
        gain_slow, gain_middle, gain_fast = ss + sm + share * sf, sm + mm + share * mf, sf + mf + share * ff
        variance = gain_slow + gain_middle + share * gain_fast + per_day + rest + stretch.vague
        miss = math.sqrt(stretch.rate + per_day) - stretch.level - slow - middle - share * fast
        bound = clip * math.sqrt(variance)
        far = abs(miss)
        scored = miss * miss if far <= bound else 2 * bound * far - bound * bound
        fit = settings.forget * fit - 0.5 * (math.log(variance) + scored / variance)
        miss = max(-bound, min(bound, miss)) / variance
        slow, middle, fast = slow + gain_slow * miss, middle + gain_middle * miss, fast + gain_fast * miss
        ss -= gain_slow * gain_slow / variance
        sm -= gain_slow * gain_middle / variance
        sf -= gain_slow * gain_fast / variance
        mm -= gain_middle * gain_middle / variance
        mf -= gain_middle * gain_fast / variance
        ff -= gain_fast * gain_fast / variance
    gone = origin_day - now
    a, b, c = math.exp(-gone * loss), math.exp(-gone / middle_days), math.exp(-gone / fast_days)
    last_level = seen[-1].level if seen else start_level
    middle_all = settings.middle_variance(noise_km=noise, root=last_level + slow + middle)
    grown = middle_all + (mm - middle_all) * b * b
    belief = Belief(
        slow * a,
        middle * b,
        fast * c,
        ss * a * a,
        sm * a * b,
        sf * a * c,
        grown if seen else mm,
        mf * b * c,
        fast_all + (ff - fast_all) * c * c,
        noise,
        len(seen),
    )
    return belief, fit


def _together(weighed: Sequence[tuple[float, Belief]], settings: Settings) -> Belief:
    """Return one belief with the mean and the covariance that the weighed ones have between them, corrected by the settings."""
    slow = sum(w * b.slow for w, b in weighed)
    middle = sum(w * b.middle for w, b in weighed)
    fast = sum(w * b.fast for w, b in weighed)
    apart = [(w, b, b.slow - slow, b.middle - middle, b.fast - fast) for w, b in weighed]
    stretches = weighed[0][1].stretches
    wide = settings.widening(stretches)
    return Belief(
        slow,
        middle,
        fast,
        wide * sum(w * (b.ss + x * x) for w, b, x, _, _ in apart),
        wide * sum(w * (b.sm + x * y) for w, b, x, y, _ in apart),
        wide * sum(w * (b.sf + x * z) for w, b, x, _, z in apart),
        wide * sum(w * (b.mm + y * y) for w, b, _, y, _ in apart),
        wide * sum(w * (b.mf + y * z) for w, b, _, y, z in apart),
        wide * sum(w * (b.ff + z * z) for w, b, _, _, z in apart),
        wide * sum(w * b.noise for w, b in weighed),
        stretches,
    )
