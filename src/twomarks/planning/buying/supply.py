"""The programme behind the buying over months: when each container is bought, opened and used up.

Three facts keep it small and tight. Prices do not change, so that an order can wait for the next month in which anything
is needed; a container is opened in a month that needs it; and all that was bought or opened up to a month must hold what
is needed up to then, whatever is left unopened.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from twomarks.planning.buying.offers import Offer
from twomarks.planning.integer_programme import Programme, Solved

__all__ = ["Supply", "SupplyProgramme", "Wanted", "bought_in", "least_peak", "supply_programme"]

YEAR_MONTHS = 12
STOCK = -1
"""The month in which what is already open was opened: before this one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A product over the months: how much is needed in each [mL], who offers it, what there is, how long it keeps."""

    product: str
    by_month_ml: tuple[int, ...]
    offers: tuple[Offer, ...]
    priced: bool
    opened_ml: int
    sealed: Mapping[int, int]
    reserve_ml: int
    sealed_months: int
    opened_months: int

    @property
    def months(self) -> tuple[int, ...]:
        """The months in which some is needed."""
        return tuple(month for month, volume in enumerate(self.by_month_ml) if volume)

    @property
    def sizes(self) -> tuple[int, ...]:
        """Every size of container that is on offer or in stock [mL]."""
        return tuple(sorted({offer.size_ml for offer in self.offers} | set(self.sealed)))

    @property
    def there_ml(self) -> int:
        """What there is at the start, opened or not [mL]."""
        return self.opened_ml + sum(size * count for size, count in self.sealed.items())

    @property
    def short(self) -> bool:
        """Whether stock alone does not do."""
        return sum(self.by_month_ml) + self.reserve_ml > self.there_ml

    def price(self, offer: Offer) -> float:
        """What a container counts for: its price, or where none is known its litres and a little for each container."""
        return float(offer.price) if offer.price is not None else offer.size_ml / 1000 + 0.01


@dataclass(slots=True)
class _Variables:
    """The variables of one product: bought by month and offer, opened by month and size, used by month opened and month."""

    bought: dict[tuple[int, Offer], int] = field(default_factory=dict)
    opened: dict[tuple[int, int], int] = field(default_factory=dict)
    used: dict[tuple[int, int], int] = field(default_factory=dict)


@dataclass(slots=True)
class SupplyProgramme:
    """The programme with its variables by what they mean."""

    wanted: tuple[Wanted, ...]
    programme: Programme
    variables: dict[str, _Variables]
    deliveries: dict[tuple[int, str], int]
    order_months: tuple[int, ...]
    months_bind: bool

    def solve(self, *, limit_s: float) -> Supply | None:
        """Return the best supply found, None where there is none."""
        found = self.programme.solve(limit_s=limit_s)
        return Supply(self, found) if found.values else None


@dataclass(frozen=True, slots=True)
class Supply:
    """A solved programme, read in whole containers."""

    problem: SupplyProgramme
    solved: Solved

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """The products of this supply."""
        return self.problem.wanted

    @property
    def cost(self) -> float:
        """What the programme counts it for."""
        return self.solved.cost

    @property
    def bound(self) -> float:
        """The least that any supply could be counted for."""
        return self.solved.bound

    def count(self, variable: int) -> int:
        """Return the whole number that a variable came to."""
        return round(self.solved.values[variable])

    def sealed_left_ml(self, wanted: Wanted) -> int:
        """Return what stays sealed of a product to the end [mL]."""
        own = self.problem.variables[wanted.product]
        have = sum(size * count for size, count in wanted.sealed.items())
        have += sum(offer.size_ml * self.count(variable) for (_, offer), variable in own.bought.items())
        return have - sum(size * self.count(variable) for (_, size), variable in own.opened.items())

    def opened_left(self, wanted: Wanted) -> tuple[int, int | None]:
        """Return what is left open of a product [mL] and the month from which the last of it no longer keeps."""
        own = self.problem.variables[wanted.product]
        open_ml: list[tuple[int, int]] = [(STOCK, wanted.opened_ml)] if wanted.opened_ml else []
        for month in wanted.months:
            opened = sum(size * self.count(own.opened[month, size]) for size in wanted.sizes if (month, size) in own.opened)
            open_ml.append((month, opened))
            missing = wanted.by_month_ml[month]
            kept = []
            for since, volume in open_ml:
                usable = month - max(since, 0) < wanted.opened_months
                used = min(volume, missing) if usable else 0
                missing -= used
                if volume > used:
                    kept.append((since, volume - used))
            assert missing == 0, (wanted.product, month, missing)
            open_ml = kept
        last = max((since for since, _ in open_ml), default=None)
        return sum(volume for _, volume in open_ml), None if last is None else max(last, 0) + wanted.opened_months


def supply_programme(
    wanted: Sequence[Wanted],
    *,
    months: int,
    delivery: Mapping[str, float],
    room_l: float | None = None,
    budget: float | None = None,
    sealed_worth: float = 0.0,
    waiting_a_year: float = 0.0,
) -> SupplyProgramme:
    """Return the programme whose least cost is that of the best supply."""
    programme = Programme()
    needed = tuple(sorted({month for one in wanted for month in one.months}))
    # With a limit of money two orders of different months may not fall into one.
    order_months = tuple(range(needed[-1] + 1)) if budget is not None and needed else needed
    fees = {shop: fee for shop, fee in delivery.items() if any(offer.shop == shop for one in wanted for offer in one.offers)}
    deliveries = {
        (month, shop): programme.variable(cost=fee, high=1.0, whole=True) for month in order_months for shop, fee in sorted(fees.items())
    }
    problem = SupplyProgramme(tuple(wanted), programme, {}, deliveries, order_months, months_bind=budget is not None)
    for one in wanted:
        _add_product(problem, one, months, sealed_worth, waiting_a_year / YEAR_MONTHS)
    if room_l is not None:
        for month in order_months:
            programme.row(_stored(problem, month), high=room_l - _at_rest_l(problem, month))
    if budget is not None:
        for month in order_months:
            programme.row(_spent(problem, month, fees), high=budget)
    return problem


def _add_product(problem: SupplyProgramme, one: Wanted, months: int, sealed_worth: float, waiting: float) -> None:
    """Add what is bought, opened and used of one product.

    A container costs its price, less what it is worth should it stay sealed (opening it takes that back), plus what its
    money costs from then to the end. What is used stops costing that when it is used, whatever is bought: no part of the choice.
    """
    programme, own = problem.programme, _Variables()
    problem.variables[one.product] = own
    rest = [sum(one.by_month_ml[month:]) + one.reserve_ml for month in range(months)]
    for month in problem.order_months:
        for offer in one.offers:
            most = -(-rest[month] // offer.size_ml)
            if most and (one.by_month_ml[month] or rest[month] > one.reserve_ml):
                cost = one.price(offer) * (1 - sealed_worth + waiting * (months - month))
                own.bought[month, offer] = programme.variable(cost=cost, high=float(most), whole=True)
    cheapest = {size: min((one.price(offer) for offer in one.offers if offer.size_ml == size), default=0.0) for size in one.sizes}
    for month in one.months:
        for size in one.sizes:
            most = one.sealed.get(size, 0) + -(-rest[month] // size)
            own.opened[month, size] = programme.variable(cost=cheapest[size] * sealed_worth, high=float(most), whole=True)
    _add_containers(programme, one, own, problem.order_months)
    _add_litres(programme, one, own)
    _add_deliveries(problem, one, own, rest)


def _add_containers(programme: Programme, one: Wanted, own: _Variables, order_months: Sequence[int]) -> None:
    """Of each size no more is opened than there was, and none is kept sealed beyond its life."""
    for size in one.sizes:
        for month in sorted({*one.months, *order_months}):
            opened = [(variable, 1.0) for (at, of), variable in own.opened.items() if of == size and at <= month]
            bought = [(variable, -1.0) for (at, offer), variable in own.bought.items() if offer.size_ml == size and at <= month]
            there = float(one.sealed.get(size, 0))
            if opened and month in one.months:
                programme.row(opened + bought, high=there)
            # What was bought so long ago that it no longer keeps was opened before this month.
            old = [
                (variable, -1.0) for (at, offer), variable in own.bought.items() if offer.size_ml == size and at + one.sealed_months < month
            ]
            before = [(variable, 1.0) for (at, of), variable in own.opened.items() if of == size and at < month]
            gone = there if month > one.sealed_months else 0.0
            if old or gone:
                programme.row(before + old, low=gone)


def _add_litres(programme: Programme, one: Wanted, own: _Variables) -> None:
    """Every month's need is met from what was opened and still keeps; the prefix rows only tighten that."""
    opened_in = [*([STOCK] if one.opened_ml else []), *one.months]
    for month in one.months:
        need = one.by_month_ml[month] / 1000
        for since in opened_in:
            if since <= month and month - max(since, 0) < one.opened_months:
                own.used[since, month] = programme.variable(high=need)
        programme.row([(own.used[since, month], 1.0) for since in opened_in if (since, month) in own.used], low=need, high=need)
    for since in opened_in:
        used = [(variable, 1.0) for (at, _), variable in own.used.items() if at == since]
        if since == STOCK:
            programme.row(used, high=one.opened_ml / 1000)
        else:
            programme.row(used + [(own.opened[since, size], -size / 1000) for size in one.sizes], high=0.0)
    gone = 0
    for month in one.months:
        gone += one.by_month_ml[month]
        if gone > one.opened_ml:
            opened = [(variable, size / 1000) for (at, size), variable in own.opened.items() if at <= month]
            programme.row(opened, low=(gone - one.opened_ml) / 1000)
        if gone + one.reserve_ml > one.there_ml:
            bought = [(variable, offer.size_ml / 1000) for (at, offer), variable in own.bought.items() if at <= month]
            programme.row(bought, low=(gone + one.reserve_ml - one.there_ml) / 1000)


