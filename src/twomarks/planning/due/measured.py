"""Limits that are measured: tread, pad, disc, belt, water in the fluid, rest voltage, place by place."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from twomarks.planning.due.first_day import first_days
from twomarks.planning.due.values import Bound, Chance, Done
from twomarks.planning.due.wear import Wear, wear_of
from twomarks.planning.usage.distance import FARTHEST_DAYS
from twomarks.planning.usage.forecast import HIGH, LOW, MIDDLE, DaySpread, UsageForecast
from twomarks.units import KINDS
from twomarks.words import Figure, Message, Source, say

if TYPE_CHECKING:
    from twomarks.model.ledger import Measurement
    from twomarks.model.service_items import Measured

__all__ = ["ERRORS", "MeasuredLimits", "measured_limits"]

ERRORS: Mapping[str, float] = {"length": 0.2, "share": 0.5, "voltage": 0.05, "temperature": 5.0, "pressure": 0.05}
"""What two careful readings of one thing differ by with the gauges of a home garage; judgement, no source [core units]."""
RENEWED = 4.0
"""A value that has risen by more than so many errors of the gauge was taken on a new part."""
SPAN_KM, YEAR_DAYS = 10_000.0, 365.25
_COMPUTED = Source("computed")
_CHANCES = (1 / 6, 1 / 2, 5 / 6)


@dataclass(slots=True)
class MeasuredLimits:
    """What measuring says of an item: a limit for each place whose wear is known, and what is to be told beside."""

    bounds: list[Bound] = field(default_factory=list)
    reasons: list[Message] = field(default_factory=list)
    settles: list[Message] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Point:
    day: dt.date
    km: float | None
    margin: float
    value: float


def measured_limits(
    measured: Measured,
    readings: Sequence[Measurement],
    last: Done | None,
    forecast: UsageForecast,
    *,
    name: str,
    today: dt.date,
    now_km: float | None = None,
) -> MeasuredLimits:
    """Return the limits that the values of an item set since it was last renewed, the nearest place first.

    `now_km` is where the odometer probably stands today.
    """
    found = MeasuredLimits()
    fact = measured.least or measured.most
    if fact is None or fact.quantity is None:
        return found
    kind = fact.quantity.kind
    since = [one for one in readings if one.kind == kind and (last is None or _after(one, last))]
    places = dict.fromkeys((*measured.places, *(one.place for one in since)))
    unknown: list[str] = []
    for place in places or {"": None}:
        points = _renewed(
            [*_new(measured, last, forecast), *(_point(measured, one, forecast) for one in since if one.place == place)],
            measured,
            place,
            found,
            error=ERRORS[kind],
        )
        bound = _bound(measured, place, points, forecast, today, now_km)
        if bound is None:
            unknown.append(place)
            if len(points) > 1 or (points and measured.new is None):
                found.reasons.append(_last_value(measured, place, points))
        else:
            found.bounds.append(bound)
    found.bounds.sort(key=lambda bound: (bound.days.likely or dt.date.max, bound.place))
    if unknown:
        rooms = tuple(place for place in unknown if place)
        what = say("due.settle_measure", item=measured.what or name, places=rooms or None, limit=fact.figure)
        (found.reasons if found.bounds else found.settles).append(what)
    return found


def _after(one: Measurement, last: Done) -> bool:
    """Return whether a value was taken after the work; on one day, the order in which the two were entered tells."""
    final = last.about[1] if last.about else last.day
    return one.day > final or (one.day == final and one.number > last.number)


def _margin(measured: Measured, value: float) -> float:
    limit = measured.least or measured.most
    assert limit is not None
    return value - limit.core if measured.least is not None else limit.core - value


def _new(measured: Measured, last: Done | None, forecast: UsageForecast) -> Iterator[_Point]:
    if measured.new is not None and last is not None:
        km = last.odometer_km if last.odometer_km is not None else _km_on(last.day, forecast)
        yield _Point(last.day, km, _margin(measured, measured.new.core), measured.new.core)


def _point(measured: Measured, one: Measurement, forecast: UsageForecast) -> _Point:
    km = None if one.odometer_steps is None else float(one.odometer_steps * KINDS["distance"].step)
    return _Point(one.day, _km_on(one.day, forecast) if km is None else km, _margin(measured, one.value), one.value)


def _km_on(day: dt.date, forecast: UsageForecast) -> float | None:
    value = forecast.value_on(day)
    if value is None and forecast.last_day is not None and day >= forecast.last_day:
        spread = forecast.spread_on(day)
        return None if spread is None else spread.likely
    return value


def _renewed(points: list[_Point], measured: Measured, place: str, found: MeasuredLimits, *, error: float) -> list[_Point]:
    """Return the values since the last one that only a new part can have."""
    for index in range(len(points) - 1, 0, -1):
        if points[index].margin > points[index - 1].margin + RENEWED * error:
            before, now = (_figure(measured, points[at].value) for at in (index - 1, index))
            found.reasons.append(say("due.renewed", place=place or None, before=before, now=now, day=points[index].day))
            return points[index:]
    return points


def _figure(measured: Measured, value: float) -> Figure:
    limit = measured.least or measured.most
    assert limit is not None
    assert limit.quantity is not None
    return Figure(value, KINDS[limit.quantity.kind].core, Source("measured"))


def _last_value(measured: Measured, place: str, points: Sequence[_Point]) -> Message:
    key = "due.no_wear_seen" if len(points) > 1 else "due.one_value"
    return say(key, place=place or None, value=_figure(measured, points[-1].value), day=points[-1].day)


def _bound(
    measured: Measured, place: str, points: Sequence[_Point], forecast: UsageForecast, today: dt.date, now_km: float | None
) -> Bound | None:
    """Return the limit of one place; None where its rate is not known."""
    if not points:
        return None
    limit = measured.least or measured.most
    assert limit is not None
    assert limit.quantity is not None
    last = points[-1]
    figures = {"place": place or None, "value": _figure(measured, last.value), "read_on": last.day, "limit": limit.figure}
    if last.margin <= 0:
        return Bound(
            binds="measurement",
            days=DaySpread(last.day, last.day, last.day),
            limit=limit.figure,
            reason=say("due.measured_passed", **figures),
            chance=lambda day: 1.0 if day >= last.day else 0.0,
            passed=True,
            place=place,
        )
    by_distance = (measured.goes_by or ("distance" if limit.quantity.kind == "length" else "time")) == "distance"
    kilometres = [point.km for point in points if point.km is not None] if by_distance else []
    by_distance = by_distance and len(kilometres) == len(points)
    runs = kilometres if by_distance else [float(point.day.toordinal()) for point in points]
    wear = wear_of([(run, point.margin) for run, point in zip(runs, points, strict=True)], error=ERRORS[limit.quantity.kind])
    if wear is None:
        return None
    days, chance = _by_distance(wear, runs[-1], last.day, forecast) if by_distance else _by_days(wear, last.day)
    ahead = wear.run_to(MIDDLE)
    left = None
    if ahead is not None and by_distance:
        now = now_km
        left = Figure(runs[-1] + ahead - (runs[-1] if now is None else now), "km", _COMPUTED)
    elif days.likely is not None:
        left = Figure((days.likely - today).days, "day", _COMPUTED)
    per = Figure(wear.rate * (SPAN_KM if by_distance else YEAR_DAYS), KINDS[limit.quantity.kind].core, _COMPUTED)
    key = "due.measured_distance" if by_distance else "due.measured_time"
    return Bound(
        binds="measurement",
        days=days,
        limit=limit.figure,
        reason=say(key, **figures, rate=per, span=Figure(SPAN_KM, "km"), count=len(points), likely=days.likely),
        chance=chance,
        left=left,
        place=place,
    )


def _by_days(wear: Wear, start: dt.date) -> tuple[DaySpread, Chance]:
    runs = (wear.run_to(chance) for chance in (LOW, MIDDLE, HIGH))
    days = [None if run is None or run > FARTHEST_DAYS else start + dt.timedelta(days=math.ceil(run)) for run in runs]
    return DaySpread(*days), lambda day: wear.chance_within((day - start).days)


def _by_distance(wear: Wear, stood_km: float, start: dt.date, forecast: UsageForecast) -> tuple[DaySpread, Chance]:
    """Return when a wear by distance reaches its limit: three distances of equal chance, each on the forecast's days."""
    runs = [wear.run_to(chance) for chance in _CHANCES]

    def chance(day: dt.date) -> float:
        return sum(_chance_of(run, day) for run in runs) / len(runs)

    def _chance_of(run: float | None, day: dt.date) -> float:
        if run is None:
            return 0.0
        past = forecast.chance_past(stood_km + run, day)
        if past is None:
            past = 1 - forecast.distance.chance_at_most(distance_km=run * forecast.like_km, days=max(0, (day - start).days))
        return past

    return DaySpread(*first_days(chance, (LOW, MIDDLE, HIGH), start)), chance
