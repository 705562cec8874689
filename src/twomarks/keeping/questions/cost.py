"""What servicing has cost, from the daybook, the shelf list's prices and what workshops ask."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from twomarks.keeping.questions.daybook import daybook
from twomarks.keeping.questions.due import outlook
from twomarks.keeping.questions.noticed import quotes
from twomarks.keeping.questions.people import reader
from twomarks.keeping.questions.shelf import answers, shelf
from twomarks.keeping.questions.vehicles import vehicles
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.units import amount_of, minor_of

if TYPE_CHECKING:
    from twomarks.planning.cost import AgainstWorkshop, IntervalCost, PerDistance, WorkdayCost

__all__ = ["Cost", "VehicleCost", "cost", "own_time_rate"]

OWN_TIME = "cost:own-time"
"""The question under which the worth of an hour of the owner's own time is kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleCost:
    """What one vehicle costs: each 1,000 km, at home against the workshop, and by the year at its intervals."""

    vehicle: str
    items: Mapping[str, str]
    per_distance: PerDistance
    against: tuple[AgainstWorkshop, ...]
    intervals: tuple[IntervalCost, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What servicing has cost: by workday, the latest first, and by vehicle, in one currency."""

    currency: str
    rate: Decimal
    workdays: tuple[WorkdayCost, ...]
    vehicles: tuple[VehicleCost, ...]


@question
def own_time_rate(scope: Scope) -> Decimal:
    """Return what an hour of the owner's own time counts, in their currency: nothing until they say otherwise."""
    currency = reader(scope).currency
    said = answers(scope).get(OWN_TIME)
    if not said:
        return Decimal(0)
    minor, code = minor_of(said, currency=currency, decimal=".")
    return amount_of(minor, code) if code == currency else Decimal(0)


@question
def cost(scope: Scope, names: Sequence[str] | None = None, *, today: dt.date, rate: Decimal | None = None) -> Cost:
    """Return what servicing has cost on these vehicles, or on all; `rate` stands for the kept worth of an hour."""
    from twomarks.planning.cost import against_workshop, costed, interval_costs, per_distance, workdays

    currency = reader(scope).currency
    hourly = own_time_rate(scope) if rate is None else rate
    listed = shelf(scope)
    found, everything = [], []
    for name in [one.name for one in vehicles(scope)] if names is None else names:
        seen = outlook(scope, name, today)
        works = [costed(entry, listed, vehicle=name, currency=currency, rate=hourly) for entry in daybook(scope, name).entries]
        everything += works
        found.append(
            VehicleCost(
                vehicle=name,
                items={key: item.name or key for key, item in seen.sheet.items.items()},
                per_distance=per_distance(works, seen.forecast, currency=currency, today=today),
                against=against_workshop(works, quotes(scope, name), currency=currency),
                intervals=interval_costs(seen.sheet, works, seen.forecast, currency=currency, stated=seen.stated),
            )
        )
    return Cost(currency=currency, rate=hourly, workdays=workdays(everything), vehicles=tuple(found))
