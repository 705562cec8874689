"""Limits that a counter reaches: distance, hours, fuel."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Literal

from twomarks.planning.due.values import Bound, Chance, Done
from twomarks.planning.usage.forecast import DaySpread, UsageForecast
from twomarks.units import in_unit
from twomarks.words import Figure, Source, say

__all__ = ["AXES", "Axis", "by_counter"]

Axis = Literal["distance", "hours", "fuel"]
AXES: tuple[Axis, ...] = ("distance", "hours", "fuel")
_COMPUTED = Source("computed")
_SAYINGS: Mapping[Axis, tuple[str, str, str]] = {
    "distance": ("due.distance", "due.distance_passed", "due.distance_since"),
    "hours": ("due.hours", "due.hours_passed", "due.hours_since"),
    "fuel": ("due.fuel", "due.fuel_passed", "due.fuel_since"),
}
_CORE: Mapping[Axis, str] = {"distance": "km", "hours": "min", "fuel": "L"}


def by_counter(axis: Axis, limit: Figure, last: Done, forecast: UsageForecast, now: float | None) -> Bound:
    """Return the limit of so much on a counter since the last time, as the forecast of that counter has it.

    `now` is where the counter probably stands today.
    """
    step = in_unit(float(limit.value), unit=limit.unit, to=_CORE[axis])
    noted = {"distance": last.odometer_km, "hours": last.hours_min, "fuel": last.fuel_l}[axis]
    stood = forecast.value_on(last.day) if noted is None else noted
    if stood is None or forecast.last_value is None:
        return _since(axis, limit, step, stood, last, forecast)
    starts = [stood]
    if noted is None and last.about:
        starts += [value for day in last.about if (value := forecast.value_on(day)) is not None]
    return _at(axis, limit, step, stood, starts, last, forecast, now)


def _since(axis: Axis, limit: Figure, step: float, stood: float | None, last: Done, forecast: UsageForecast) -> Bound:
    """Return the limit where nobody noted the counter: what matters is the distance since then, at the rate that is believed."""
    first, final = last.about or (last.day, last.day)
    early, likely, late = (forecast.passage_after(day, ahead_km=step) for day in (first, last.day, final))
    days = DaySpread(early.earliest, likely.likely, late.latest)

    def chance(day: dt.date) -> float:
        run = (max(0, (day - start).days) for start in (first, last.day, final))
        return sum(1 - forecast.distance.chance_at_most(distance_km=step * forecast.like_km, days=some) for some in run) / 3

    return Bound(
        binds=axis,
        days=days,
        limit=limit,
        reason=say(_SAYINGS[axis][2], limit=limit, last_day=last.day, likely=days.likely),
        chance=chance,
        due_at=None if stood is None else Figure(stood + step, _CORE[axis], _COMPUTED),
    )


def _at(
    axis: Axis, limit: Figure, step: float, stood: float, starts: Sequence[float], last: Done, forecast: UsageForecast, now: float | None
) -> Bound:
    core = _CORE[axis]
    ahead_key, passed_key, _ = _SAYINGS[axis]
    at, reached = stood + step, forecast.last_value or 0.0
    days = forecast.passage(at)
    if len(starts) > 1:
        days = DaySpread(forecast.passage(min(starts) + step).earliest, days.likely, forecast.passage(max(starts) + step).latest)
    passed = reached >= at
    due_at = Figure(at, core, _COMPUTED)
    reason = say(
        passed_key if passed else ahead_key,
        limit=limit,
        last_day=last.day,
        at=due_at,
        likely=days.likely,
        left=Figure(at - reached, core, _COMPUTED),
        over=Figure(reached - at, core, _COMPUTED),
        read_on=forecast.last_day,
    )
    return Bound(
        binds=axis,
        days=days,
        limit=limit,
        reason=reason,
        chance=_never_less(lambda day: _mean([forecast.chance_past(start + step, day) for start in starts]), passed=passed),
        passed=passed,
        due_at=due_at,
        left=None if now is None else Figure(at - now, core, _COMPUTED),
    )


def _never_less(chance: Chance, *, passed: bool) -> Chance:
    return (lambda _: 1.0) if passed else chance


def _mean(chances: Sequence[float | None]) -> float | None:
    known = [chance for chance in chances if chance is not None]
    return sum(known) / len(known) if known else None
