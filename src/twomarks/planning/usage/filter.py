"""From clean readings to what is believed about the rate of use: a filter with a slow and a fast level.

The square root of the rate is a slow level that wanders plus a fast one that falls back to nothing within months, and
each stretch between readings adds noise whose variance grows with the distance. How steady a vehicle is (the noise)
and how far its slow level wanders is not known beforehand: two dozen settings run side by side, and each counts by how
well it foretold the readings so far.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from twomarks.planning.usage.prior import UsagePrior

__all__ = ["TUNED", "Belief", "Block", "Settings", "believe", "blocks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The figures of the filter, tuned on one half of the buses of `benchmarks/data` and never on the other.

    The search was stopped early: what fits those buses still better forgets within days and loses a fifth of its rate a
    year, and a private vehicle driven evenly would be foretold too little.


    `noise_km` are the settings of the noise that run side by side (variance of a distance = 4 noise_km x distance),
    with the centre and the width of their prior weights; `drifts` those of the slow level: how far it wanders a day, in units of
    the noise of a month, and what share it loses a year as the vehicle ages. `fast_share` is the variance of the fast
    level in the same units, `fast_days` its memory.
    """

    noise_km: tuple[float, ...] = (2.0, 6.0, 18.0, 50.0, 140.0)
    noise_centre_km: float = 20.0
    noise_width: float = 1.5
    drifts: tuple[tuple[float, float], ...] = ((0.0002, 0.0), (0.0002, 0.06), (0.002, 0.0), (0.002, 0.06), (0.0105, 0.0))
    fast_share: float = 3.0
    fast_days: float = 35.0
    clip: float = 2.0
    forget: float = 0.925
    block_days: int = 26
    longest_history_days: int = 3000


TUNED = Settings()
LEAST_WEIGHT = 0.01
MONTH_DAYS = 30.4375
YEAR_DAYS = 365.25


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch between two readings: days before the origin at its middle, its length, its distance, how vague its ends are."""

    middle_day: float
    days: float
    distance: float
    end_variance_days2: float = 0.0


@dataclass(frozen=True, slots=True)
class Belief:
    """One setting of the filter at the origin: its weight, the mean and the variance of the slow and the fast level."""

    weight: float
    noise: float
    wander: float
    loss: float
    fast_variance: float
    slow: float
    fast: float
    slow_variance: float
    covariance: float
    fast_now_variance: float


def blocks(
    points: Sequence[tuple[float, float, float]], *, breaks: Iterable[int] = (), block_days: int = TUNED.block_days
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


def believe(stretches: Sequence[Block], *, origin_day: float, prior: UsagePrior, settings: Settings = TUNED) -> tuple[Belief, ...]:
    """Return the settings that still count after `stretches`, each with its state at `origin_day`."""
    first = origin_day - settings.longest_history_days
    seen = [stretch for stretch in stretches if stretch.middle_day >= first]
    run = []
    for noise in settings.noise_km:
        lean = math.log(noise / settings.noise_centre_km) / settings.noise_width
        for wander, loss in settings.drifts:
            run.append((*_filtered(seen, noise, wander, loss / YEAR_DAYS, origin_day, prior, settings), -lean * lean / 2))
    best = max(fit + lean for _, fit, lean in run)
    weighed = [(math.exp(fit + lean - best), belief) for belief, fit, lean in run]
    kept = [(weight, belief) for weight, belief in weighed if weight > LEAST_WEIGHT]
    total = sum(weight for weight, _ in kept)
    return tuple(
        Belief(
            weight / total, b.noise, b.wander, b.loss, b.fast_variance, b.slow, b.fast, b.slow_variance, b.covariance, b.fast_now_variance
        )
        for weight, b in kept
    )


def _filtered(
    seen: Sequence[Block], noise: float, wander: float, loss: float, origin_day: float, prior: UsagePrior, settings: Settings
) -> tuple[Belief, float]:
    unit = noise / MONTH_DAYS
    memory = settings.fast_days
    clip = settings.clip
    fast_all = settings.fast_share * unit
    per_day = wander * unit
    slow, fast = prior.root_mean, 0.0
    ss, sf, ff = prior.root_spread**2, 0.0, fast_all
    fit = 0.0
    now = seen[0].middle_day if seen else origin_day
    for stretch in seen:
        gone = stretch.middle_day - now
        now = stretch.middle_day
        keep = math.exp(-gone / memory)
        hold = math.exp(-gone * loss)
        slow *= hold
        ss = ss * hold * hold + per_day * gone
        sf *= keep * hold
        fast *= keep
        ff = fast_all + (ff - fast_all) * keep * keep
        days = stretch.days
        # The mean of the fast level over a stretch, in terms of its value in the middle.
        span = memory / days
        share = 2 * span * (1 - math.exp(-0.5 / span))
        rest = fast_all * max(0.0, 2 * span * (1 - span * (1 - math.exp(-1 / span))) - share * share)
        rate = stretch.distance / days
        seen_root = math.sqrt(rate + noise / days)
        vague = rate * stretch.end_variance_days2 / (4 * days * days)
        gain_slow, gain_fast = ss + share * sf, sf + share * ff
        variance = gain_slow + share * gain_fast + noise / days + rest + vague
        miss = seen_root - slow - share * fast
        bound = clip * math.sqrt(variance)
        far = abs(miss)
        scored = miss * miss if far <= bound else 2 * bound * far - bound * bound
        fit = settings.forget * fit - 0.5 * (math.log(variance) + scored / variance)
        if far > bound:
            miss = math.copysign(bound, miss)
        slow += gain_slow / variance * miss
        fast += gain_fast / variance * miss
        ss -= gain_slow * gain_slow / variance
        sf -= gain_slow * gain_fast / variance
        ff -= gain_fast * gain_fast / variance
    gone = origin_day - now
    keep = math.exp(-gone / memory)
    hold = math.exp(-gone * loss)
    belief = Belief(
        1.0,
        noise,
        per_day,
        loss,
        fast_all,
        slow * hold,
        fast * keep,
        ss * hold * hold + per_day * gone,
        sf * keep * hold,
        fast_all + (ff - fast_all) * keep * keep,
    )
    return belief, fit
