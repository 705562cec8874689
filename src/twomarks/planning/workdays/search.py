"""A good plan soon: whole days are opened, moved and closed, and stretches of the calendar are cleared and filled anew."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from twomarks.planning.workdays.draws import Draws
from twomarks.planning.workdays.openings import best_day, cost_of_openings

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags, Tables

__all__ = ["rounds"]

# The distances between days that a search begins with, and the stretches that it clears [days].
STARTS = ((70, 35), (140, 70))
CLEARED = (60.0, 260.0)
SEEDED = 2
LEAST_SAVING = 1e-6
# How much dearer than the best the plan may be that the search goes on from [share].
STRAYED = 0.01
# How near to the best a plan must come for its single set-ups to be tried [share].
NEAR = 0.02


def rounds(tables: Tables, *, seed: int, given: Sequence[Flags] = ()) -> Iterator[tuple[float, Flags]]:
    """Return without end the best cost and openings so far, after each round of the search.

    It begins with the `given` openings, or with days at even distances where there are none.
    """
    draws = Draws(seed)
    best: Flags | None = None
    cost = float("inf")
    for tried in given or [_grid(tables, gap, offset) for gap, offset in STARTS]:
        opened, found = _settled(tables, tried, near=float("inf"))
        if found < cost:
            best, cost = opened, found
        assert best is not None
        yield cost, best
    assert best is not None
    at = best
    while True:
        opened, found = _shaken(tables, at, draws, cost * (1.0 + NEAR))
        if found < cost - LEAST_SAVING:
            opened, found = _needed(tables, opened)
            best, cost = opened, found
        if found <= cost * (1.0 + STRAYED):
            at = opened
        yield cost, best


def _grid(tables: Tables, gap: int, offset: int) -> Flags:
    """Return everything opened on the free days nearest to every `gap` days."""
    import numpy as np

    opened = np.zeros((len(tables.effort), tables.size), dtype=bool)
    for day in range(int(tables.days[0]) + offset, int(tables.days[-1]) + gap, gap):
        opened[:, int(np.abs(tables.days - day).argmin())] = True
    return opened


def _shaken(tables: Tables, best: Flags, draws: Draws, near: float) -> tuple[Flags, float]:
    """Return what becomes of `best` when a stretch of it is cleared and filled anew."""
    import numpy as np

    width = draws.between(*CLEARED)
    start = draws.between(float(tables.days[0]) - width / 2, float(tables.days[-1]) - width / 2)
    inside = np.flatnonzero((tables.days >= start) & (tables.days <= start + width))
    if not len(inside):
        return best, cost_of_openings(tables, best)
    opened = best.copy()
    opened[:, inside] = False
    for _ in range(1 + draws.below(SEEDED)):
        opened[:, draws.one_of(inside.tolist())] = True
    low, high = max(0, int(inside[0]) - 2), min(tables.size, int(inside[-1]) + 3)
    return _settled(tables, opened, near=near, low=low, high=high)


def _settled(tables: Tables, opened: Flags, *, near: float, low: int = 0, high: int | None = None) -> tuple[Flags, float]:
    """Return openings that no day opened, moved or closed between two places makes cheaper, and their cost.

    Single set-ups are tried only where the cost has come `near`.
    """
    import numpy as np

    cost = float("inf")
    while True:
        before = cost
        best = best_day(tables, opened, first=low, last=high)
        while best.saving > LEAST_SAVING:
            opened = _with(opened, best.nodes, best.place)
            best = best_day(tables, opened, first=low, last=high)
        cost = best.cost
        for place in np.flatnonzero(opened[0, low:high]) + low:
            without = opened.copy()
            without[:, place] = False
            best = best_day(tables, without, first=low, last=high)
            saving = best.saving if best.saving > LEAST_SAVING else 0.0
            if best.cost - saving < cost - LEAST_SAVING:
                cost = best.cost - saving
                opened = _with(without, best.nodes, best.place) if saving else without
        if cost <= near:
            opened, cost = _closed(tables, opened, cost, low, high)
        if cost >= before - LEAST_SAVING:
            return opened, cost


def _with(opened: Flags, nodes: tuple[int, ...], place: int) -> Flags:
    wider = opened.copy()
    wider[list(nodes), place] = True
    return wider


def _closed(tables: Tables, opened: Flags, cost: float, low: int, high: int | None) -> tuple[Flags, float]:
    """Return the openings without the set-ups of single days that are not worth their effort."""
    import numpy as np

    for node in range(1, len(tables.effort)):
        for place in np.flatnonzero(opened[node, low:high]) + low:
            if not opened[node, place]:
                continue
            without = opened.copy()
            for other in range(node, len(tables.effort)):
                if other == node or not without[tables.parent[other], place]:
                    without[other, place] = False
            found = cost_of_openings(tables, without)
            if found < cost - LEAST_SAVING:
                opened, cost = without, found
    return opened, cost


def _needed(tables: Tables, opened: Flags) -> tuple[Flags, float]:
    """Return only those openings that the jobs use."""
    used = tables.opened_by(tables.chains(opened))
    return used, cost_of_openings(tables, used)
