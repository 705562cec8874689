"""The plan: which days to work on, what goes together on each, why, and how far from the best possible it can be at most."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from twomarks.planning.workdays.cost import NEVER, Tables
from twomarks.planning.workdays.exact import PROVEN_SHARE, exact, solver_is_there
from twomarks.planning.workdays.paths import path_rounds, steps_worth_keeping
from twomarks.planning.workdays.prices import arcs_worth_keeping, price_rounds
from twomarks.planning.workdays.problem import Problem
from twomarks.planning.workdays.reasons import PlannedJob, Workday, workday_said
from twomarks.planning.workdays.rules import due_day_chains, window_rule_chains
from twomarks.planning.workdays.search import rounds

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags

__all__ = ["Effort", "Standing", "WorkdayPlan", "plan_workdays", "standings"]

FIRST_ROUNDS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How much work goes into a plan; counts and no clock, so that the same problem always gets the same plan.

    Paths are tried where more than `few_pairs` pairs of days are left, the solver where at most `solver_pairs` are.
    `solver_seconds` is for benches.
    """

    search_rounds: int = 150
    path_rounds: int = 150
    few_pairs: int = 6_000
    solver_pairs: int = 16_000
    solver_nodes: int | None = 1_000
    solver_seconds: float | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """How far the work has come: the cost of the best plan and the bound below which no plan lies [min]; `share` of it is done."""

    cost_min: float
    bound_min: float
    share: float
    opened: Flags

    @property
    def gap(self) -> float:
        """The share of the cost by which the plan may be dearer than the best possible one."""
        return 0.0 if self.cost_min <= 0.0 else max(0.0, (self.cost_min - self.bound_min) / self.cost_min)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkdayPlan:
    """Proposed workdays by date, what they cost beside the work itself, and what two simple rules would cost [min].

    `gap` is the share by which this may be dearer than the best possible plan; `proven` says that no cheaper one exists.
    """

    today: dt.date
    until: dt.date
    workdays: tuple[Workday, ...]
    left_for_later: tuple[PlannedJob, ...]
    cost_min: float
    bound_min: float
    gap: float
    proven: bool
    on_due_days_min: float
    window_rule_min: float
    on_due_days_count: int
    window_rule_count: int


def plan_workdays(
    problem: Problem, *, seed: int = 0, effort: Effort | None = None, going_on: Callable[[Standing], bool] = lambda _standing: True
) -> WorkdayPlan:
    """Return the plan for a household: the cheapest that the work of `effort` finds, with what is proven of it.

    `going_on` is told of each step and may end the work there.
    """
    if not problem.jobs:
        return WorkdayPlan(
            today=problem.today,
            until=problem.until,
            workdays=(),
            left_for_later=(),
            cost_min=0.0,
            bound_min=0.0,
            gap=0.0,
            proven=True,
            on_due_days_min=0.0,
            window_rule_min=0.0,
            on_due_days_count=0,
            window_rule_count=0,
        )
    tables = Tables(problem)
    standing = None
    for standing in standings(tables, seed=seed, effort=effort or Effort()):
        if not going_on(standing):
            break
    assert standing is not None
    return _plan(tables, standing)


def standings(tables: Tables, *, seed: int, effort: Effort, watch: Callable[[float], bool] = lambda _bound: True) -> Iterator[Standing]:
    """Return how far the work has come, after each of its steps: search, prices, search, paths, then the solver where it is there.

    `watch` is told the bound while the solver works, and may end that.
    """
    import numpy as np

    least = 0.0
    cost, opened = np.inf, np.zeros((len(tables.effort), tables.size), dtype=bool)
    for number, (cost, opened) in enumerate(islice(rounds(tables, seed=seed), FIRST_ROUNDS)):
        yield Standing(cost, least, 0.1 * number / FIRST_ROUNDS, opened)
    prices = None
    for prices in price_rounds(tables, aim=cost):
        least = max(least, prices.bound)
        yield Standing(cost, least, 0.2, opened)
    assert prices is not None
    given = (opened, tables.opened_by([np.flatnonzero(mine) for mine in prices.done]))
    for number, (cost, opened) in enumerate(islice(rounds(tables, seed=seed + 1, given=given), effort.search_rounds)):
        yield Standing(cost, least, 0.2 + 0.4 * number / effort.search_rounds, opened)
        if cost - least <= PROVEN_SHARE * cost:
            return
    kept = arcs_worth_keeping(tables, prices, aim=cost) & (tables.pairs < NEVER / 2)
    there = solver_is_there()
    if not there or kept.sum() > effort.few_pairs:
        paths = None
        for number, paths in enumerate(islice(path_rounds(tables, prices, aim=cost), effort.path_rounds)):
            least = max(least, min(paths.bound, cost))
            yield Standing(cost, least, 0.6 + 0.4 * number / effort.path_rounds, opened)
        if paths is not None:
            kept &= steps_worth_keeping(tables, paths, aim=cost)
    if there and kept.sum() <= effort.solver_pairs and cost - least > PROVEN_SHARE * cost:
        proof = exact(
            tables,
            kept,
            known_bound=least,
            aim=cost,
            seconds=effort.solver_seconds,
            most_nodes=effort.solver_nodes,
            going_on=lambda bound: watch(min(bound, cost)),
        )
        least = max(least, proof.bound)
        if proof.chains is not None:
            cost, opened = tables.cost_of(proof.chains), tables.opened_by(proof.chains)
        yield Standing(cost, min(least, cost), 1.0, opened)


def _plan(tables: Tables, standing: Standing) -> WorkdayPlan:
    problem = tables.problem
    chains = tables.chains(standing.opened)
    by_due_day, by_window = due_day_chains(tables), window_rule_chains(tables)
    days = sorted({place for chain in chains for place in chain})
    return WorkdayPlan(
        today=problem.today,
        until=problem.until,
        workdays=tuple(workday_said(problem, chains, place) for place in days),
        left_for_later=tuple(PlannedJob.of(job) for job, chain in zip(problem.jobs, chains, strict=True) if not chain),
        cost_min=standing.cost_min,
        bound_min=standing.bound_min,
        gap=standing.gap,
        proven=standing.gap <= PROVEN_SHARE,
        on_due_days_min=tables.cost_of(by_due_day),
        window_rule_min=tables.cost_of(by_window),
        on_due_days_count=len({place for chain in by_due_day for place in chain}),
        window_rule_count=len({place for chain in by_window for place in chain}),
    )
