"""Where a counter will stand on a day, and on which day it will pass a limit, each with its honest spread."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.planning.usage.distance import FARTHEST_DAYS, Distance
from twomarks.planning.usage.filter import believe, blocks
from twomarks.planning.usage.judging import History, value_of
from twomarks.planning.usage.prior import UsagePrior, prior_of
from twomarks.planning.usage.settings import ALONE, WITH_SISTERS
from twomarks.planning.usage.sisters import Common, SisterHistory, Sisters
from twomarks.units import KINDS
from twomarks.words import Figure, Message, Source, say

__all__ = ["DaySpread", "Spread", "UsageForecast", "forecast", "sister_history"]

LOW, MIDDLE, HIGH = 0.1, 0.5, 0.9
RATE_DAYS = 90.0
LIKE_KM: Mapping[str, float] = {"distance": 1.0, "duration": 40.0 / 60.0, "volume": 12.0}
"""What a minute of running or a litre burned stands for in km, so that the prior and the filter fit; judgement, no source."""


@dataclass(frozen=True, slots=True)
class Spread:
    """A range that holds the true value eight times out of ten, and its middle [km, or the counter's core unit]."""

    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class DaySpread:
    """The days by which a limit is passed with a chance of 10, 50 and 90 %; None where that lies over ten years ahead."""

    earliest: dt.date | None
    likely: dt.date | None
    latest: dt.date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class UsageForecast:
    """The future of one counter. `last_day` and `last_value` are the last trusted reading, None where there is none."""

    today: dt.date
    last_day: dt.date | None
    last_value: float | None
    readings_used: int
    unit: str
    basis: Message
    distance: Distance
    past: tuple[tuple[dt.date, float], ...] = ()
    like_km: float = 1.0

    @property
    def daily_km(self) -> Figure:
        """The mean use a day over the next three months [km/day]."""
        unit = "km/day" if self.unit == "km" else self.unit
        return Figure(self.distance.mean_km(days=RATE_DAYS) / RATE_DAYS / self.like_km, unit, Source("computed"))

    def travelled(self, *, days: float) -> Spread:
        """Return the distance of the next `days` after the last reading [km]."""
        if days <= 0:
            return Spread(0.0, 0.0, 0.0)
        low, likely, high = (self.distance.quantile_km(chance=chance, days=days) / self.like_km for chance in (LOW, MIDDLE, HIGH))
        return Spread(low, likely, high)

    def spread_on(self, day: dt.date) -> Spread | None:
        """Return where the counter stands on `day` [km]; None where there is no reading to start from."""
        if self.last_day is None or self.last_value is None:
            return None
        if day <= self.last_day:
            value = self._read_on(day)
            return Spread(value, value, value)
        ahead = self.travelled(days=(day - self.last_day).days)
        return Spread(self.last_value + ahead.low, self.last_value + ahead.likely, self.last_value + ahead.high)

    def chance_past(self, limit_km: float, day: dt.date) -> float | None:
        """Return the chance that the counter has passed `limit_km` by `day`; None where there is no reading."""
        if self.last_day is None or self.last_value is None:
            return None
        if day <= self.last_day:
            return 1.0 if self._read_on(day) >= limit_km else 0.0
        ahead = (limit_km - self.last_value) * self.like_km
        return 1.0 - self.distance.chance_at_most(distance_km=ahead, days=(day - self.last_day).days)

    def passage(self, limit_km: float) -> DaySpread:
        """Return when the counter passes `limit_km`; days that lie behind are read off the trusted readings."""
        if self.last_day is None or self.last_value is None:
            return DaySpread(None, None, None)
        ahead = limit_km - self.last_value
        if ahead <= 0:
            day = self._passed_on(limit_km)
            return DaySpread(day, day, day)
        return self.passage_after(self.last_day, ahead_km=ahead)

    def passage_after(self, start: dt.date, *, ahead_km: float) -> DaySpread:
        """Return when `ahead_km` have been travelled since `start`, whatever the counter stood at."""
        chances = {0: 0.0 if ahead_km > 0 else 1.0}
        days = [self._passage_after_days(ahead_km, chance, chances) for chance in (LOW, MIDDLE, HIGH)]
        earliest, likely, latest = (None if day is None else start + dt.timedelta(days=day) for day in days)
        return DaySpread(earliest, likely, latest)

    def value_on(self, day: dt.date) -> float | None:
        """Return the counter on a past `day`, read between trusted readings; None outside of them."""
        if not self.past or not self.past[0][0] <= day <= self.past[-1][0]:
            return None
        return self._read_on(day)

    def _passage_after_days(self, ahead: float, wanted: float, chances: dict[int, float]) -> int | None:
        """Return the first day with a chance of `wanted` or more to have come `ahead`; `chances` gathers what is known."""

        def chance(day: int) -> float:
            if day not in chances:
                chances[day] = 1 - self.distance.chance_at_most(distance_km=ahead * self.like_km, days=day)
            return chances[day]

        late = 32
        while chance(late) < wanted:
            if late == FARTHEST_DAYS:
                return None
            late = min(2 * late, FARTHEST_DAYS)
        early = max(day for day, known in chances.items() if known < wanted) if chances[0] < wanted else 0
        late = min(day for day, known in chances.items() if known >= wanted)
        halve = False
        while late - early > 1:
            # By turns where a straight line would meet the chance, and in the middle.
            part = 0.5 if halve else (wanted - chance(early)) / (chance(late) - chance(early))
            middle = min(late - 1, max(early + 1, early + round((late - early) * part)))
            halve = not halve
            if chance(middle) < wanted:
                early = middle
            else:
                late = middle
        return late

    def _read_on(self, day: dt.date) -> float:
        for (start, low), (end, high) in itertools.pairwise(self.past):
            if start <= day <= end and end > start:
                return low + (high - low) * (day - start).days / (end - start).days
        return self.past[0][1] if day <= self.past[0][0] else self.past[-1][1]

    def _passed_on(self, limit: float) -> dt.date:
        for (start, low), (end, high) in itertools.pairwise(self.past):
            if low < limit <= high:
                return start + dt.timedelta(days=round((end - start).days * (limit - low) / (high - low)))
        return self.past[0][0] if limit <= self.past[0][1] else self.past[-1][0]


def forecast(history: History, *, today: dt.date, prior: UsagePrior | None = None, sisters: Sisters | None = None) -> UsageForecast:
    """Return the forecast of one counter from its judged readings; with 0, 1 or 2 readings the prior speaks.

    What `sisters` teach (`sisters_of`) stands in the place of the prior, and goes on beside the readings.
    """
    prior = prior or prior_of()
    like_km = LIKE_KM.get(history.clean[0].kind if history.clean else "distance", 1.0)
    points = _points(history, like_km)
    origin = points[-1] if points else (float(today.toordinal()), 0.0, 0.0)
    settings = ALONE if sisters is None else WITH_SISTERS
    common = Common(
        sisters,
        first_day=points[0][0] if points else origin[0],
        same_model=settings.same_model,
        fall=settings.sisters_fall,
        spread=settings.sisters_spread,
    )
    belief = believe(blocks(points, breaks=history.breaks), origin_day=origin[0], prior=prior, settings=settings, common=common)
    distance = Distance(belief, settings=settings, common=common, origin_day=origin[0], vague_days2=origin[2] ** 2 / 3)
    last = history.clean[-1] if history.clean else None
    basis = prior.basis if sisters is None else say("usage.from_sisters", vehicles=sisters.vehicles)
    if history.used > 1:
        since = history.clean[0].day
        basis = (
            say("usage.from_readings", readings=history.used, since=since, prior=basis)
            if sisters is None
            else say("usage.from_readings_and_sisters", readings=history.used, since=since, vehicles=sisters.vehicles)
        )
    return UsageForecast(
        today=today,
        last_day=last.day if last else None,
        last_value=value_of(last) if last else None,
        readings_used=history.used,
        unit=KINDS[last.kind].core if last else "km",
        basis=basis,
        distance=distance,
        past=tuple((reading.day, value_of(reading)) for reading in history.clean),
        like_km=like_km,
    )


def sister_history(history: History) -> SisterHistory:
    """Return what a judged history has to teach a sister."""
    kind = history.clean[0].kind if history.clean else "distance"
    found = blocks(_points(history, LIKE_KM.get(kind, 1.0)), breaks=history.breaks)
    return SisterHistory(tuple((stretch.middle_day, stretch.days, stretch.distance) for stretch in found))


def _points(history: History, like_km: float) -> list[tuple[float, float, float]]:
    return [(float(r.day.toordinal()), value_of(r) * like_km, _half_width(r.day_from, r.day_to)) for r in history.clean]


def _half_width(first: dt.date | None, last: dt.date | None) -> float:
    return (last - first).days / 2 if first is not None and last is not None else 0.0
