"""Buying by made-up instances: cheapest cover, stock first, deliveries, no price, what cannot be bought."""

from __future__ import annotations

from decimal import Decimal

import pytest

from twomarks.errors import InputError, NoSolutionError
from twomarks.planning.buying import Offer, Purchase, lot_sizes, purchase
from twomarks.words import Reader, keys, render


def offer(size_l: float, price: str | None, *, shop: str = "corner", product: str = "oil", currency: str = "EUR") -> Offer:
    return Offer(
        key=f"{product}-{shop}-{size_l}", product=product, shop=shop, size_ml=round(size_l * 1000),
        price=None if price is None else Decimal(price), currency=currency,
    )  # fmt: skip


def bought(result: Purchase) -> dict[int, int]:
    return {line.offer.size_ml: line.count for line in result.lines}


def test_two_middle_cans_beat_the_greedy_choice() -> None:
    result = purchase(need_ml=6000, in_stock_ml=0, offers=[offer(1, "10"), offer(3, "10"), offer(4, "10")])
    assert bought(result) == {3000: 2}
    assert result.cost == Decimal(20)
    assert result.left_over_ml == 0


@pytest.mark.parametrize(
    ("need_ml", "prices", "cost"),
    [
        (5700, {1: "12", 4: "36", 5: "40"}, "52"),
        (4300, {1: "9", 4: "32", 5: "36"}, "36"),
        (9300, {1: "9", 4: "30", 5: "36"}, "72"),
    ],
)
def test_over_buying_is_taken_where_it_is_cheaper(need_ml: int, prices: dict[int, str], cost: str) -> None:
    result = purchase(need_ml=need_ml, in_stock_ml=0, offers=[offer(size, price) for size, price in prices.items()])
    assert result.cost == Decimal(cost)


def test_stock_is_used_first_and_can_cover_all() -> None:
    assert purchase(need_ml=4300, in_stock_ml=5000, offers=[]).lines == ()
    result = purchase(need_ml=4300, in_stock_ml=400, offers=[offer(1, "12"), offer(4, "36"), offer(5, "44")])
    assert bought(result) == {4000: 1}
    assert (result.from_stock_ml, result.left_over_ml) == (400, 100)


def test_the_reserve_is_bought_too_and_counts_as_left_over() -> None:
    result = purchase(need_ml=4000, in_stock_ml=0, reserve_ml=500, offers=[offer(1, "12"), offer(4, "36")])
    assert bought(result) == {4000: 1, 1000: 1}
    assert result.left_over_ml == 1000


def test_equal_cost_takes_the_least_left_over_then_the_fewest_containers() -> None:
    less = purchase(need_ml=4300, in_stock_ml=0, offers=[offer(5, "40"), offer(4.5, "40")])
    assert bought(less) == {4500: 1}
    fewer = purchase(need_ml=4000, in_stock_ml=0, offers=[offer(1, "10"), offer(4, "40")])
    assert bought(fewer) == {4000: 1}


def test_a_delivery_is_paid_only_where_it_pays() -> None:
    offers = [offer(5, "40", shop="corner"), offer(5, "30", shop="far")]
    near = purchase(need_ml=5000, in_stock_ml=0, offers=offers, delivery={"far": Decimal(12)})
    assert {line.offer.shop for line in near.lines} == {"corner"}
    many = purchase(need_ml=10000, in_stock_ml=0, offers=offers, delivery={"far": Decimal(12)})
    assert {line.offer.shop for line in many.lines} == {"far"}
    assert many.cost == Decimal(72)
    assert many.delivery == Decimal(12)


def test_products_are_never_mixed() -> None:
    offers = [offer(4, "20", product="one"), offer(1, "30", product="one"), offer(4, "35", product="two"), offer(1, "3", product="two")]
    result = purchase(need_ml=5000, in_stock_ml=0, offers=offers)
    assert {line.offer.product for line in result.lines} == {"two"}
    assert {line.offer.product for line in purchase(need_ml=5000, in_stock_ml=0, offers=offers, product="one").lines} == {"one"}


def test_without_any_price_the_least_is_left_over_and_it_says_so() -> None:
    result = purchase(need_ml=4300, in_stock_ml=0, offers=[offer(1, None), offer(4, None), offer(5, None)])
    assert result.cost is None
    assert bought(result) == {5000: 1}
    assert "no price is known" in " ".join(render(reason, Reader()) for reason in result.reasons)


def test_the_reason_says_that_no_cheaper_way_exists() -> None:
    result = purchase(need_ml=9300, in_stock_ml=0, offers=[offer(1, "9"), offer(4, "30"), offer(5, "36")])
    text = " ".join(render(reason, Reader()) for reason in result.reasons)
    assert "no cheaper way exists" in text
    assert "72.00\u00a0EUR" in text
    assert {reason.key for reason in result.reasons} <= set(keys())


def test_nothing_on_offer_is_said() -> None:
    with pytest.raises(NoSolutionError) as caught:
        purchase(need_ml=4300, in_stock_ml=0, offers=[])
    assert caught.value.key == "buying.no_offer"


def test_prices_in_two_currencies_are_not_compared() -> None:
    offers = [offer(5, "40"), offer(5, "35", currency="GBP")]
    with pytest.raises(InputError) as caught:
        purchase(need_ml=4300, in_stock_ml=0, offers=offers)
    assert caught.value.key == "buying.currencies"
    assert purchase(need_ml=4300, in_stock_ml=0, offers=offers, currency="GBP").cost == Decimal(35)


def test_a_negative_need_is_refused() -> None:
    with pytest.raises(InputError) as caught:
        purchase(need_ml=-1, in_stock_ml=0, offers=[offer(1, "9")])
    assert caught.value.key == "buying.need"


def test_periods_without_demand_need_no_order() -> None:
    plan = lot_sizes(demand=[0, 10, 0, 0, 10], setup_cost=5, holding_cost=1)
    assert plan.orders == (0, 10, 0, 0, 10)
    assert plan.cost == 10


def test_set_up_costs_of_the_wrong_length_are_refused() -> None:
    with pytest.raises(InputError) as caught:
        lot_sizes(demand=[1, 2, 3], setup_cost=[1, 2], holding_cost=1)
    assert caught.value.key == "buying.lots"
