"""What an item costs a year at its interval, and what a shorter or a longer one would change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from twomarks.planning.cost.work import CostedWork
from twomarks.planning.cost.workshop import last_cost
from twomarks.planning.due.use import is_hard, limits_of
from twomarks.planning.usage.forecast import UsageForecast
from twomarks.units import amount_of, in_unit
from twomarks.words import Figure, Source

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["IntervalCost", "OtherInterval", "interval_costs"]

Axis = Literal["distance", "time"]
SHARES = (0.75, 1.25)
"""The other intervals that are looked at: a quarter shorter, a quarter longer."""
YEAR_DAYS = 365.25
_DAYS = {"day": 1.0, "week": 7.0, "month": YEAR_DAYS / 12, "year": YEAR_DAYS}


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherInterval:
    """Another limit of an item, and what it changes a year: below nothing is saved."""

    axis: Axis
    limit: Figure
    change: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class IntervalCost:
    """What an item costs each time and a year, which limit comes first, and what others would change."""

    item: str
    each: Decimal
    times_a_year: float
    a_year: Decimal
    first: Axis
    others: tuple[OtherInterval, ...]


def interval_costs(
    sheet: VehicleSheet,
    works: Sequence[CostedWork],
    forecast: UsageForecast,
    *,
    currency: str,
    stated: Mapping[str, str],
    shares: Sequence[float] = SHARES,
) -> tuple[IntervalCost, ...]:
    """Return the items with an interval and a known cost, at the use a day that is foreseen.

    Each limit is changed alone while the others hold: a longer distance saves nothing where the time comes first. It
    speaks of money only: how long an interval may be is the handbook's to say.
    """
    a_year_km = float(forecast.daily_km.value) * YEAR_DAYS
    use = {**sheet.use.stated, **stated}
    found = []
    for key, item in sheet.items.items():
        limits = {axis: limit for axis, limit in limits_of(item, hard=is_hard(item, use)).items() if axis in ("distance", "time")}
        work = last_cost(works, key)
        if item.retired or work is None or not work.total or not limits:
            continue
        rates: dict[Axis, float] = {axis: _times(axis, limits[axis], a_year_km) for axis in ("distance", "time") if axis in limits}
        times = max(rates.values())
        others = [_other(axis, limits[axis], share, rates, work.total, currency) for axis in rates for share in shares]
        found.append(
            IntervalCost(
                item=key,
                each=work.total,
                times_a_year=times,
                a_year=_money(work.total, times, currency),
                first=max(rates, key=lambda axis: rates[axis]),
                others=tuple(others),
            )
        )
    return tuple(sorted(found, key=lambda one: (-one.a_year, one.item)))


def _times(axis: Axis, limit: Figure, a_year_km: float) -> float:
    if axis == "distance":
        return a_year_km / in_unit(float(limit.value), unit=limit.unit, to="km")
    return YEAR_DAYS / (float(limit.value) * _DAYS[limit.unit])


def _other(axis: Axis, limit: Figure, share: float, rates: Mapping[Axis, float], each: Decimal, currency: str) -> OtherInterval:
    changed = {**rates, axis: rates[axis] / share}
    other = Figure(float(limit.value) * share, limit.unit, Source("computed"))
    return OtherInterval(axis=axis, limit=other, change=_money(each, max(changed.values()) - max(rates.values()), currency))


def _money(each: Decimal, times: float, currency: str) -> Decimal:
    return (each * Decimal(str(round(times, 6)))).quantize(amount_of(1, currency))
