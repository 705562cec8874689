"""Why a plan buys what it buys: which work each order is for, and where what is left of it goes."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.planning.buying.horizon import BuyingPlan, Need, Order
from twomarks.words import Figure, Message, say

__all__ = ["order_reasons"]

LEAST_TOLD_ML = 50


def order_reasons(plan: BuyingPlan, order: Order, names: Mapping[str, str]) -> tuple[Message, ...]:
    """Return a sentence for every product of an order; `names` are the products' own names by their key."""
    products = dict.fromkeys(line.offer.product for line in order.lines)
    return tuple(_reason(plan, order, product, names.get(product, product)) for product in products)


def _reason(plan: BuyingPlan, order: Order, product: str, name: str) -> Message:
    own = [line for line in order.lines if line.offer.product == product]
    parts = tuple(say("buying.line", count=line.count, size=Figure(line.offer.size_ml / 1000, "L")) for line in own)
    later = [one.month for one in plan.orders if one.month > order.month and any(line.offer.product == product for line in one.lines)]
    until = min(later, default=plan.months)
    needs = [need for need in plan.needs if need.product == product]
    served = [need for need in needs if order.month <= need.month < until]
    later_needs = [need for need in needs if need.month >= until]
    if not served and later_needs:
        # Bought with another product's order, ahead of the next one for this product.
        served, later_needs = later_needs[:1], later_needs[1:]
    following = next(iter(later_needs), None)
    left = _left_ml(plan, order, product, served)
    over = left if left >= LEAST_TOLD_ML else None
    return say(
        "buying.order_line",
        parts=parts,
        product=name,
        uses=tuple(dict.fromkeys(need.what for need in served)),
        left=Figure(over / 1000, "L") if over and following else None,
        next=following.what if over and following else None,
        over=Figure(over / 1000, "L") if over and not following else None,
    )


def _left_ml(plan: BuyingPlan, order: Order, product: str, served: list[Need]) -> int:
    """Return what is left of a product when all that is served by the orders up to this one is done [mL]."""
    had = plan.there_ml.get(product, 0)
    bought = sum(
        line.count * line.offer.size_ml
        for one in plan.orders
        if one.month <= order.month
        for line in one.lines
        if line.offer.product == product
    )
    last = max((need.month for need in served), default=order.month)
    used = sum(need.volume_ml for need in plan.needs if need.product == product and need.month <= last)
    return max(0, had + bought - used)
