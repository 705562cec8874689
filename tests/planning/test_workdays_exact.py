"""The solver's part in the workdays: what it proves, and that it ends with an honest bound when it is told to."""

from __future__ import annotations

from benchmarks.workday_instances import household
from twomarks.planning.workdays.cost import NEVER, Tables
from twomarks.planning.workdays.exact import exact
from twomarks.planning.workdays.plan import Effort, standings
from twomarks.planning.workdays.prices import price_rounds


def test_told_to_end_it_keeps_the_bound_it_was_given_at_least() -> None:
    tables = Tables(household(4, vehicles=2, jobs=12))
    *_, searched = standings(tables, seed=0, effort=Effort(search_rounds=5, path_rounds=1, solver_pairs=0))
    asked: list[float] = []

    def never(bound: float) -> bool:
        asked.append(bound)
        return False

    proof = exact(tables, tables.pairs < NEVER / 2, known_bound=searched.bound_min, aim=searched.cost_min, going_on=never)
    assert asked
    assert searched.bound_min <= proof.bound <= searched.cost_min


def test_it_proves_the_plan_of_one_vehicle_and_finds_none_cheaper_twice() -> None:
    tables = Tables(household(6, vehicles=1))
    *_, searched = standings(tables, seed=0, effort=Effort(search_rounds=5))
    assert searched.gap < 1e-4
    *_, prices = price_rounds(tables, aim=searched.cost_min)
    again = exact(tables, tables.pairs < NEVER / 2, known_bound=prices.bound, aim=searched.cost_min)
    assert again.chains is None
    assert abs(again.bound - searched.cost_min) <= 1e-4 * searched.cost_min
