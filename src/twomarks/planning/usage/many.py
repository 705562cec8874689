"""The forecast of very many vehicles at once, in NumPy: the numbers of `forecast`, chunk by chunk."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from twomarks.errors import OutOfRangeError
from twomarks.model.ledger import Reading
from twomarks.planning.usage.distance import LOWEST_ROOT, MOST_VARIANCE, grid_step
from twomarks.planning.usage.filter import PRIOR_WANDERS
from twomarks.planning.usage.forecast import forecast
from twomarks.planning.usage.judging import FULL_DAYS, LEAST_SUSTAINED, judge, pace_of
from twomarks.planning.usage.prior import UsagePrior
from twomarks.planning.usage.settings import ALONE, LEAST_ROOT, MONTH_DAYS, YEAR_DAYS
from twomarks.planning.usage.student import quantile

__all__ = ["CHUNK", "ManyForecasts", "forecast_many"]

Array = npt.NDArray[np.float64]

CHUNK = 4096
"""So many vehicles are in work at a time: what they need stays near the processor, however many there are."""


@dataclass(frozen=True, slots=True)
class ManyForecasts:
    """For each vehicle the distance of the days after its last reading [km]: mean, and 10, 50 and 90 % values.

    `one_by_one` counts those whose readings were not plainly clean: they were judged and foretold one after another.
    """

    mean_km: Array
    low_km: Array
    likely_km: Array
    high_km: Array
    one_by_one: int


def forecast_many(*, days: npt.ArrayLike, values_km: npt.ArrayLike, horizon_days: float, prior: UsagePrior) -> ManyForecasts:
    """Return the forecasts of vehicles with as many readings each: `days` (ordinals) and `values_km`, a row a vehicle.

    Raises `OutOfRangeError` for a horizon that does not lie ahead, or for rows that do not match.
    """
    when, stood = np.asarray(days, dtype=np.float64), np.asarray(values_km, dtype=np.float64)
    if not horizon_days > 0:
        raise OutOfRangeError("usage.ahead", quantity="horizon_days", value=horizon_days, low=0.0)
    if when.ndim != 2 or when.shape != stood.shape or when.shape[1] < 1:
        raise OutOfRangeError("usage.ahead", quantity="days", value=float(when.size), low=float(stood.size))
    found = np.empty((4, len(when)))
    alone = 0
    for start in range(0, len(when), CHUNK):
        chunk = slice(start, start + CHUNK)
        plain = _plain(when[chunk], stood[chunk])
        if plain.all():
            found[:, chunk] = _foretold(when[chunk], stood[chunk], horizon_days, prior)
            continue
        part = np.empty((4, len(plain)))
        part[:, plain] = _foretold(when[chunk][plain], stood[chunk][plain], horizon_days, prior)
        for row in np.flatnonzero(~plain):
            part[:, row] = _one(when[start + row], stood[start + row], horizon_days, prior)
        alone += int((~plain).sum())
        found[:, chunk] = part
    return ManyForecasts(found[0], found[1], found[2], found[3], alone)


def _plain(days: Array, values: Array) -> npt.NDArray[np.bool_]:
    """Return which rows judging would leave as they are: they rise, day after day, no faster than anybody doubts."""
    pace = pace_of("distance")
    gone, run = np.diff(days, axis=1), np.diff(values, axis=1)
    most = np.minimum(gone, FULL_DAYS) * pace.full_day + np.maximum(0.0, gone - FULL_DAYS) * (LEAST_SUSTAINED * pace.sustained)
    good = (gone >= 1) & (run >= 0) & (run <= most)
    return np.asarray(good.all(axis=1) & (values[:, 0] > 0), dtype=np.bool_)


def _one(days: Array, values: Array, horizon_days: float, prior: UsagePrior) -> tuple[float, float, float, float]:
    readings = [
        Reading(day=dt.date.fromordinal(int(day)), steps=round(value * 1000), number=number)
        for number, (day, value) in enumerate(zip(days, values, strict=True))
    ]
    last = max(reading.day for reading in readings)
    f = forecast(judge(readings, today=last), today=last, prior=prior)
    spread = f.travelled(days=horizon_days)
    return f.distance.mean_km(days=horizon_days), spread.low, spread.likely, spread.high


def _foretold(days: Array, values: Array, horizon_days: float, prior: UsagePrior) -> Array:
    """Return mean and 10, 50 and 90 % values, a column a vehicle."""
    if not len(days):
        return np.empty((4, 0))
    levels, shared, noise, seen = _believed(days, values, prior)
    mean, variance = _moments(levels, shared, noise, seen, horizon_days)
    square = np.sqrt(mean * mean - np.minimum(variance, MOST_VARIANCE * mean * mean) / 2)
    root, spread = np.sqrt(square), np.sqrt(np.maximum(0.0, mean - square))
    return np.stack([mean, *(np.maximum(0.0, root + quantile(chance) * spread) ** 2 for chance in (0.1, 0.5, 0.9))])


def _middle_variance(noise: Array, root: Array) -> Array:
    wide = ALONE.middle_share * np.maximum(root, LEAST_ROOT)
    return np.minimum(ALONE.middle_noise * noise / MONTH_DAYS, wide * wide)


def _believed(days: Array, values: Array, prior: UsagePrior) -> tuple[list[Array], list[Array], Array, Array]:
    """Return the means of the three levels, their six covariances, the noise and how many stretches were seen.

    The steps are those of `filter.py`, with the settings of the noise as the first axis and the vehicles as the second.
    A reading that does not end a stretch leaves everything as it is: no time passes, and nothing is gained.
    """
    count = len(days)
    s = ALONE
    noise = np.array(s.noise_km)[:, None]
    shape = (len(noise), count)
    fast_all = s.fast_share * noise / MONTH_DAYS
    slow, middle, fast = np.full(shape, prior.root_mean), np.zeros(shape), np.zeros(shape)
    total = prior.root_spread**2
    mm = np.minimum(_middle_variance(noise, np.full(shape, prior.root_mean)), PRIOR_WANDERS * total)
    ss, ff = total - mm, np.broadcast_to(fast_all, shape).copy()
    sm, sf, mf = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    fit = np.zeros(shape)
    began, stood, now = days[:, 0].copy(), values[:, 0].copy(), days[:, 0].copy()
    seen = np.zeros(count)
    last = days.shape[1] - 1
    first = days[:, -1] - s.longest_history_days
    for column in range(1, last + 1):
        length = days[:, column] - began
        ended = (length >= s.block_days) | (column == last)
        centre = (began + days[:, column]) / 2
        counted = ended & (centre >= first)
        all_count = bool(counted.all())
        gone = np.where(counted & (seen > 0), centre - now, 0.0)
        now = np.where(counted, centre, now)
        a, b, c = np.exp(-gone * (s.loss / YEAR_DAYS)), np.exp(-gone / s.middle_days), np.exp(-gone / s.fast_days)
        slow *= a
        middle *= b
        fast *= c
        middle_all = _middle_variance(noise, slow + middle)
        ss *= a * a
        sm *= a * b
        sf *= a * c
        mf *= b * c
        mm = middle_all + (mm - middle_all) * (b * b)
        ff = fast_all + (ff - fast_all) * (c * c)
        span = s.fast_days / length
        share = 2 * span * (1 - np.exp(-0.5 / span))
        rest = fast_all * np.maximum(0.0, 2 * span * (1 - span * (1 - np.exp(-1 / span))) - share * share)
        per_day = noise / length
        by_slow, by_middle, by_fast = ss + sm, sm + mm, sf + mf
        by_slow += share * sf
        by_middle += share * mf
        by_fast += share * ff
        variance = by_slow + by_middle
        variance += share * by_fast
        variance += per_day + rest
        miss = np.sqrt((values[:, column] - stood) / length + per_day)
        miss -= slow + middle + share * fast
        bound = s.clip * np.sqrt(variance)
        far = np.abs(miss)
        inside = np.minimum(far, bound)
        scored = (2 * far - inside) * inside
        new = s.forget * fit - 0.5 * (np.log(variance) + scored / variance)
        fit = new if all_count else np.where(counted, new, fit)
        np.clip(miss, -bound, bound, out=miss)
        weight = 1 / variance if all_count else counted / variance
        miss *= weight
        slow += by_slow * miss
        middle += by_middle * miss
        fast += by_fast * miss
        taken = by_slow * weight
        ss -= by_slow * taken
        sm -= by_middle * taken
        sf -= by_fast * taken
        taken = by_middle * weight
        mm -= by_middle * taken
        mf -= by_fast * taken
        ff -= by_fast * by_fast * weight
        seen += counted
        began = np.where(ended, days[:, column], began)
        stood = np.where(ended, values[:, column], stood)
    any_seen = seen > 0
    gone = np.where(any_seen, days[:, -1] - now, 0.0)
    a, b, c = np.exp(-gone * (s.loss / YEAR_DAYS)), np.exp(-gone / s.middle_days), np.exp(-gone / s.fast_days)
    middle_all = _middle_variance(noise, slow + middle)
    mm = np.where(any_seen, middle_all + (mm - middle_all) * (b * b), mm)
    ff = fast_all + (ff - fast_all) * (c * c)
    lean = np.log(noise / s.noise_centre_km) / s.noise_width
    weight = fit - lean * lean / 2
    weight = np.exp(weight - weight.max(axis=0))
    weight /= weight.sum(axis=0)
    levels = [(weight * x).sum(axis=0) for x in (slow * a, middle * b, fast * c)]
    x, y, z = slow * a - levels[0], middle * b - levels[1], fast * c - levels[2]
    wide = 1 + (s.spread - 1) * np.minimum(1.0, seen / 12)
    pairs = ((ss * (a * a), x * x), (sm * (a * b), x * y), (sf * (a * c), x * z), (mm, y * y), (mf * (b * c), y * z), (ff, z * z))
    return levels, [wide * (weight * (own + between)).sum(axis=0) for own, between in pairs], wide * (weight * noise).sum(axis=0), seen


def _moments(levels: Sequence[Array], shared: Sequence[Array], noise: Array, seen: Array, days: float) -> tuple[Array, Array]:
    """Return mean and variance of the distance after `days`, by the grid of `distance.py`."""
    s = ALONE
    slow_now, middle_now, fast_now = levels
    ss, sm_now, sf_now, mm, mf_now, ff = shared
    fast_all = s.fast_share * noise / MONTH_DAYS
    middle_all = np.where(seen > 0, _middle_variance(noise, slow_now + middle_now), mm)
    mean, variance = np.zeros(len(noise)), np.zeros(len(noise))
    carried = [np.zeros(len(noise)) for _ in range(3)]
    before_all = np.zeros(len(noise))
    day = 0.0
    index = 0
    while True:
        step = grid_step(index)
        at = day + step / 2
        x, y, z = math.exp(-at * s.loss / YEAR_DAYS), math.exp(-at / s.middle_days), math.exp(-at / s.fast_days)
        level = np.maximum(slow_now * x + middle_now * y + fast_now * z, LOWEST_ROOT)
        sm, sf, mf = sm_now * (x * y), sf_now * (x * z), mf_now * (y * z)
        slow = ss * (x * x) + sm + sf
        middle = sm + middle_all + (mm - middle_all) * (y * y) + mf
        fast = sf + mf + fast_all + (ff - fast_all) * (z * z)
        spread = slow + middle + fast
        weight = level + spread / (2 * level)
        kept, lasting = math.exp(-step / s.middle_days), math.exp(-step / s.fast_days)
        carried[0] = carried[0] * math.exp(-step * s.loss / YEAR_DAYS) + weight * slow * step
        carried[1] = carried[1] * kept + weight * middle * (s.middle_days * (1 - kept))
        carried[2] = carried[2] * lasting + weight * fast * (s.fast_days * (1 - lasting))
        after_all = carried[0] + carried[1] + carried[2]
        rate = level * level + spread
        growth = 4 * level * (before_all + after_all) + 4 * noise * rate
        part = min(1.0, (days - day) / step)
        mean += rate * (step * part)
        variance += growth * (step * part)
        before_all = after_all
        day += step
        index += 1
        if day >= days:
            return mean, variance
