"""What the vehicles will need over the months to come, from what is due and how often it comes back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from twomarks import units
from twomarks.model.procedure import Procedure
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.planning.buying.horizon import Need
from twomarks.planning.calendar import after_months
from twomarks.planning.due import DueItem
from twomarks.planning.due.use import is_hard, limits_of
from twomarks.planning.oils import judged_oils
from twomarks.procedures.binding import bind
from twomarks.procedures.needs import NeededFluid, needs_of
from twomarks.trade.climate import DesignTemperature
from twomarks.words import Message, say

__all__ = ["Ahead", "VehicleAhead", "needs_ahead"]

ENGINE = "engine_oil"
YEAR_MONTHS = 12
MONTH_DAYS = 365.25 / 12


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleAhead:
    """What is known of one vehicle: its sheet, what is due, how far it goes in a day [km], the procedures of its items."""

    sheet: VehicleSheet
    due: tuple[DueItem, ...]
    daily_km: float
    procedures: Mapping[str, Procedure]
    stated: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    coldest: DesignTemperature | None = None
    hottest: DesignTemperature | None = None


@dataclass(frozen=True, slots=True)
class Ahead:
    """The needs of the months to come, what stays in reserve of each product [mL], and what could not be planned, and why."""

    needs: tuple[Need, ...]
    reserve_ml: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    open_questions: tuple[Message, ...] = ()


def needs_ahead(
    vehicles: Sequence[VehicleAhead], *, shelf: ShelfList | None, stock: Mapping[str, int], today: dt.date, months: int
) -> Ahead:
    """Return every fluid that the service items of these vehicles will take within `months`.

    An item comes first when it is probably due (today where that day has passed), then again after its shortest limit at
    the vehicle's own pace. The product is the oil of the shelf list that meets the call, in stock before others.
    """
    needs: list[Need] = []
    reserves: dict[str, int] = {}
    asked: dict[Message, None] = {}
    for vehicle in vehicles:
        products = {}
        for item in vehicle.due:
            for fluid in _fluids(vehicle, item):
                what = say("buying.use", item=item.name, vehicle=vehicle.sheet.name)
                if fluid.volume_l is None:
                    asked[say("buying.no_volume", what=what)] = None
                    continue
                if fluid.circuit not in products:
                    products[fluid.circuit] = _product(vehicle, fluid.circuit, shelf, stock)
                product = products[fluid.circuit]
                if product is None:
                    asked[say("buying.no_product", what=what)] = None
                    continue
                days = [day for day in _days(vehicle, item, today, months) if _month(day, today) < months]
                if not days:
                    continue
                needs += [
                    Need(month=_month(day, today), product=product, volume_ml=round(1000 * fluid.volume_l), what=what) for day in days
                ]
                reserves[product] = max(reserves.get(product, 0), round(1000 * fluid.reserve_l))
    return Ahead(tuple(needs), MappingProxyType(reserves), tuple(asked))


def _fluids(vehicle: VehicleAhead, item: DueItem) -> tuple[NeededFluid, ...]:
    service = vehicle.sheet.items.get(item.item)
    procedure = vehicle.procedures.get(item.item)
    if service is None or procedure is None:
        return ()
    return needs_of(bind(procedure, vehicle.sheet, item=item.item)).fluids


def _product(vehicle: VehicleAhead, circuit: str, shelf: ShelfList | None, stock: Mapping[str, int]) -> str | None:
    fluid = "engine oil" if circuit == ENGINE else "gear oil"
    judged = judged_oils(vehicle.sheet, circuit, shelf=shelf, stock=stock, coldest=vehicle.coldest, hottest=vehicle.hottest, fluid=fluid)
    return next((oil.key for oil in judged if oil.verdict.state == "meets"), None)


def _days(vehicle: VehicleAhead, item: DueItem, today: dt.date, months: int) -> tuple[dt.date, ...]:
    """Return the days within the horizon on which an item probably falls due."""
    if item.likely is None:
        return ()
    last = after_months(today, months)
    day, apart = max(item.likely, today), _days_apart(vehicle, item.item)
    found = []
    while day < last:
        found.append(day)
        if apart is None:
            break
        day += dt.timedelta(days=apart)
    return tuple(found)


def _days_apart(vehicle: VehicleAhead, item: str) -> float | None:
    """Return how many days pass from one time to the next: the shorter of time and of distance at the vehicle's pace."""
    service = vehicle.sheet.items[item]
    limits = limits_of(service, hard=is_hard(service, vehicle.stated))
    apart = []
    if (time := limits.get("time")) is not None:
        months = units.UNITS[time.unit].kind == "months"
        apart.append(units.in_unit(float(time.value), unit=time.unit, to="month" if months else "day") * (MONTH_DAYS if months else 1.0))
    if (distance := limits.get("distance")) is not None and vehicle.daily_km > 0:
        apart.append(units.in_unit(float(distance.value), unit=distance.unit, to="km") / vehicle.daily_km)
    return max(1.0, min(apart)) if apart else None


def _month(day: dt.date, today: dt.date) -> int:
    return (day.year - today.year) * YEAR_MONTHS + day.month - today.month
