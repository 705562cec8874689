"""Workdays: on small problems the proven plan is the best of all plans, and every bound lies below it."""

from __future__ import annotations

import datetime as dt
import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from twomarks.planning.workdays import DueCurve, Job, Problem, SetUp, plan_workdays
from twomarks.planning.workdays.cost import NEVER, Tables, over_and_left_days
from twomarks.planning.workdays.openings import best_day, cost_of_openings
from twomarks.planning.workdays.paths import path_rounds, steps_worth_keeping
from twomarks.planning.workdays.prices import arcs_worth_keeping, price_rounds

TODAY = dt.date(2026, 11, 25)
SETUPS = tuple(
    setup
    for name in ("Alder", "Hazel")
    for setup in (
        SetUp(key=f"{name}/raised", vehicle=name, kind="raised", effort_min=25.0),
        SetUp(key=f"{name}/undertray", vehicle=name, kind="undertray", effort_min=20.0, inside=f"{name}/raised"),
    )
)


@st.composite
def curves(draw: st.DrawFn, least: int) -> DueCurve:
    likely = draw(st.integers(least + 30, 300))
    return DueCurve(likely - draw(st.integers(0, 30)), likely, likely + draw(st.integers(0, 40)))


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    days = sorted(draw(st.sets(st.integers(0, 360), min_size=1, max_size=4)))
    jobs = []
    for number in range(draw(st.integers(1, 3))):
        again = draw(st.none() | curves(1))
        vehicle = draw(st.sampled_from(["Alder", "Hazel"]))
        jobs.append(
            Job(
                vehicle=vehicle,
                key=f"job-{number}",
                name=f"job {number}",
                setup=draw(st.sampled_from(["", f"{vehicle}/raised", f"{vehicle}/undertray"])),
                worth_min=draw(st.floats(0.0, 400.0)),
                life_days=float(again.likely_days if again else 100),
                over_min_per_day=draw(st.floats(0.0, 8.0)),
                first=draw(curves(-60)),
                again=again,
            )
        )
    free = tuple(TODAY + dt.timedelta(days=day) for day in days)
    return Problem(today=TODAY, until=TODAY + dt.timedelta(days=365), free=free, workday_min=60.0, setups=SETUPS, jobs=tuple(jobs))


def best_of_all(tables: Tables) -> float:
    """Return the least cost over every choice of days for every job."""
    subsets = [c for size in range(tables.size + 1) for c in itertools.combinations(range(tables.size), size)]
    ways = []
    for j in range(tables.count):
        mine = []
        for chain in subsets:
            steps = itertools.pairwise((-1, *chain, tables.size))
            cost = sum(float(tables.pairs[j, last + 1, now]) for last, now in steps)
            if cost < NEVER / 2:
                needed = frozenset((node, place) for node in tables.above(int(tables.node[j])) for place in chain)
                mine.append((cost, needed))
        ways.append(mine)
    effort = tables.effort.tolist()
    return min(
        sum(cost for cost, _ in chosen) + sum(effort[node] for node, _ in frozenset().union(*(needed for _, needed in chosen)))
        for chosen in itertools.product(*ways)
    )


@settings(max_examples=60, deadline=None)
@given(problems())
def test_the_proven_plan_is_the_best_of_all(problem: Problem) -> None:
    plan = plan_workdays(problem)
    best = best_of_all(Tables(problem))
    assert plan.cost_min >= best - 1e-6
    assert plan.bound_min <= best + 1e-6
    if plan.proven:
        assert plan.cost_min <= best * (1 + 2e-4) + 1e-6


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_bound_from_prices_lies_below_the_best_plan(problem: Problem) -> None:
    tables = Tables(problem)
    best = best_of_all(tables)
    for prices in itertools.islice(price_rounds(tables, aim=best + 10.0), 60):
        assert prices.bound <= best + 1e-6


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_bound_from_paths_lies_below_the_best_plan(problem: Problem) -> None:
    tables = Tables(problem)
    best = best_of_all(tables)
    *_, prices = itertools.islice(price_rounds(tables, aim=best + 10.0), 40)
    for paths in itertools.islice(path_rounds(tables, prices, aim=best + 10.0), 40):
        assert paths.bound <= best + 1e-6


@settings(max_examples=60, deadline=None)
@given(problems())
def test_what_bounds_take_away_no_cheaper_plan_needs(problem: Problem) -> None:
    tables = Tables(problem)
    best = best_of_all(tables)
    *_, prices = itertools.islice(price_rounds(tables, aim=best + 10.0), 40)
    *_, paths = itertools.islice(path_rounds(tables, prices, aim=best + 10.0), 40)
    kept = arcs_worth_keeping(tables, prices, aim=best + 1.0) & steps_worth_keeping(tables, paths, aim=best + 1.0)
    tables.pairs[~kept] = NEVER
    assert abs(best_of_all(tables) - best) < 1e-6


@settings(max_examples=60, deadline=None)
@given(problems(), st.integers(0, 2**20))
def test_the_saving_of_one_more_day_is_exact(problem: Problem, bits: int) -> None:
    import numpy as np

    tables = Tables(problem)
    opened = np.zeros((len(tables.effort), tables.size), dtype=bool)
    for node, place in itertools.product(range(len(tables.effort)), range(tables.size)):
        parent = tables.parent[node]
        opened[node, place] = bool(bits >> (node * tables.size + place) & 1) and (parent < 0 or bool(opened[parent, place]))
    found = best_day(tables, opened)
    wider = opened.copy()
    wider[list(found.nodes), found.place] = True
    if cost_of_openings(tables, opened) < NEVER / 2 and found.saving > 0.0:
        assert abs(cost_of_openings(tables, wider) - (found.cost - found.saving)) < 1e-6


@given(curves(-200), st.integers(1, 500))
def test_days_over_grow_days_left_shrink_and_their_difference_is_the_time(curve: DueCurve, reach: int) -> None:
    over, left = over_and_left_days(curve, reach=reach)
    assert all(later >= earlier for earlier, later in itertools.pairwise(over))
    assert all(later <= earlier for earlier, later in itertools.pairwise(left))
    drift = over - left
    assert all(abs((later - earlier) - 1.0) < 1e-9 for earlier, later in itertools.pairwise(drift))
