"""A sharper bound: every job follows the same sequence of workdays, and pays for it as a path.

Prices on days alone let each job have its workdays where it likes. Here each job moves along a path of workdays, done on some of
them, and the jobs share the effort of each step of that path (the workday before, the workday now). Shares may be negative, and
add up to the effort on every step; so the jobs agree on the rhythm of the whole. Subgradient steps with momentum, smoothed over
neighbouring days, improve them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twomarks.planning.workdays.cost import NEVER, Tables
from twomarks.planning.workdays.prices import Prices, shares

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags

__all__ = ["Paths", "path_rounds", "steps_worth_keeping"]

FIRST_STEP = 0.1
LAST_STEP = 2e-3
STEP_CUT = 0.85
PATIENCE = 40
MOMENTUM = 0.9
NEAR_DAYS, NEAR_GAPS = 6, 3
NOTICED = 2e-5
ROUNDING = 1e-5
"""What single precision may add to a sum of costs [share]."""


@dataclass(frozen=True, slots=True)
class Paths:
    """The best bound, and the shares it follows from.

    `step[b, gap, j]` is what job j pays for workday b (from 1) when the one before lies `gap` places back; `day` its set-ups.
    """

    bound: float
    step: Any
    day: Any


def path_rounds(tables: Tables, prices: Prices, *, aim: float) -> Iterator[Paths]:
    """Return the best bound so far after each step, beginning with the shares that `prices` give."""
    import numpy as np

    to_day, to_setups = shares(tables, prices.paid)
    size, count = tables.size, tables.count
    step = np.zeros((size + 1, size + 1, count), np.float32)
    step[1:] = to_day.T[:, None, :]
    day = to_setups
    best, length, stalled = Paths(-np.inf, step.copy(), day), FIRST_STEP, 0
    push, push_day = np.zeros_like(step), np.zeros_like(day)
    while length > LAST_STEP:
        excess, open_for_all = _overpaid(tables, day)
        value, walked, done = _walks(tables, step, day)
        bound = value - excess - ROUNDING * abs(value)
        if bound > best.bound:
            stalled = 0 if bound > best.bound * (1.0 + NOTICED) else stalled + 1
            best = Paths(bound, step.copy(), day)
        else:
            stalled += 1
        yield best
        if aim <= best.bound:
            return
        if stalled > PATIENCE:
            length, stalled = length * STEP_CUT, 0
        wish = done - open_for_all[tables.node]
        wish[tables.node == 0] = 0.0
        push = MOMENTUM * push + (1.0 - MOMENTUM) * (walked - walked.mean(2, keepdims=True))
        push_day = MOMENTUM * push_day + (1.0 - MOMENTUM) * wish
        wide = _smoothed(_smoothed(push, NEAR_DAYS, 0), NEAR_GAPS, 1)
        square = float((push * wide).sum() + (push_day * push_day).sum())
        if square <= 0.0:
            return
        far = length * (aim - bound) / square
        step += np.float32(far) * wide
        # The shares of a step add up to the effort exactly; what rounding took or gave is spread evenly.
        step += ((tables.effort[0] - step.sum(2, keepdims=True)) / count).astype(np.float32)
        day = np.maximum(day + far * push_day, 0.0)


def steps_worth_keeping(tables: Tables, paths: Paths, *, aim: float) -> Flags:
    """Return which pairs of days a plan cheaper than `aim` may use: the others would cost more under these shares alone."""
    import numpy as np

    skipped, known, _ = _forward(tables, paths.step, paths.day)
    size = tables.size
    pairs = tables.pairs.astype(np.float32)
    way = pairs.copy()
    way[:, :, :size] += skipped[1:].transpose(1, 2, 0) + paths.day[:, None, :].astype(np.float32)
    way[:, :, size] += skipped.min(0)
    onward = np.zeros((tables.count, size + 1), np.float32)
    for a in range(size, -1, -1):
        after = np.concatenate([onward[:, 1:], np.zeros((tables.count, 1), np.float32)], axis=1)
        onward[:, a] = (way[:, a, a:] + after[:, a:]).min(1)
    after = np.concatenate([onward[:, 1:], np.zeros((tables.count, 1), np.float32)], axis=1)
    dearer = known[:, :, None] + way + after[:, None, :] - onward[:, :1, None]
    kept: Flags = dearer <= aim - paths.bound + ROUNDING * abs(aim)
    return kept


def _overpaid(tables: Tables, paid: Any) -> tuple[float, Any]:
    """Return by how much the shares exceed the efforts of the set-ups, and which of them are overpaid."""
    import numpy as np

    gathered = tables.needs @ paid
    over = np.zeros_like(gathered)
    total = 0.0
    for node in range(len(tables.effort) - 1, 0, -1):
        over[node] = np.maximum(gathered[node] - tables.effort[node], 0.0)
        if tables.parent[node]:
            gathered[tables.parent[node]] += over[node]
        else:
            total += float(over[node].sum())
    standing = over > 0.0
    for node in range(1, len(tables.effort)):
        if tables.parent[node]:
            standing[node] &= standing[tables.parent[node]]
    return total, standing


def _forward(tables: Tables, step: Any, day: Any) -> tuple[Any, Any, Any]:
    """Return the cheapest ways: between being done and a later workday, to being done on each day, and where those came from."""
    import numpy as np

    size, count, jobs = tables.size, tables.count, tables.jobs
    # skipped[b, j, a]: from the day a on which job j was last done to workday b, by the cheapest steps between.
    skipped = np.full((size + 1, count, size + 1), NEVER, np.float32)
    skipped[0, :, 0] = 0.0
    known = np.zeros((count, size + 1), np.float32)
    came_from = np.zeros((count, size + 1), np.int64)
    to_setups = day.astype(np.float32)
    for b in range(1, size + 1):
        arrived = (skipped[:b, :, :b] + step[b, b:0:-1, :, None]).min(0)
        skipped[b, :, :b] = arrived
        ways = known[:, :b] + tables.into[b - 1][:, :b].astype(np.float32) + arrived
        best = ways.argmin(1)
        came_from[:, b] = best
        known[:, b] = ways[jobs, best] + to_setups[:, b - 1]
        skipped[b, :, b] = 0.0
    return skipped, known, came_from


def _walks(tables: Tables, step: Any, day: Any) -> tuple[float, Any, Any]:
    """Return the cost of the cheapest walks of all jobs, the steps they take, and the days on which they are done."""
    import numpy as np

    skipped, known, came_from = _forward(tables, step, day)
    size, count, jobs = tables.size, tables.count, tables.jobs
    last = known + tables.into[size] + skipped.min(0)
    at = last.argmin(1)
    value = float(last[jobs, at].sum())
    walked = np.zeros((size + 1, size + 1, count), np.float32)
    done = np.zeros((count, size))
    places = np.arange(size + 1)[:, None]
    now = skipped[:, jobs, at].argmin(0)
    while True:
        doing = (now == at) & (now > 0)
        done[jobs[doing], at[doing] - 1] = 1.0
        at = np.where(doing, came_from[jobs, at], at)
        moving = now > 0
        if not moving.any():
            return value, walked, done
        gap = now[None, :] - places
        price = np.where(gap > 0, step[now[None, :], np.clip(gap, 0, size), jobs[None, :]], NEVER)
        came = np.where(places >= at[None, :], skipped[:, jobs, at] + price, NEVER * 2).argmin(0)
        walked[now[moving], (now - came)[moving], jobs[moving]] += 1.0
        now = np.where(moving, came, now)


def _smoothed(values: Any, near: int, axis: int) -> Any:
    """Return values with those of their neighbours added, the nearer the more."""
    out = values.copy()
    for shift in range(1, near):
        here: list[slice] = [slice(None)] * values.ndim
        there = list(here)
        here[axis], there[axis] = slice(shift, None), slice(None, -shift)
        part = (near - shift) / near
        out[tuple(here)] += part * values[tuple(there)]
        out[tuple(there)] += part * values[tuple(here)]
    return out
