"""What to buy in which month over the months to come, for all vehicles together, at least cost and with a proven bound."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType

from twomarks.errors import InputError, NoSolutionError
from twomarks.planning.buying.cover import Line
from twomarks.planning.buying.offers import Offer
from twomarks.planning.buying.supply import Supply, Wanted, bought_in, least_peak, supply_programme
from twomarks.words import Figure, Message

__all__ = ["BuyingPlan", "Keeps", "Left", "Limits", "Need", "Order", "Stock", "plan_buying"]

MOST_MONTHS = 60
CENT = 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A fluid that will be needed: in which month from now (0 is this one), which product, how much, and what for."""

    month: int
    product: str
    volume_ml: int
    what: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What there is of a product: litres in opened containers, and sealed containers by their size [mL]."""

    opened_ml: int = 0
    sealed: Mapping[int, int] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeps:
    """How long a fluid keeps: in a sealed container and in one that was opened [months]; common practice, no source."""

    sealed_months: int = 60
    opened_months: int = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What binds the buying: each shop's price of a delivery, and limits of room and money where there are any.

    `reserve_ml` of a product stays at hand for topping up; `room_ml` is all that can be stored; `budget` the most that may
    be spent in one month. `sealed_worth` is the share of its price that a sealed container left at the end is worth, and
    `waiting_a_year` what share of its price a container costs for every year that it waits sealed (money, room, and a price
    that may fall): without it all would be bought at once.
    """

    delivery: Mapping[str, Decimal] = field(default_factory=lambda: MappingProxyType({}))
    reserve_ml: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    keeps: Mapping[str, Keeps] = field(default_factory=lambda: MappingProxyType({}))
    room_ml: int | None = None
    budget: Decimal | None = None
    sealed_worth: float = 0.0
    waiting_a_year: float = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What to buy in one month at one shop; `cost` includes `delivery` and is None where a price is not known."""

    month: int
    shop: str
    lines: tuple[Line, ...]
    cost: Decimal | None
    delivery: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What is left of a product at the end: opened [mL] and the month from which it no longer keeps, and what stays sealed [mL]."""

    product: str
    opened_ml: int
    keeps_until: int | None
    sealed_ml: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingPlan:
    """Orders by month, what they cost, and how far it is proven that no cheaper way exists.

    `there_ml` is what there was of each product at the start. `bound` is the least that any plan can cost; `gap_percent` what
    this one may be dearer by, None without prices. `not_on_offer` are products that no shop of the list has.
    """

    months: int
    orders: tuple[Order, ...]
    left: tuple[Left, ...]
    cost: Decimal | None
    currency: str
    bound: float
    gap_percent: float | None
    proven: bool
    needs: tuple[Need, ...] = ()
    there_ml: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    not_on_offer: tuple[str, ...] = ()


def plan_buying(
    needs: Sequence[Need],
    *,
    offers: Sequence[Offer],
    stock: Mapping[str, Stock],
    months: int,
    limits: Limits | None = None,
    limit_s: float = 5.0,
) -> BuyingPlan:
    """Return the cheapest orders that have every need at hand in its month.

    Products with a price are planned together, since they share deliveries, room and money; one without any price by its
    sizes alone, with the least bought. Prices are today's. Containers are opened when they are needed, and what was
    opened is used oldest first as long as it keeps.

    Parameters
    ----------
    limit_s : float
        How long the search may take [s]; the plan then says how far it may lie from the best.

    Raises
    ------
    InputError
        For months or volumes that nobody has, or prices in several currencies.
    NoSolutionError
        Where the room or the budget is too small, with the least that would do.
    """
    rules = limits or Limits()
    _refuse(needs, months)
    priced = [offer for offer in offers if offer.price is not None]
    currencies = tuple(sorted({offer.currency for offer in priced}))
    if len(currencies) > 1:
        raise InputError("buying.currencies", found=currencies, example=currencies[0])
    wanted = {product: _wanted(product, needs, offers, stock, rules, months) for product in dict.fromkeys(need.product for need in needs)}
    missing = tuple(product for product, one in wanted.items() if not one.offers and one.short)
    joint = [one for one in wanted.values() if one.offers and one.priced]
    alone = [[one] for one in wanted.values() if one.offers and not one.priced]
    supplies = [_supplied(group, rules, months, limit_s) for group in ([joint] if joint else []) + alone]
    orders = tuple(order for supply in supplies for order in _orders(supply, rules))
    spent = [order.cost for order in orders]
    cost = None if None in spent or alone else sum((one for one in spent if one is not None), Decimal(0))
    best, bound = sum(supply.cost for supply in supplies), sum(supply.bound for supply in supplies)
    untouched = [one for one in wanted.values() if not one.offers and not one.short]
    return BuyingPlan(
        months=months,
        orders=tuple(sorted(orders, key=lambda order: (order.month, order.shop))),
        left=tuple(left for supply in supplies for left in _left(supply)) + tuple(_left_of_stock(one) for one in untouched),
        cost=cost,
        currency=currencies[0] if currencies else "",
        bound=bound,
        gap_percent=None if alone or best <= 0 else max(0.0, 100 * (best - bound) / best),
        proven=best - bound < CENT,
        needs=tuple(sorted(needs, key=lambda need: need.month)),
        there_ml={product: one.there_ml for product, one in wanted.items()},
        not_on_offer=missing,
    )


