"""What sister vehicles teach: how much such a vehicle is used, how that falls with age, the season, how far vehicles differ."""

from __future__ import annotations

import datetime as dt
import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.planning.usage.settings import YEAR_DAYS

__all__ = ["NO_SISTERS", "Common", "SisterHistory", "Sisters", "sisters_of"]

_YEAR_START = dt.date(1970, 1, 1).toordinal()
TRAILING_DAYS = 365
SETTLED_YEARS = 2.0
"""A season or a fall with age is taken from sisters with at least this much history; judgement, no source."""
MOST_SEASON = 0.5


@dataclass(frozen=True, slots=True)
class SisterHistory:
    """The use of one sister: by stretch the middle day, the days and the distance, as `filter.blocks` gives them."""

    stretches: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sisters:
    """What sister vehicles teach, as a plain value; roots are of km a day.

    `fresh_root` is the root of the rate of a new vehicle and `fall` the share of it lost a year, over all sisters;
    `spread` how far vehicles differ; `season` two waves a year, as shares of the root; `path` what sisters of the same
    model did in the twelve months before a day. No day of `path` rests on anything later.
    """

    vehicles: int
    fresh_root: float
    fall: float
    spread: float
    season: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
    path: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Common:
    """The level and the season that a vehicle shares with its sisters, over days; nothing where it has none.

    `same_model` is the weight of the sisters of the same model against all, `fall` the share of the level lost a year
    from the origin on, `first_day` the day at which the vehicle was new.
    """

    sisters: Sisters | None
    first_day: float = 0.0
    same_model: float = 0.0
    fall: float = 0.0
    spread: float = 1.0

    @property
    def start(self) -> tuple[float, float] | None:
        """The mean and the spread of the vehicle's own level beside the common one; None where there are no sisters."""
        return None if self.sisters is None else (0.0, self.spread * self.sisters.spread)

    def level(self, day: float) -> float:
        """Return the root of the rate that the sisters had up to `day` [root of km a day]."""
        sisters = self.sisters
        if sisters is None:
            return 0.0
        own = sisters.fresh_root * math.exp(-sisters.fall * max(0.0, day - self.first_day) / YEAR_DAYS)
        place = bisect_right(sisters.path, (day, math.inf))
        if not place:
            return own
        return self.same_model * sisters.path[place - 1][1] + (1 - self.same_model) * own

    def season(self, day: float) -> float:
        """Return the factor of the season on the root of the rate."""
        if self.sisters is None or not any(self.sisters.season):
            return 1.0
        angle = 2 * math.pi * ((day - _YEAR_START) / YEAR_DAYS % 1)
        a, b, c, d = self.sisters.season
        return math.exp(a * math.cos(angle) + b * math.sin(angle) + c * math.cos(2 * angle) + d * math.sin(2 * angle))


NO_SISTERS = Common(None)


def sisters_of(same_model: Sequence[SisterHistory], others: Sequence[SisterHistory] = ()) -> Sisters | None:
    """Return what the histories of sisters teach; None where there are fewer than two with two years of history.

    `same_model` are those whose months give the level before a day; `others`, of the same fleet, help to tell the fall with
    age, the season and how far vehicles differ.
    """
    roots = [_roots(history) for history in (*same_model, *others)]
    settled = [run for run in roots if len(run) > 2 and run[-1][0] - run[0][0] >= SETTLED_YEARS * YEAR_DAYS]
    if len(settled) < 2:
        return None
    slope = _slope(settled)
    fresh = sum(_mean([root - slope * age for _, age, root in run]) for run in settled) / len(settled)
    fall = max(0.0, -slope / fresh) if fresh > 0 else 0.0
    apart = [_mean([root - fresh * math.exp(-fall * age) for _, age, root in run]) for run in settled]
    middle = _mean(apart)
    return Sisters(
        vehicles=len(settled),
        fresh_root=fresh,
        fall=fall,
        spread=math.sqrt(_mean([(one - middle) ** 2 for one in apart])) or 0.1 * fresh,
        season=_season(settled),
        path=_path(same_model),
    )


_Run = list[tuple[float, float, float]]


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _roots(history: SisterHistory) -> _Run:
    """Return middle day, age in years and root of the rate of each stretch."""
    if not history.stretches:
        return []
    first = history.stretches[0][0] - history.stretches[0][1] / 2
    return [(day, (day - first) / YEAR_DAYS, math.sqrt(max(0.0, distance) / days)) for day, days, distance in history.stretches]


def _slope(runs: Sequence[_Run]) -> float:
    """Return the change of the root a year within vehicles, over all."""
    up = down = 0.0
    for run in runs:
        age, root = _mean([a for _, a, _ in run]), _mean([r for _, _, r in run])
        up += sum((a - age) * (r - root) for _, a, r in run)
        down += sum((a - age) ** 2 for _, a, _ in run)
    return up / down


def _path(histories: Sequence[SisterHistory]) -> tuple[tuple[float, float], ...]:
    """Return, for each day on which a stretch ended, the mean root of those that ended in the twelve months up to it."""
    seen = sorted((day + days / 2, math.sqrt(max(0.0, distance) / days)) for one in histories for day, days, distance in one.stretches)
    found = []
    low = 0
    total = 0.0
    for high, (day, root) in enumerate(seen):
        total += root
        while seen[low][0] <= day - TRAILING_DAYS:
            total -= seen[low][1]
            low += 1
        if high + 1 == len(seen) or seen[high + 1][0] > day:
            found.append((day, total / (high + 1 - low)))
    return tuple(found)


def _season(runs: Sequence[_Run]) -> tuple[float, float, float, float]:
    """Return two waves a year fitted to how stretches differ from the year about them, by least squares."""
    rows: list[tuple[tuple[float, ...], float]] = []
    for run in runs:
        for place, (day, _, root) in enumerate(run):
            about = [r for d, _, r in run[max(0, place - 8) : place + 9] if abs(d - day) <= TRAILING_DAYS / 2 + 15]
            usual = max(1.0, _mean(about))
            angle = 2 * math.pi * ((day - _YEAR_START) / YEAR_DAYS % 1)
            waves = (math.cos(angle), math.sin(angle), math.cos(2 * angle), math.sin(2 * angle))
            rows.append((waves, min(MOST_SEASON, max(-MOST_SEASON, root / usual - 1))))
    matrix = [[sum(w[i] * w[j] for w, _ in rows) for j in range(4)] + [sum(w[i] * y for w, y in rows)] for i in range(4)]
    for i in range(4):
        matrix[i][i] += 1.0
    for i in range(4):
        for k in range(i + 1, 4):
            part = matrix[k][i] / matrix[i][i]
            matrix[k] = [x - part * y for x, y in zip(matrix[k], matrix[i], strict=True)]
    found = [0.0] * 4
    for i in (3, 2, 1, 0):
        found[i] = (matrix[i][4] - sum(matrix[i][j] * found[j] for j in range(i + 1, 4))) / matrix[i][i]
    return found[0], found[1], found[2], found[3]
