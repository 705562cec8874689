"""What a vehicle's service costs for each 1,000 km, once a full year has been kept."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from twomarks.planning.calendar import after_months
from twomarks.planning.cost.work import CostedWork
from twomarks.planning.usage.forecast import UsageForecast
from twomarks.units import amount_of
from twomarks.words import Message, say

__all__ = ["PerDistance", "per_distance"]

SPAN_KM = 1000
LEAST_KM = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PerDistance:
    """What 1,000 km cost since `since`; None with the reason where that cannot be said yet.

    `left_out` counts the work in that time that has no price: with any, the figure is "at least".
    """

    amount: Decimal | None
    since: dt.date | None = None
    total: Decimal | None = None
    distance_km: float | None = None
    left_out: int = 0
    why_not: Message | None = None


def per_distance(works: Sequence[CostedWork], forecast: UsageForecast, *, currency: str, today: dt.date) -> PerDistance:
    """Return what each 1,000 km cost, from the first work with a price to today, where that is a full year or more.

    The first work is left out of the sum and begins the distance: what it cost is paid for by the distance before it.
    """
    ordered = sorted((work for work in works if not work.about and work.day <= today), key=lambda work: work.day)
    first = next((work for work in ordered if work.total is not None), None)
    if first is None:
        return PerDistance(amount=None, why_not=say("cost.no_cost_yet"))
    full = after_months(first.day, 12)
    if full > today:
        return PerDistance(amount=None, since=first.day, why_not=say("cost.not_a_year", since=first.day, day=full))
    start, now = forecast.value_on(first.day), forecast.spread_on(today)
    if start is None or now is None or now.likely - start < LEAST_KM:
        return PerDistance(amount=None, since=first.day, why_not=say("cost.no_distance", since=first.day))
    later = [work for work in ordered if work.day > first.day]
    if all(work.total is None for work in later):
        return PerDistance(amount=None, since=first.day, why_not=say("cost.nothing_since", since=first.day))
    total = sum((work.total for work in later if work.total is not None), Decimal(0))
    driven_km = now.likely - start
    each = (total * SPAN_KM / Decimal(str(round(driven_km, 3)))).quantize(amount_of(1, currency))
    return PerDistance(
        amount=each,
        since=first.day,
        total=total,
        distance_km=driven_km,
        left_out=sum(bool(work.materials.unpriced) for work in later),
    )
