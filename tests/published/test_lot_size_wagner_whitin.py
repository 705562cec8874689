"""Lot sizes and container covers against figures from outside.

Wagner, Whitin, "Dynamic Version of the Economic Lot Size Model", Management Science 5(1), 1958: the 12-period example;
its figures here come from memory and were found again by an independent library (stockpyl 1.0, ``wagner_whitin``).
The other lot-size examples: the first is a textbook's, from memory, recomputed; for the second a public test prints
120, which all eight ways of ordering show to be wrong. The cover {1, 3, 4} is the usual counterexample to greedy choice.
"""

from __future__ import annotations

import itertools
from decimal import Decimal

from twomarks.planning.buying import Offer, lot_sizes, purchase

DEMAND = [69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56]
SETUP = [85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114]


def test_the_twelve_periods_of_1958_cost_864() -> None:
    plan = lot_sizes(demand=DEMAND, setup_cost=SETUP, holding_cost=1)
    assert plan.cost == 864
    assert {period: amount for period, amount in enumerate(plan.orders, 1) if amount} == {1: 98, 3: 97, 5: 121, 8: 112, 10: 67, 11: 135}


def test_the_best_cost_up_to_each_period() -> None:
    costs = [lot_sizes(demand=DEMAND[:n], setup_cost=SETUP[:n], holding_cost=1).cost for n in range(1, 13)]
    assert costs == [85, 114, 186, 277, 348, 400, 469, 555, 600, 710, 789, 864]


def test_four_periods_with_a_dear_set_up_cost_1380() -> None:
    plan = lot_sizes(demand=[90, 120, 80, 70], setup_cost=500, holding_cost=2)
    assert plan.cost == 1380
    assert plan.orders == (210, 0, 150, 0)


def test_the_counterexample_costs_110_and_not_120() -> None:
    plan = lot_sizes(demand=[10, 20, 30, 40], setup_cost=30, holding_cost=1)
    assert plan.cost == 110
    assert plan.orders == (30, 0, 30, 40)
    assert plan.cost == min(_cost([10, 20, 30, 40], 30, 1, (True, *later)) for later in itertools.product((True, False), repeat=3))


def test_ten_periods_cost_580() -> None:
    """All ways of ordering were enumerated: orders in periods 1, 4 and 8."""
    plan = lot_sizes(demand=[20, 50, 10, 50, 50, 10, 20, 40, 20, 30], setup_cost=100, holding_cost=1)
    assert plan.cost == 580
    assert [period for period, amount in enumerate(plan.orders, 1) if amount] == [1, 4, 8]


def test_greedy_choice_of_one_three_four_is_beaten() -> None:
    offers = [Offer(key=str(size), product="oil", size_ml=size, price=Decimal(1), currency="EUR") for size in (1, 3, 4)]
    assert purchase(need_ml=6, in_stock_ml=0, offers=offers).cost == 2


def _cost(demand: list[int], setup: int, hold: int, ordered: tuple[bool, ...]) -> int:
    total, last = 0, 0
    for period, amount in enumerate(demand):
        if ordered[period]:
            total, last = total + setup, period
        total += hold * amount * (period - last)
    return total
