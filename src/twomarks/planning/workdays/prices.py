"""A bound from prices: what the jobs would cost at least if each paid its own share of every shared effort.

The workday and the set-ups are shared by several jobs. Whatever part of them each job is asked to pay, as long as the parts of
one effort do not exceed it, the cheapest chains of days of all jobs together cost no more than any plan (Lagrangian duality;
the best shares give the value of the linear relaxation). The shares are improved by subgradient steps, which need no solver.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks.planning.workdays.cost import Tables

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags, Floats, Places

__all__ = ["Prices", "arcs_worth_keeping", "price_rounds", "shares"]

SMOOTHED = 0.6
STEP_CUT = 0.7
PATIENCE = 15
LAST_STEP = 1e-3
NOTICED = 3e-4


@dataclass(frozen=True, slots=True)
class Prices:
    """What each job pays on each day beside its own cost, the bound that follows, and the days each job would then take."""

    bound: float
    paid: Floats
    done: Floats


def price_rounds(tables: Tables, *, aim: float) -> Iterator[Prices]:
    """Return the best prices so far after each step, until the steps have become too small; `aim` is the cost of a plan."""
    import numpy as np

    paid = np.zeros((tables.count, tables.size))
    best = Prices(-np.inf, paid, paid)
    direction = np.zeros_like(paid)
    step, stalled = 1.0, 0
    while step > LAST_STEP:
        excess, open_for_all = _overpaid(tables, paid)
        value, done = _chains_under(tables, paid)
        bound = value - excess
        if bound > best.bound:
            stalled = 0 if bound > best.bound * (1.0 + NOTICED) or best.bound <= 0.0 else stalled
            best = Prices(bound, paid, done)
        else:
            stalled += 1
        yield best
        if aim <= best.bound:
            return
        if stalled > PATIENCE:
            step, stalled = step * STEP_CUT, 0
        direction = SMOOTHED * direction + (1.0 - SMOOTHED) * (done - open_for_all[tables.node])
        length = float((direction * direction).sum())
        if length <= 0.0:
            return
        paid = np.maximum(paid + step * (aim - bound) / length * direction, 0.0)


def _overpaid(tables: Tables, paid: Floats) -> tuple[float, Flags]:
    """Return by how much the shares exceed the efforts, and the openings that are overpaid down to the workday."""
    import numpy as np

    gathered = tables.needs @ paid
    over = np.zeros_like(gathered)
    for node in range(len(tables.effort) - 1, -1, -1):
        over[node] = np.maximum(gathered[node] - tables.effort[node], 0.0)
        if node:
            gathered[tables.parent[node]] += over[node]
    open_for_all = over > 0.0
    for node in range(1, len(tables.effort)):
        open_for_all[node] &= open_for_all[tables.parent[node]]
    return float(over[0].sum()), open_for_all


def shares(tables: Tables, paid: Floats) -> tuple[Floats, Floats]:
    """Return how the price of each job and day divides: what goes to the workday, and what to the set-ups above it.

    The shares of the workday add up to its effort on every day; those that nobody wants to pay are spread evenly.
    """
    import numpy as np

    gathered = tables.needs @ paid
    passed = np.ones_like(gathered)
    for node in range(len(tables.effort) - 1, 0, -1):
        over = np.maximum(gathered[node] - tables.effort[node], 0.0)
        passed[node] = over / np.maximum(gathered[node], 1e-12)
        gathered[tables.parent[node]] += over
    for node in range(1, len(tables.effort)):
        passed[node] *= passed[tables.parent[node]]
    to_day = paid * passed[tables.node]
    total = to_day.sum(0)
    missing = tables.effort[0] - total
    spread = np.where(total > 1e-6, to_day / np.maximum(total, 1e-6), 1.0 / tables.count)
    return to_day + spread * missing, paid * (1.0 - passed[tables.node])


def arcs_worth_keeping(tables: Tables, prices: Prices, *, aim: float) -> Flags:
    """Return which pairs of days a plan cheaper than `aim` may use: the others would cost more under these prices alone."""
    import numpy as np

    before, _ = _forward(tables, prices.paid)
    after = tables.into[tables.size].copy()
    for place in range(tables.size - 1, -1, -1):
        onward = (prices.paid[:, place] + after[:, place + 1])[:, None]
        head = after[:, : place + 1]
        np.minimum(head, tables.into[place][:, : place + 1] + onward, out=head)
    least = after[:, 0]
    onward = np.concatenate([after[:, 1:] + prices.paid, np.zeros((tables.count, 1))], axis=1)
    dearer = before[:, :, None] + tables.pairs + onward[:, None, :] - least[:, None, None]
    kept: Flags = dearer <= aim - prices.bound + 1e-6
    return kept


def _chains_under(tables: Tables, paid: Floats) -> tuple[float, Floats]:
    """Return the cost of the cheapest chains under prices, and the days that they use."""
    import numpy as np

    known, came_from = _forward(tables, paid)
    last = known + tables.into[tables.size]
    at = last.argmin(1)
    value = float(last[tables.jobs, at].sum())
    done = np.zeros((tables.count, tables.size))
    while True:
        moving = at > 0
        if not moving.any():
            return value, done
        done[tables.jobs[moving], at[moving] - 1] = 1.0
        at = np.where(moving, came_from[tables.jobs, at], at)


def _forward(tables: Tables, paid: Floats) -> tuple[Floats, Places]:
    import numpy as np

    known = np.zeros((tables.count, tables.size + 1))
    came_from = np.zeros((tables.count, tables.size + 1), dtype=np.int64)
    for place in range(tables.size):
        steps = known[:, : place + 1] + tables.into[place][:, : place + 1]
        best = steps.argmin(1)
        came_from[:, place + 1] = best
        known[:, place + 1] = steps[tables.jobs, best] + paid[:, place]
    return known, came_from
