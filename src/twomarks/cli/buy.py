"""`twomarks buy`: what to buy in which month, for all vehicles together, at least cost."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.cli.typed import volume_ml
from twomarks.errors import InputError
from twomarks.words import Figure, say

if TYPE_CHECKING:
    from twomarks.keeping.questions.buying import HouseholdBuying

__all__ = ["buy"]


@click.command()
@kept_vehicle_option
@click.option("--months", type=click.IntRange(1, 60), default=12, show_default=True, help="How far ahead to plan.")
@click.option("--room", metavar="AMOUNT", help='All that can be stored: "60 L".')
@click.option("--budget", metavar="MONEY", help="The most that may be spent in one month, in your currency: 120.")
@asks
def buy(asking: Asking, vehicle: str | None, months: int, room: str | None, budget: str | None) -> None:
    """Say what to buy, when and where, so that every oil is at hand when it is due.

    Vehicles share an oil and orders share a delivery; what is opened is counted on only as long as it keeps, and a
    reserve for topping up stays at hand. Prices are those of the shelf list.
    """
    scope = asking.scope()
    from twomarks.keeping import questions
    from twomarks.keeping.questions.buying import buying_plan

    today, reader = asking.today(), questions.reader(scope)
    found = buying_plan(
        scope,
        today,
        months=months,
        vehicle=None if vehicle is None else questions.vehicle(scope, vehicle).name,
        room_ml=None if room is None else volume_ml(room, where="--room", reader=reader),
        budget=None if budget is None else _money(budget),
    )
    from twomarks.exchange.answers.buy import buy_answer

    if asking.as_json:
        Terminal.json(buy_answer(found, today, reader))
    else:
        _say(Terminal(reader), found, today)


def _money(text: str) -> Decimal:
    try:
        money = Decimal(text.replace(",", "."))
    except InvalidOperation:
        money = Decimal("NaN")
    if not money.is_finite() or money <= 0:
        raise InputError("buy_answer.money", where="--budget", found=text, example="120")
    return money


def _say(terminal: Terminal, found: HouseholdBuying, today: dt.date) -> None:
    from twomarks.exchange.answers.buy import month_day
    from twomarks.planning.buying.reasons import order_reasons

    plan = found.plan
    if not plan.orders:
        terminal.line(say("buy_answer.nothing", months=plan.months), indent=0)
    for order in plan.orders:
        terminal.heading(
            "buy_answer.now" if order.month == 0 else "buy_answer.in_month",
            day=month_day(today, order.month),
            shop=order.shop or None,
            cost=None if order.cost is None else Figure(order.cost, plan.currency),
            delivery=Figure(order.delivery, plan.currency) if order.delivery else None,
        )
        terminal.lines(order_reasons(plan, order, found.names))
    if plan.orders:
        terminal.heading(
            "buy_answer.unpriced" if plan.cost is None else "buy_answer.cheapest" if plan.proven else "buy_answer.gap",
            cost=None if plan.cost is None else Figure(plan.cost, plan.currency),
            gap=None if plan.gap_percent is None else Figure(plan.gap_percent, "%"),
        )
    for product in plan.not_on_offer:
        terminal.line(say("buy_answer.not_on_offer", product=found.names.get(product, product)), indent=0)
    if found.open_questions:
        terminal.heading("buy_answer.open")
        terminal.lines(found.open_questions)