def _refuse(needs: Sequence[Need], months: int) -> None:
    if not 1 <= months <= MOST_MONTHS:
        raise InputError("buying.months", found=months, expected=MOST_MONTHS)
    for need in needs:
        if need.volume_ml < 0 or not 0 <= need.month < months:
            raise InputError("buying.need_of_month", found=need.volume_ml, where=need.month, expected=months)


def _wanted(product: str, needs: Sequence[Need], offers: Sequence[Offer], stock: Mapping[str, Stock], rules: Limits, months: int) -> Wanted:
    there = stock.get(product, Stock())
    by_month = [0] * months
    for need in needs:
        if need.product == product:
            by_month[need.month] += need.volume_ml
    own = [offer for offer in offers if offer.product == product and offer.size_ml > 0]
    with_price = [offer for offer in own if offer.price is not None]
    keeps = rules.keeps.get(product, Keeps())
    return Wanted(
        product=product,
        by_month_ml=tuple(by_month),
        offers=tuple(with_price or own),
        priced=bool(with_price),
        opened_ml=there.opened_ml,
        sealed=dict(there.sealed),
        reserve_ml=rules.reserve_ml.get(product, 0),
        sealed_months=keeps.sealed_months,
        opened_months=keeps.opened_months,
    )


def _supplied(wanted: Sequence[Wanted], rules: Limits, months: int, limit_s: float) -> Supply:
    delivery = {shop: float(fee) for shop, fee in rules.delivery.items() if fee} if wanted[0].priced else {}
    budget = float(rules.budget) if rules.budget is not None and wanted[0].priced else None
    room = None if rules.room_ml is None else rules.room_ml / 1000
    programme = supply_programme(
        wanted,
        months=months,
        delivery=delivery,
        room_l=room,
        budget=budget,
        sealed_worth=rules.sealed_worth,
        waiting_a_year=rules.waiting_a_year,
    )
    found = programme.solve(limit_s=limit_s)
    if found is not None:
        return found
    if room is not None:
        least = least_peak(wanted, months=months, delivery=delivery, what="room", limit_s=limit_s)
        if least > room + 1e-9:
            raise NoSolutionError(
                "buying.no_room", why="room", found=Figure(room, "L"), nearest=Figure(math.ceil(least * 10 - 1e-6) / 10, "L")
            )
    if budget is not None:
        least = least_peak(wanted, months=months, delivery=delivery, what="budget", limit_s=limit_s)
        currency = wanted[0].offers[0].currency
        raise NoSolutionError(
            "buying.no_money",
            why="budget",
            found=Figure(Decimal(str(rules.budget)), currency),
            nearest=Figure(Decimal(str(math.ceil(least * 100 - 1e-6) / 100)), currency),
        )
    raise NoSolutionError("buying.no_time", why="time", found=Figure(limit_s / 60, "min"), nearest="")


def _orders(supply: Supply, rules: Limits) -> Iterable[Order]:
    by_order: dict[tuple[int, str], dict[Offer, int]] = {}
    for month, offer in bought_in(supply):
        counts = by_order.setdefault((month, offer.shop), {})
        counts[offer] = counts.get(offer, 0) + 1
    for (month, shop), counts in by_order.items():
        known = all(offer.price is not None for offer in counts)
        fee = rules.delivery.get(shop, Decimal(0)) if known else Decimal(0)
        goods = sum((offer.price * count for offer, count in counts.items() if offer.price is not None), Decimal(0))
        lines = tuple(
            Line(offer, count) for offer, count in sorted(counts.items(), key=lambda pair: (pair[0].product, -pair[0].size_ml, pair[0].key))
        )
        yield Order(month=month, shop=shop, lines=lines, cost=goods + fee if known else None, delivery=fee)


def _left(supply: Supply) -> Iterable[Left]:
    for wanted in supply.wanted:
        opened, until = supply.opened_left(wanted)
        yield Left(product=wanted.product, opened_ml=opened, keeps_until=until, sealed_ml=supply.sealed_left_ml(wanted))


def _left_of_stock(wanted: Wanted) -> Left:
    sealed = sum(size * count for size, count in wanted.sealed.items())
    left = wanted.opened_ml + sealed - sum(wanted.by_month_ml)
    return Left(product=wanted.product, opened_ml=max(0, left - sealed), keeps_until=None, sealed_ml=min(sealed, left))
