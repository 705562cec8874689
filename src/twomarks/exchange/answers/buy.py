"""The answer of `buy`: what to order in which month, what for, and how far it is proven to be the cheapest way."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.planning.buying.reasons import order_reasons
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.keeping.questions.buying import HouseholdBuying

__all__ = ["BuyAnswer", "ContainersSaid", "LeftSaid", "OrderSaid", "buy_answer"]


class ContainersSaid(Part):
    """How many containers of one size of one product."""

    product: str
    name: str
    size_l: float
    count: int
    price: str | None = Field(default=None, description="of one container, in the currency of the answer")


class OrderSaid(Part):
    """What to buy in one month at one shop."""

    month: dt.date = Field(description="its first day")
    shop: str
    containers: tuple[ContainersSaid, ...]
    cost: str | None = None
    delivery: str | None = None
    reasons: tuple[Said, ...]


class LeftSaid(Part):
    """What is left of a product at the end."""

    product: str
    opened_l: float
    sealed_l: float
    keeps_until: dt.date | None = Field(default=None, description="first day of the month from which what is open no longer keeps")


class BuyAnswer(Answer):
    """The answer of `buy`."""

    format: Literal["twomarks/answer/buy/1"] = "twomarks/answer/buy/1"
    months: int
    currency: str = ""
    cost: str | None = None
    proven: bool
    gap_percent: float | None = Field(default=None, description="by how much at most the plan is dearer than the best possible one")
    orders: tuple[OrderSaid, ...]
    left: tuple[LeftSaid, ...]
    not_on_offer: tuple[str, ...] = ()
    open_questions: tuple[Said, ...] = ()


def month_day(today: dt.date, month: int) -> dt.date:
    """Return the first day of the month that lies `month` months ahead."""
    ahead = today.year * 12 + today.month - 1 + month
    return dt.date(ahead // 12, ahead % 12 + 1, 1)


def buy_answer(found: HouseholdBuying, today: dt.date, reader: Reader) -> BuyAnswer:
    """Return a plan of buying as an answer."""
    plan = found.plan
    return BuyAnswer(
        on=today,
        months=plan.months,
        currency=plan.currency,
        cost=None if plan.cost is None else str(plan.cost),
        proven=plan.proven,
        gap_percent=None if plan.gap_percent is None else round(plan.gap_percent, 2),
        orders=tuple(
            OrderSaid(
                month=month_day(today, order.month),
                shop=order.shop,
                containers=tuple(
                    ContainersSaid(
                        product=line.offer.product,
                        name=found.names.get(line.offer.product, line.offer.product),
                        size_l=line.offer.size_ml / 1000,
                        count=line.count,
                        price=None if line.offer.price is None else str(line.offer.price),
                    )
                    for line in order.lines
                ),
                cost=None if order.cost is None else str(order.cost),
                delivery=str(order.delivery) if order.delivery else None,
                reasons=tuple(said(reason, reader) for reason in order_reasons(plan, order, found.names)),
            )
            for order in plan.orders
        ),
        left=tuple(
            LeftSaid(
                product=left.product,
                opened_l=left.opened_ml / 1000,
                sealed_l=left.sealed_ml / 1000,
                keeps_until=None if left.keeps_until is None or not left.opened_ml else month_day(today, left.keeps_until),
            )
            for left in plan.left
        ),
        not_on_offer=plan.not_on_offer,
        open_questions=tuple(said(question, reader) for question in found.open_questions),
    )
