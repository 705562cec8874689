"""Buying over the months: shared deliveries, oil that keeps for a while, room and money; each small enough to see through."""

from __future__ import annotations

from decimal import Decimal

import pytest

from twomarks.errors import InputError, NoSolutionError
from twomarks.planning.buying import Offer
from twomarks.planning.buying.horizon import BuyingPlan, Keeps, Limits, Need, Stock, plan_buying
from twomarks.planning.buying.reasons import order_reasons
from twomarks.words import Reader, message_of, render, say


def need(month: int, litres: float, product: str = "oil") -> Need:
    return Need(month=month, product=product, volume_ml=round(1000 * litres), what=say("buying.reserve", reserve=f"{product} in {month}"))


def offer(litres: float, price: str | None, product: str = "oil", shop: str = "yard") -> Offer:
    size_ml = round(1000 * litres)
    return Offer(
        key=f"{shop}/{product}/{size_ml}",
        product=product,
        shop=shop,
        size_ml=size_ml,
        price=None if price is None else Decimal(price),
        currency="" if price is None else "EUR",
    )


SIZES = (offer(1, "12"), offer(5, "42"))


def bought(plan: BuyingPlan) -> list[tuple[int, str, int]]:
    return [(order.month, line.offer.key, line.count) for order in plan.orders for line in order.lines]


def test_two_changes_ahead_share_what_one_leaves_over() -> None:
    # Common practice, no source: 7.0 L twice is 126 in three of 5 L against 132 in twice 5 + 1 + 1.
    plan = plan_buying([need(0, 7), need(6, 7)], offers=SIZES, stock={}, months=12, limits=Limits(waiting_a_year=0.0))
    assert plan.cost == 126
    assert plan.proven
    assert [(left.opened_ml, left.sealed_ml) for left in plan.left] == [(1000, 0)]


def test_opened_oil_is_not_counted_on_beyond_its_life() -> None:
    limits = Limits(keeps={"oil": Keeps(opened_months=3)}, waiting_a_year=0.0)
    plan = plan_buying([need(0, 7), need(6, 7)], offers=SIZES, stock={}, months=12, limits=limits)
    assert plan.cost == 132


def test_sealed_oil_is_not_kept_beyond_its_life() -> None:
    limits = Limits(delivery={"yard": Decimal(50)}, keeps={"oil": Keeps(sealed_months=4, opened_months=4)}, waiting_a_year=0.0)
    plan = plan_buying([need(0, 5), need(6, 5)], offers=SIZES, stock={}, months=12, limits=limits)
    assert [order.month for order in plan.orders] == [0, 6]


def test_a_dear_delivery_is_shared_and_a_cheap_one_is_not() -> None:
    needs = [need(0, 5), need(8, 5), need(1, 2, "gear oil")]
    offers = (*SIZES, offer(1, "9", "gear oil"))
    dear = plan_buying(needs, offers=offers, stock={}, months=12, limits=Limits(delivery={"yard": Decimal(30)}))
    cheap = plan_buying(needs, offers=offers, stock={}, months=12, limits=Limits(delivery={"yard": Decimal("0.1")}))
    assert [order.month for order in dear.orders] == [0]
    assert [order.month for order in cheap.orders] == [0, 1, 8]


def test_stock_is_used_first_and_nothing_is_bought_that_it_covers() -> None:
    plan = plan_buying([need(0, 4)], offers=SIZES, stock={"oil": Stock(opened_ml=1500, sealed={5000: 1})}, months=3)
    assert (plan.orders, plan.cost) == ((), 0)
    assert (plan.left[0].opened_ml, plan.left[0].sealed_ml) == (2500, 0)


def test_a_reserve_for_topping_up_stays_at_hand() -> None:
    plan = plan_buying([need(0, 5)], offers=SIZES, stock={}, months=6, limits=Limits(reserve_ml={"oil": 500}))
    assert bought(plan) == [(0, "yard/oil/5000", 1), (0, "yard/oil/1000", 1)]


def test_without_a_price_the_least_is_bought_and_no_cost_is_told() -> None:
    plan = plan_buying([need(0, 6.2)], offers=(offer(1, None), offer(5, None)), stock={}, months=6)
    assert bought(plan) == [(0, "yard/oil/5000", 1), (0, "yard/oil/1000", 2)]
    assert plan.cost is plan.gap_percent is None


def test_what_no_shop_has_is_named_and_the_rest_is_planned() -> None:
    plan = plan_buying([need(0, 5), need(0, 1, "coolant")], offers=SIZES, stock={}, months=6)
    assert plan.not_on_offer == ("coolant",)
    assert plan.cost == 42


def test_too_little_room_says_how_much_would_do() -> None:
    with pytest.raises(NoSolutionError) as refused:
        plan_buying([need(0, 7)], offers=SIZES, stock={}, months=6, limits=Limits(room_ml=6000))
    assert "7\u00a0L would do" in render(message_of(refused.value), Reader())
    assert plan_buying([need(0, 7)], offers=SIZES, stock={}, months=6, limits=Limits(room_ml=7000)).cost == 66


def test_too_small_a_budget_says_how_much_would_do() -> None:
    needs = [need(0, 5), need(1, 5)]
    with pytest.raises(NoSolutionError) as refused:
        plan_buying(needs, offers=SIZES, stock={}, months=6, limits=Limits(budget=Decimal(41)))
    assert "42.00" in render(message_of(refused.value), Reader())
    plan = plan_buying(needs, offers=SIZES, stock={}, months=6, limits=Limits(budget=Decimal(42)))
    assert [(order.month, order.cost) for order in plan.orders] == [(0, 42), (1, 42)]


@pytest.mark.parametrize("months", [0, 61])
def test_months_that_nobody_plans_are_refused(months: int) -> None:
    with pytest.raises(InputError, match=r"buying\.months"):
        plan_buying([], offers=SIZES, stock={}, months=months)


def test_a_need_outside_the_months_is_refused() -> None:
    with pytest.raises(InputError, match=r"buying\.need_of_month"):
        plan_buying([need(6, 1)], offers=SIZES, stock={}, months=6)


def test_prices_in_two_currencies_are_not_compared() -> None:
    other = Offer(key="x", product="oil", shop="x", size_ml=1000, price=Decimal(9), currency="GBP")
    with pytest.raises(InputError, match=r"buying\.currencies"):
        plan_buying([need(0, 1)], offers=(*SIZES, other), stock={}, months=6)


def test_the_reason_says_what_an_order_is_for_and_where_the_rest_goes() -> None:
    plan = plan_buying([need(0, 4.3), need(6, 5.5)], offers=SIZES, stock={}, months=12, limits=Limits(waiting_a_year=0.5))
    first, second = (render(order_reasons(plan, order, {"oil": "Quiet Brook"})[0], Reader()) for order in plan.orders)
    assert "1 × 5\u00a0L of Quiet Brook" in first
    assert "the 0.7\u00a0L left goes into" in first
    assert "0.2\u00a0L is left over" in second
