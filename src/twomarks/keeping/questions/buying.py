"""What to buy in the months to come, for all vehicles of the household."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from twomarks.keeping.questions.due import outlook
from twomarks.keeping.questions.people import reader
from twomarks.keeping.questions.places import design_temperatures
from twomarks.keeping.questions.preparation import procedures
from twomarks.keeping.questions.shelf import shelf, stock
from twomarks.keeping.questions.vehicles import vehicles
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.words import Message

if TYPE_CHECKING:
    from twomarks.planning.buying import Offer
    from twomarks.planning.buying.ahead import VehicleAhead
    from twomarks.planning.buying.horizon import BuyingPlan

__all__ = ["HouseholdBuying", "buying_plan"]

YEAR_MONTHS = 12


@dataclass(frozen=True, slots=True)
class HouseholdBuying:
    """The plan, the products' names by their key, and what could not be planned, and why."""

    plan: BuyingPlan
    names: Mapping[str, str]
    open_questions: tuple[Message, ...]


@question
def buying_plan(
    scope: Scope,
    today: dt.date,
    *,
    months: int = 12,
    vehicle: str | None = None,
    room_ml: int | None = None,
    budget: Decimal | None = None,
    limit_s: float = 5.0,
) -> HouseholdBuying:
    """Return what to buy within `months`, for one vehicle or for all; nothing is kept.

    Offers in another currency than the one that the person pays in are left out where there are any in that one.
    """
    from twomarks.planning.buying.ahead import needs_ahead
    from twomarks.planning.buying.horizon import Limits, Stock, plan_buying
    from twomarks.planning.preparation import offers_of

    listed, there = shelf(scope), stock(scope)
    names = [vehicle] if vehicle is not None else [one.name for one in vehicles(scope)]
    ahead = needs_ahead([_ahead(scope, name, today) for name in names], shelf=listed, stock=there, today=today, months=months)
    products = tuple(dict.fromkeys(need.product for need in ahead.needs))
    offers: list[Offer] = []
    delivery: dict[str, Decimal] = {}
    for product in products:
        own, delivery = offers_of(listed, product)
        offers += own
    paid = reader(scope).currency
    if any(offer.price is not None and offer.currency == paid for offer in offers):
        offers = [offer for offer in offers if offer.price is None or offer.currency == paid]
    plan = plan_buying(
        ahead.needs,
        offers=offers,
        stock={product: Stock(opened_ml=max(0, there.get(product, 0))) for product in products},
        months=months,
        limits=Limits(delivery=delivery, reserve_ml=ahead.reserve_ml, room_ml=room_ml, budget=budget),
        limit_s=limit_s,
    )
    known = {key: oil.name for key, oil in listed.oils.items()} if listed else {}
    return HouseholdBuying(plan, known, ahead.open_questions)


def _ahead(scope: Scope, name: str, today: dt.date) -> VehicleAhead:
    from twomarks.planning.buying.ahead import VehicleAhead
    from twomarks.planning.calendar import after_months

    seen, known = outlook(scope, name, today), procedures(scope)
    named = {key: item.procedure for key, item in seen.sheet.items.items() if item.procedure is not None}
    climate = design_temperatures(scope, today, after_months(today, YEAR_MONTHS))
    return VehicleAhead(
        sheet=seen.sheet,
        due=seen.due,
        daily_km=float(seen.forecast.daily_km.value),
        procedures={key: known[procedure] for key, procedure in named.items() if procedure in known},
        stated=seen.stated,
        coldest=climate.coldest if climate else None,
        hottest=climate.hottest if climate else None,
    )
