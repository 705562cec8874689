"""Two simple rules that a plan is measured against: each job on its due day, and whatever is due soon together with it."""

from __future__ import annotations

from bisect import bisect_right

from twomarks.planning.workdays.cost import NEVER, Tables

__all__ = ["SOON_DAYS", "due_day_chains", "window_rule_chains"]

SOON_DAYS = 42


def due_day_chains(tables: Tables) -> tuple[tuple[int, ...], ...]:
    """Return each job done on the last free day before its limit is probably reached, as if there were no other."""
    return tuple(_alone(tables, j) for j in range(tables.count))


def _alone(tables: Tables, j: int) -> tuple[int, ...]:
    chain: list[int] = []
    while (place := _due_place(tables, j, chain[-1] if chain else None)) is not None:
        chain.append(place)
    return tuple(chain)


def window_rule_chains(tables: Tables) -> tuple[tuple[int, ...], ...]:
    """Return what comes of one rule: when something is due, what falls due within six weeks is done on the same day."""
    chains: list[list[int]] = [[] for _ in range(tables.count)]
    while True:
        due = [_due_place(tables, j, chains[j][-1] if chains[j] else None) for j in range(tables.count)]
        place = min((at for at in due if at is not None), default=None)
        if place is None:
            return tuple(tuple(chain) for chain in chains)
        soon = tables.days[place] + SOON_DAYS
        for j, at in enumerate(due):
            if at is not None and tables.days[at] <= soon and _can(tables, j, chains[j], place):
                chains[j].append(place)
        for j, at in enumerate(due):
            # What is due on that very day is done, however early it was last done.
            if at == place and chains[j][-1:] != [place]:
                chains[j].append(place)


def _can(tables: Tables, j: int, chain: list[int], place: int) -> bool:
    last = chain[-1] + 1 if chain else 0
    return last <= place and bool(tables.pairs[j, last, place] < NEVER / 2)


def _due_place(tables: Tables, j: int, last: int | None) -> int | None:
    """Return the free day for a job alone: the last one not after its likely day among those that may be; None: none in the plan."""
    job = tables.problem.jobs[j]
    curve = job.first if last is None else job.again
    if curve is None:
        return None
    start = 0 if last is None else int(tables.days[last])
    row = tables.pairs[j, 0 if last is None else last + 1]
    allowed = [place for place in range(tables.size) if row[place] < NEVER / 2]
    likely = start + curve.likely_days
    if not allowed or (likely > tables.problem.horizon_days and row[-1] < NEVER / 2):
        return None
    at = bisect_right([int(tables.days[place]) for place in allowed], likely)
    return allowed[max(0, at - 1)]