def _add_deliveries(problem: SupplyProgramme, one: Wanted, own: _Variables, rest: Sequence[int]) -> None:
    """Nothing comes from a shop in a month without its delivery."""
    programme = problem.programme
    shops = {offer.shop for offer in one.offers}
    for (month, shop), delivered in problem.deliveries.items():
        bought = [(variable, offer) for (at, offer), variable in own.bought.items() if at == month and offer.shop == shop]
        for variable, _ in bought:
            programme.row([(variable, 1.0), (delivered, -programme.highs[variable])], high=0.0)
        if bought:
            most = rest[month] + max(offer.size_ml for _, offer in bought)
            programme.row([*((variable, offer.size_ml / 1000) for variable, offer in bought), (delivered, -most / 1000)], high=0.0)
    if not all((month, shop) in problem.deliveries for month in problem.order_months for shop in shops):
        return
    gone = 0
    for month in one.months:
        gone += one.by_month_ml[month]
        if gone + one.reserve_ml > one.there_ml:
            programme.row(
                [(variable, 1.0) for (at, shop), variable in problem.deliveries.items() if at <= month and shop in shops], low=1.0
            )


def _stored(problem: SupplyProgramme, month: int) -> list[tuple[int, float]]:
    """Return what was bought up to a month, as terms [L]; what was used before it is taken off by `_at_rest_l`."""
    return [
        (variable, offer.size_ml / 1000)
        for own in problem.variables.values()
        for (at, offer), variable in own.bought.items()
        if at <= month
    ]


