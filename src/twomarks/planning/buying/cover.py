"""Which containers to buy: the least-cost cover of what is needed, exactly, with stock used first."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from twomarks.errors import InputError, NoSolutionError
from twomarks.planning.buying.offers import Offer
from twomarks.words import Figure, Message, say

__all__ = ["Line", "Purchase", "purchase"]

MOST_PAID_SHOPS = 10
LARGEST_NEED_ML = 500_000


@dataclass(frozen=True, slots=True)
class Line:
    """How many of one offer to buy."""

    offer: Offer
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What to buy. `cost` includes `delivery` and is None where no price is known; volumes in mL.

    `saving` is what this is cheaper by than the cheapest way with containers of one size from one shop.
    """

    lines: tuple[Line, ...]
    cost: Decimal | None
    currency: str
    need_ml: int
    from_stock_ml: int
    bought_ml: int
    left_over_ml: int
    reserve_ml: int = 0
    delivery: Decimal = Decimal(0)
    saving: Decimal | None = None
    reasons: tuple[Message, ...] = ()


def purchase(
    *,
    need_ml: int,
    in_stock_ml: int,
    offers: Sequence[Offer],
    delivery: dict[str, Decimal] | None = None,
    reserve_ml: int = 0,
    product: str | None = None,
    currency: str | None = None,
) -> Purchase:
    """Return the cheapest containers that cover `need_ml` and `reserve_ml` less what is in stock.

    Of equally dear ways the one with the least left over, then with the fewest containers. Where no offer has a price
    the one with the least left over. Products are not mixed: the need is covered by containers of one product; with
    `product` given (what is in stock, or what the vehicle takes) only by that one.

    Parameters
    ----------
    delivery : dict, optional
        What a shop asks for one delivery, by the shop's key; shops without one deliver free, or it is fetched.
    reserve_ml : int
        To have at hand for topping up until the next change [mL].
    currency : str, optional
        The currency to pay in; needed where offers are in more than one, since amounts in two are not compared.

    Raises
    ------
    NoSolutionError
        ``buying.no_offer`` where something has to be bought and nothing is on offer.
    InputError
        ``buying.need`` for a need that no household has, ``buying.currencies`` for prices in several currencies,
        ``buying.shops`` for more shops with delivery than can be tried out.
    """
    wanted = need_ml + reserve_ml
    if need_ml < 0 or reserve_ml < 0 or in_stock_ml < 0 or wanted > LARGEST_NEED_ML:
        raise InputError("buying.need", found=wanted, expected=LARGEST_NEED_ML)
    to_buy = max(0, wanted - in_stock_ml)
    from_stock = min(in_stock_ml, need_ml)
    if not to_buy:
        stocked = say("buying.stock_covers", stock=_litres(in_stock_ml), need=_litres(wanted))
        left = in_stock_ml - need_ml
        return Purchase(
            lines=(), cost=Decimal(0), currency="", need_ml=need_ml, from_stock_ml=from_stock, bought_ml=0,
            left_over_ml=left, reserve_ml=reserve_ml, reasons=(stocked,),
        )  # fmt: skip
    usable = [offer for offer in offers if offer.size_ml > 0 and product in (None, offer.product)]
    if not usable:
        raise NoSolutionError("buying.no_offer", why="no offer", nearest="", need_ml=to_buy)
    priced = [offer for offer in usable if offer.price is not None and currency in (None, offer.currency)]
    currencies = sorted({offer.currency for offer in priced})
    if len(currencies) > 1:
        raise InputError("buying.currencies", found=tuple(currencies), example=currencies[0])
    fees = delivery or {}
    ways = [way for group in _groups(priced or usable) for way in _ways(group, to_buy, fees if priced else {})]
    best = min(ways, key=_Way.rank)
    lines = tuple(Line(offer, count) for offer, count in sorted(best.counts.items(), key=lambda pair: (-pair[0].size_ml, pair[0].key)))
    bought = sum(line.count * line.offer.size_ml for line in lines)
    result = Purchase(
        lines=lines,
        cost=best.cost if priced else None,
        currency=best.currency if priced else "",
        need_ml=need_ml,
        from_stock_ml=from_stock,
        bought_ml=bought,
        left_over_ml=in_stock_ml + bought - need_ml,
        reserve_ml=reserve_ml,
        delivery=best.fees,
        saving=_saving(best, priced, to_buy, fees) if priced else None,
    )
    return Purchase(**{name: getattr(result, name) for name in Purchase.__slots__} | {"reasons": _reasons(result)})


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to cover the need, with all that ranks it."""

    counts: Counter[Offer]
    cost: Decimal
    fees: Decimal
    currency: str

    def rank(self) -> tuple[Decimal, int, int, tuple[tuple[str, int], ...]]:
        return (
            self.cost,
            sum(offer.size_ml * count for offer, count in self.counts.items()),
            sum(self.counts.values()),
            tuple(sorted((offer.key, count) for offer, count in self.counts.items())),
        )


def _groups(offers: Sequence[Offer]) -> Iterable[list[Offer]]:
    """Return the offers by product: two products are never mixed to cover one need."""
    by: dict[str, list[Offer]] = {}
    for offer in offers:
        by.setdefault(offer.product, []).append(offer)
    return by.values()


def _ways(group: Sequence[Offer], to_buy: int, fees: dict[str, Decimal]) -> Iterable[_Way]:
    """Return the best cover for every set of shops that may be worth its deliveries."""
    free = {offer.shop for offer in group if not fees.get(offer.shop)}
    paid = sorted({offer.shop for offer in group} - free)
    if len(paid) > MOST_PAID_SHOPS:
        raise InputError("buying.shops", found=len(paid), expected=MOST_PAID_SHOPS)
    for size in range(len(paid) + 1):
        for chosen in itertools.combinations(paid, size):
            open_shops = free | set(chosen)
            counts = _cover([offer for offer in group if offer.shop in open_shops], to_buy)
            if counts is None:
                continue
            used = sum((fees.get(shop, Decimal(0)) for shop in {offer.shop for offer in counts}), Decimal(0))
            goods = sum((_price(offer) * count for offer, count in counts.items()), Decimal(0))
            yield _Way(counts, goods + used, used, group[0].currency)


def _cover(offers: Sequence[Offer], to_buy: int) -> Counter[Offer] | None:
    """Return the least-cost multiset of `offers` holding at least `to_buy` mL: ``f(n) = min c + f(max(0, n - s))``."""
    if not offers:
        return None
    step = math.gcd(*(offer.size_ml for offer in offers))
    need = -(-to_buy // step)
    # Each state carries what ranks a cover: price, mL bought, containers. Prices as whole numbers add exactly.
    scale = 10 ** max(-int(_price(offer).normalize().as_tuple().exponent) for offer in offers)
    scale = max(scale, 1)
    costs = [int(_price(offer) * scale) for offer in offers]
    sizes = [offer.size_ml // step for offer in offers]
    best: list[tuple[int, int, int]] = [(0, 0, 0)] * (need + 1)
    pick = [-1] * (need + 1)
    for n in range(1, need + 1):
        found: tuple[int, int, int] | None = None
        for index, size in enumerate(sizes):
            money, bought, count = best[n - size] if n > size else best[0]
            candidate = (money + costs[index], bought + size, count + 1)
            if found is None or candidate < found:
                found, pick[n] = candidate, index
        assert found is not None
        best[n] = found
    counts: Counter[Offer] = Counter()
    n = need
    while n > 0:
        counts[offers[pick[n]]] += 1
        n -= sizes[pick[n]]
    return counts


def _price(offer: Offer) -> Decimal:
    return offer.price if offer.price is not None else Decimal(0)


def _saving(best: _Way, priced: Sequence[Offer], to_buy: int, fees: dict[str, Decimal]) -> Decimal:
    """Return what `best` is cheaper by than the cheapest way with one kind of container of the same product."""
    product = next(iter(best.counts)).product
    same = [offer for offer in priced if offer.product == product and offer.currency == best.currency]
    plain = min(_price(o) * -(-to_buy // o.size_ml) + fees.get(o.shop, Decimal(0)) for o in same)
    return plain - best.cost


def _reasons(result: Purchase) -> tuple[Message, ...]:
    found = []
    if result.from_stock_ml:
        found.append(say("buying.from_stock", stock=_litres(result.from_stock_ml)))
    parts = tuple(say("buying.line", count=line.count, size=_litres(line.offer.size_ml)) for line in result.lines)
    if result.cost is None:
        found.append(say("buying.no_price", parts=parts, left=_litres(result.left_over_ml)))
    else:
        found.append(say("buying.cheapest", parts=parts, cost=Figure(result.cost, result.currency), left=_litres(result.left_over_ml)))
        if result.delivery:
            found.append(say("buying.delivery", fee=Figure(result.delivery, result.currency)))
        if result.saving:
            found.append(say("buying.saving", saving=Figure(result.saving, result.currency)))
    if result.reserve_ml:
        found.append(say("buying.reserve", reserve=_litres(result.reserve_ml)))
    return tuple(found)


def _litres(volume_ml: int) -> Figure:
    return Figure(volume_ml / 1000, "L")
