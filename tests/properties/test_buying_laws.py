"""Laws of buying: never dearer than trying everything, never cheaper for more, never short."""

from __future__ import annotations

import itertools
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from twomarks.planning.buying import Offer, lot_sizes, purchase

SIZES = st.sampled_from([500, 1000, 2000, 4000, 5000])
PRICES = st.integers(0, 6000).map(lambda cents: Decimal(cents) / 100)


@st.composite
def shelves(draw: st.DrawFn) -> list[Offer]:
    count = draw(st.integers(1, 4))
    return [
        Offer(key=str(i), product="oil", shop=draw(st.sampled_from(["a", "b"])), size_ml=draw(SIZES), price=draw(PRICES), currency="EUR")
        for i in range(count)
    ]


@given(shelves(), st.integers(1, 9000), st.integers(0, 3000), st.integers(0, 900))
def test_trying_everything_finds_nothing_cheaper(offers: list[Offer], need: int, stock: int, fee: int) -> None:
    fees = {"a": Decimal(fee) / 100}
    result = purchase(need_ml=need, in_stock_ml=stock, offers=offers, delivery=fees)
    missing = need - stock
    if missing <= 0:
        assert result.cost == 0
        return
    best = None
    for counts in itertools.product(*(range(-(-missing // offer.size_ml) + 1) for offer in offers)):
        if sum(count * offer.size_ml for count, offer in zip(counts, offers, strict=True)) < missing:
            continue
        cost = sum((count * (offer.price or 0) for count, offer in zip(counts, offers, strict=True)), Decimal(0))
        if any(count and offer.shop == "a" for count, offer in zip(counts, offers, strict=True)):
            cost += fees["a"]
        best = cost if best is None else min(best, cost)
    assert result.cost == best


@given(shelves(), st.integers(1, 20000), st.integers(0, 5000), st.integers(0, 3000))
def test_more_need_never_costs_less(offers: list[Offer], need: int, more: int, stock: int) -> None:
    less = purchase(need_ml=need, in_stock_ml=stock, offers=offers).cost
    much = purchase(need_ml=need + more, in_stock_ml=stock, offers=offers).cost
    assert less is not None
    assert much is not None
    assert less <= much


@given(shelves(), st.integers(0, 20000), st.integers(0, 30000))
def test_what_is_bought_and_in_stock_covers_the_need_and_adds_up(offers: list[Offer], need: int, stock: int) -> None:
    result = purchase(need_ml=need, in_stock_ml=stock, offers=offers)
    assert result.left_over_ml >= 0
    assert stock + result.bought_ml == need + result.left_over_ml
    assert result.bought_ml == sum(line.count * line.offer.size_ml for line in result.lines)
    assert result.saving is None or result.saving >= 0


@given(st.lists(st.integers(0, 40), min_size=1, max_size=7), st.integers(0, 100), st.integers(0, 5))
def test_lot_sizes_are_never_dearer_than_any_set_of_orders(demand: list[int], setup: int, hold: int) -> None:
    plan = lot_sizes(demand=demand, setup_cost=setup, holding_cost=hold)
    assert sum(plan.orders) == sum(demand)
    assert plan.cost == min(
        cost for chosen in itertools.product((True, False), repeat=len(demand)) if (cost := _cost(demand, setup, hold, chosen)) is not None
    )


def _cost(demand: list[int], setup: int, hold: int, chosen: tuple[bool, ...]) -> int | None:
    total, last = 0, None
    for period, amount in enumerate(demand):
        if chosen[period]:
            total, last = total + setup, period
        if amount and last is None:
            return None
        total += hold * amount * (period - (last or 0))
    return total