def _at_rest_l(problem: SupplyProgramme, month: int) -> float:
    """Return what was there at the start less what is used before `month` [L]."""
    return sum(one.there_ml - sum(one.by_month_ml[:month]) for one in problem.wanted) / 1000


def _spent(problem: SupplyProgramme, month: int, fees: Mapping[str, float]) -> list[tuple[int, float]]:
    goods = [
        (variable, one.price(offer))
        for one in problem.wanted
        for (at, offer), variable in problem.variables[one.product].bought.items()
        if at == month
    ]
    return goods + [(variable, fees[shop]) for (at, shop), variable in problem.deliveries.items() if at == month]


def least_peak(
    wanted: Sequence[Wanted], *, months: int, delivery: Mapping[str, float], what: Literal["room", "budget"], limit_s: float
) -> float:
    """Return the least room [L], or the least money a month, with which there is a supply at all."""
    problem = supply_programme(wanted, months=months, delivery=delivery, budget=float("inf") if what == "budget" else None)
    programme = problem.programme
    programme.costs = [0.0] * len(programme.costs)
    peak = programme.variable(cost=1.0)
    fees = dict(delivery)
    for month in problem.order_months:
        if what == "room":
            programme.row([*_stored(problem, month), (peak, -1.0)], high=-_at_rest_l(problem, month))
        else:
            programme.row([*_spent(problem, month, fees), (peak, -1.0)], high=0.0)
    found = programme.solve(limit_s=limit_s)
    return found.cost if found.values else float("inf")


def bought_in(supply: Supply) -> Iterator[tuple[int, Offer]]:
    """Yield every container that is bought with its month: no earlier than it must be there, without another delivery for it."""
    problem = supply.problem
    for one in supply.wanted:
        bought = _containers(supply, one)
        spare = _spare_ml(one, bought)
        for size in one.sizes:
            opened = [month for month in one.months for _ in range(supply.count(problem.variables[one.product].opened[month, size]))]
            # Stock is opened first, and what is bought last is opened last.
            waiting = opened[min(len(opened), one.sealed.get(size, 0)) :]
            own = [(month, offer) for month, offer in bought if offer.size_ml == size]
            for (month, offer), needed in zip(own, (*waiting, *[None] * len(own)), strict=False):
                late = month if needed is None or problem.months_bind else _late(supply, offer, month, needed, spare)
                for at in spare:
                    if month <= at < late:
                        spare[at] -= size
                yield late, offer


def _containers(supply: Supply, one: Wanted) -> list[tuple[int, Offer]]:
    own = supply.problem.variables[one.product].bought
    return [key for key, variable in sorted(own.items(), key=lambda pair: pair[0][0]) for _ in range(supply.count(variable))]


def _spare_ml(one: Wanted, bought: Sequence[tuple[int, Offer]]) -> dict[int, int]:
    """Return by month of need what is there beyond what was needed up to it and the reserve [mL]."""
    spare, gone = {}, 0
    for month in one.months:
        gone += one.by_month_ml[month]
        spare[month] = one.there_ml + sum(offer.size_ml for at, offer in bought if at <= month) - gone - one.reserve_ml
    return spare


def _late(supply: Supply, offer: Offer, month: int, needed: int, spare: Mapping[int, int]) -> int:
    """Return the last month in which a container can be bought: there when it is opened, and never short before."""
    problem = supply.problem
    paid = any(shop == offer.shop for _, shop in problem.deliveries)
    ordered = [at for at in problem.order_months if month < at <= needed and (not paid or supply.count(problem.deliveries[at, offer.shop]))]
    return max((at for at in ordered if all(spare[m] >= offer.size_ml for m in spare if month <= m < at)), default=month)
