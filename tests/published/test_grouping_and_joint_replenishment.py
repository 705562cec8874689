"""Grouping of jobs with a shared set-up, and joint replenishment: the planner on problems whose best answer is known.

Grouping: the model (set-up shared by a group, penalty for moving a job off its own best time, minimal repair with a Weibull
rate) is that of Wildeman, Dekker and Smit (1997), of which only the abstract and the introduction were read; its tables were
not. The four jobs and the printed values here were computed for this test from the analytic formulas, by exhaustive search over
all partitions: not values of that paper. Joint replenishment: the six items are from memory, as they are used in the literature;
the least costs were computed by exhaustive search over multiples up to 7.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Callable, Sequence

import numpy as np
import pytest

from tests.published.printed import agrees
from twomarks.planning.workdays import DueCurve, Effort, Job, Problem, saturdays
from twomarks.planning.workdays.cost import NEVER, Tables
from twomarks.planning.workdays.plan import standings

SETUP = 10.0
JOBS = ((20.0, 8.0, 100.0, 2.0), (35.0, 10.0, 140.0, 2.0), (15.0, 6.0, 90.0, 2.5), (50.0, 12.0, 200.0, 1.8))
BEST_TIMES = ("193.649167", "296.984848", "135.432068", "553.586589")
TODAY = dt.date(2026, 1, 1)


def best_time(c: float, repair: float, scale: float, shape: float) -> float:
    return scale * ((SETUP + c) / (repair * (shape - 1))) ** (1 / shape)


def penalty(c: float, repair: float, scale: float, shape: float) -> Callable[[float], float]:
    best = best_time(c, repair, scale, shape)
    rate = (SETUP + c) * shape / ((shape - 1) * best)
    at_best = repair * (best / scale) ** shape
    return lambda when: repair * (when / scale) ** shape - at_best - (when - best) * rate


def least(cost: Callable[[float], float], low: float, high: float) -> float:
    """Return where a convex cost is least, by golden section."""
    part = (5**0.5 - 1) / 2
    while high - low > 1e-10 * high:
        a, b = high - part * (high - low), low + part * (high - low)
        low, high = (low, b) if cost(a) < cost(b) else (a, high)
    return (low + high) / 2


def tables_of(count: int, places: int, workday: float) -> Tables:
    """Return tables of a plan with so many jobs and free days, whose costs a test then writes itself."""
    jobs = tuple(
        Job(vehicle="-", key=f"{n}", name=f"{n}", worth_min=0, life_days=1, over_min_per_day=0, first=DueCurve(0, 0, 0))
        for n in range(count)
    )
    free = saturdays(TODAY, TODAY + dt.timedelta(days=7 * places))[:places]
    return Tables(Problem(today=TODAY, until=free[-1], free=free, workday_min=workday, setups=(), jobs=jobs))


def with_costs(tables: Tables, pairs: np.ndarray) -> Tables:
    tables.pairs = pairs
    tables.into = np.ascontiguousarray(pairs.transpose(2, 0, 1))
    tables.out_of = np.ascontiguousarray(pairs.transpose(1, 0, 2))
    return tables


def proven(tables: Tables) -> tuple[float, tuple[tuple[int, ...], ...]]:
    *_, last = standings(tables, seed=0, effort=Effort())
    assert last.gap < 1e-4
    return last.cost_min, tables.chains(last.opened)


@pytest.mark.parametrize(("job", "printed"), list(zip(JOBS, BEST_TIMES, strict=True)))
def test_the_own_best_time_of_each_job(job: tuple[float, float, float, float], printed: str) -> None:
    assert f"{best_time(*job):.6f}" == printed


def grouped(chosen: Sequence[int]) -> tuple[float, list[set[int]]]:
    """Return the saving and the groups that the planner finds for some of the jobs."""
    costs = [penalty(*JOBS[n]) for n in chosen]
    times = sorted(
        least(lambda t, group=group: sum(costs[n](t) for n in group), 1.0, 2000.0)  # type: ignore[misc]
        for size in range(1, len(chosen) + 1)
        for group in itertools.combinations(range(len(chosen)), size)
    )
    tables = tables_of(len(chosen), len(times), SETUP)
    pairs = np.full_like(tables.pairs, NEVER)
    for n, cost in enumerate(costs):
        pairs[n, 0, :-1] = [cost(when) for when in times]
        pairs[n, 1:, -1] = 0.0
    found, chains = proven(with_costs(tables, pairs))
    days: dict[int, set[int]] = {}
    for n, (place,) in enumerate(chains):
        days.setdefault(place, set()).add(chosen[n] + 1)
    return SETUP * len(chosen) - found, [days[place] for place in sorted(days)]


def test_the_best_of_all_fifteen_partitions() -> None:
    saving, groups = grouped((0, 1, 2, 3))
    assert f"{saving:.6f}" == "9.355587"
    assert groups == [{1, 3}, {2, 4}]


@pytest.mark.parametrize(("pair", "printed"), [((0, 2), "8.142118"), ((0, 1), "6.673438"), ((1, 3), "1.213469")])
def test_what_a_pair_saves(pair: tuple[int, int], printed: str) -> None:
    saving, groups = grouped(pair)
    assert f"{saving:.6f}" == printed
    assert len(groups) == 1


@pytest.mark.parametrize("pair", [(1, 2), (0, 3)])
def test_a_pair_whose_penalty_exceeds_the_set_up_stays_apart(pair: tuple[int, int]) -> None:
    saving, groups = grouped(pair)
    assert abs(saving) < 1e-9
    assert len(groups) == 2


DEMAND = (10_000, 5_000, 3_000, 1_000, 600, 200)
ORDER_COST = (45, 46, 47, 44, 45, 47)


def best_cycle(setup: float, multiples: tuple[int, ...]) -> float:
    ordering = setup + sum(s / k for s, k in zip(ORDER_COST, multiples, strict=True))
    holding = sum(k * d for d, k in zip(DEMAND, multiples, strict=True))
    return float((2 * ordering / holding) ** 0.5)


@pytest.mark.parametrize(
    ("setup", "multiples", "printed"),
    [
        (200.0, (1, 1, 1, 2, 2, 4), "4164.973"),
        (100.0, (1, 1, 1, 2, 2, 4), "3598.194"),
        (50.0, (1, 1, 1, 2, 3, 5), "3269.349"),
        (10.0, (1, 1, 2, 3, 4, 6), "2955.571"),
    ],
)
def test_the_joint_replenishment_cycle_is_found_on_its_own_grid(setup: float, multiples: tuple[int, ...], printed: str) -> None:
    """On days one basic cycle apart, up to the day when all come together, no plan beats the cyclic one."""
    cycle = best_cycle(setup, multiples)
    places = int(np.lcm.reduce(multiples))
    tables = tables_of(len(DEMAND), places, setup)
    pairs = np.full_like(tables.pairs, NEVER)
    for n, (demand, cost) in enumerate(zip(DEMAND, ORDER_COST, strict=True)):
        for a in range(places):
            for b in range(a, places):
                gap = (b + 1 - a) * cycle
                pairs[n, a, b] = cost + demand * gap * gap / 2
        pairs[n, places, places] = 0.0
    found, chains = proven(with_costs(tables, pairs))
    assert agrees(found / (places * cycle), printed)
    if setup >= 100.0:
        assert tuple(places // len(chain) for chain in chains) == multiples
