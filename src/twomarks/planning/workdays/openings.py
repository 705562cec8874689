"""What a set of openings costs, and what one more day with some of its set-ups would save."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks.planning.workdays.cost import NEVER, Tables

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags, Floats

__all__ = ["BestDay", "best_day", "cost_of_openings"]


@dataclass(frozen=True, slots=True)
class BestDay:
    """The cost of some openings, and the one day that would save most: its place, the saving and what to open."""

    cost: float
    saving: float
    place: int
    nodes: tuple[int, ...]


def cost_of_openings(tables: Tables, opened: Flags) -> float:
    """Return the cost of a set of openings (set-up, day), each job done on its best days among them."""
    return float(tables.job_costs(opened).sum() + (tables.effort @ opened.sum(1)))


def best_day(tables: Tables, opened: Flags, *, first: int = 0, last: int | None = None) -> BestDay:
    """Return the best day between the places `first` and `last` on which to open more; exact for one more day."""
    import numpy as np

    base, through = _through(tables, opened, first, tables.size if last is None else last)
    gains = tables.needs @ np.maximum(base[:, None] - through, 0.0)
    standing = opened[:, first:last]
    gains[standing] = 0.0
    worth = np.empty_like(gains)
    for node in range(len(tables.effort) - 1, -1, -1):
        worth[node] = np.maximum(gains[node] - np.where(standing[node], 0.0, tables.effort[node]), 0.0)
        if node:
            gains[tables.parent[node]] += worth[node]
    at = int(worth[0].argmax())
    nodes = [0]
    for node in range(1, len(tables.effort)):
        if tables.parent[node] in nodes and (worth[node, at] > 0.0 or standing[node, at]):
            nodes.append(node)
    cost = float(base.sum() + tables.effort @ opened.sum(1))
    return BestDay(cost, float(worth[0, at]), first + at, tuple(nodes))


def _through(tables: Tables, opened: Flags, first: int, last: int) -> tuple[Floats, Floats]:
    """Return what each job costs, and what it costs when it is also done on each of the days."""
    import numpy as np

    places = np.flatnonzero(opened[0])
    rows = np.concatenate([[0], places + 1])
    barred = np.where(opened[tables.node][:, places], 0.0, NEVER)
    size = len(places)
    steps = tables.into[places][:, :, rows]
    before = np.zeros((tables.count, size + 1))
    for k in range(size):
        before[:, k + 1] = (before[:, : k + 1] + steps[k][:, : k + 1]).min(1) + barred[:, k]
    after = tables.into[tables.size][:, rows]
    for k in range(size - 1, -1, -1):
        onward = (after[:, k + 1] + barred[:, k])[:, None]
        np.minimum(after[:, : k + 1], steps[k][:, : k + 1] + onward, out=after[:, : k + 1])
    base = after[:, 0].copy()
    coming = (tables.out_of[rows][:, :, first:last] + before.T[:, :, None]).min(0)
    going = tables.into[tables.size][:, first + 1 : last + 1]
    if size:
        going = np.minimum(going, (tables.into[places][:, :, first + 1 : last + 1] + (after[:, 1:] + barred).T[:, :, None]).min(0))
    return base, coming + going
