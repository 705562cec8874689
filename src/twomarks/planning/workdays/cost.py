"""What a plan costs, in minutes of the owner: shared efforts, life thrown away, and the risk of running over.

Every job is a chain of the days on which it is done. The cost of doing it on a day depends on that day and on the one before
it alone, so a table of all pairs of days says all there is to know of a job.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from twomarks.planning.workdays.problem import FIRST_SHARE, MOST_OVER_SHARE, DueCurve, Job, Problem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Flags = NDArray[np.bool_]
    Places = NDArray[np.int64]

__all__ = ["NEVER", "Tables", "over_and_left_days"]

NEVER = 1e9
"""Stands in the tables for what is not done; no plan that can be worked costs a tenth of it."""


class Tables:
    """A problem in arrays.

    `pairs[j, a, b]` is the cost of doing job j on free day b when it was last done on free day a - 1 (a = 0: before the
    plan); b = number of days stands for the end of the plan. Set-ups form a tree, whose root 0 is the workday itself.
    """

    def __init__(self, problem: Problem) -> None:
        import numpy as np

        self.problem = problem
        self.days = np.array(problem.days, dtype=np.int64)
        self.count = len(problem.jobs)
        self.size = len(self.days)
        keys = ["", *(setup.key for setup in problem.setups)]
        self.effort = np.array([problem.workday_min, *(setup.effort_min for setup in problem.setups)])
        self.parent = [-1, *(keys.index(setup.inside) for setup in problem.setups)]
        self.node = np.array([keys.index(job.setup) for job in problem.jobs], dtype=np.int64)
        self.needs = np.zeros((len(keys), self.count))
        self.needs[self.node, np.arange(self.count)] = 1.0
        self.pairs = np.full((self.count, self.size + 1, self.size + 1), NEVER)
        for j, job in enumerate(problem.jobs):
            self._fill(j, job)
        self.into = np.ascontiguousarray(self.pairs.transpose(2, 0, 1))
        self.out_of = np.ascontiguousarray(self.pairs.transpose(1, 0, 2))
        self.jobs = np.arange(self.count)

    def _fill(self, j: int, job: Job) -> None:
        end = self.problem.horizon_days
        days = self.days
        reach = end + 1
        over, left = over_and_left_days(job.first, reach=reach)
        self._row(j, 0, job, over[days], left[days], over[end])
        if job.again is None:
            self.pairs[j, 1:, -1] = 0.0
        else:
            over, left = over_and_left_days(job.again, reach=reach)
            for a in range(self.size):
                gaps = days[a + 1 :] - days[a]
                self._row(j, a + 1, job, over[gaps], left[gaps], over[end - days[a]])
        if job.done_by is not None and job.done_by <= self.problem.until:
            self._hold_to(j, job, (job.done_by - self.problem.today).days)

    def _row(self, j: int, a: int, job: Job, over: Floats, left: Floats, over_at_end: float) -> None:
        """Write the costs of the days after day a - 1, from the days expected past the limit and short of it."""
        life = max(job.life_days, 1.0)
        early_enough = left <= (1.0 - FIRST_SHARE) * life
        most = MOST_OVER_SHARE * life
        late = over >= most
        # The first day on which too much has been run over is still there, so that a plan always exists.
        allowed = early_enough.copy()
        allowed[1:] &= ~late[:-1]
        cost = job.worth_min * left / life + job.over_min_per_day * over
        self.pairs[j, a, a : self.size][allowed] = cost[allowed]
        if not late.any():
            self.pairs[j, a, -1] = job.over_min_per_day * over_at_end

    def _hold_to(self, j: int, job: Job, latest: int) -> None:
        """Leave only the days up to the latest one for the first time; any of them may be taken."""
        over, left = over_and_left_days(job.first, reach=self.problem.horizon_days + 1)
        cost = job.worth_min * left[self.days] / max(job.life_days, 1.0) + job.over_min_per_day * over[self.days]
        self.pairs[j, 0, :] = NEVER
        within = self.days <= latest
        self.pairs[j, 0, :-1][within] = cost[within]

    def job_costs(self, opened: Flags) -> Floats:
        """Return what each job costs at best where only `opened` set-ups stand open."""
        import numpy as np

        known = np.zeros((self.count, 1))
        places = np.flatnonzero(opened[0])
        rows = np.concatenate([[0], places + 1])
        barred = np.where(opened[self.node][:, places], 0.0, NEVER)
        for k, place in enumerate(places):
            best = (known + self.into[place][:, rows[: k + 1]]).min(1) + barred[:, k]
            known = np.concatenate([known, best[:, None]], axis=1)
        costs: Floats = (known + self.into[self.size][:, rows]).min(1)
        return costs

    def chains(self, opened: Flags) -> tuple[tuple[int, ...], ...]:
        """Return for each job the days (as places among the free days) on which it is done where `opened` stand open."""
        import numpy as np

        places = np.flatnonzero(opened[0])
        found = []
        for j in range(self.count):
            mine = [int(place) for place in places if opened[self.node[j], place]]
            found.append(self._chain(j, mine))
        return tuple(found)

    def _chain(self, j: int, places: Collection[int]) -> tuple[int, ...]:
        known: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, ())}
        for place in places:
            cost, chain = min((cost + self.pairs[j, a, place], chain) for a, (cost, chain) in known.items())
            known[place + 1] = (cost, (*chain, place))
        return min((cost + self.pairs[j, a, -1], chain) for a, (cost, chain) in known.items())[1]

    def opened_by(self, chains: Collection[Collection[int]]) -> Flags:
        """Return the openings that the days of all jobs need."""
        import numpy as np

        opened = np.zeros((len(self.effort), self.size), dtype=bool)
        for j, chain in enumerate(chains):
            for node in self.above(int(self.node[j])):
                opened[node, list(chain)] = True
        return opened

    def above(self, node: int) -> Iterator[int]:
        """Return a set-up and all that it rests on, up to the workday."""
        while node >= 0:
            yield node
            node = self.parent[node]

    def cost_of(self, chains: Collection[Collection[int]]) -> float:
        """Return the cost of the days of all jobs."""
        total = float((self.effort @ self.opened_by(chains)).sum())
        for j, chain in enumerate(chains):
            last = 0
            for place in chain:
                total += float(self.pairs[j, last, place])
                last = place + 1
            total += float(self.pairs[j, last, -1])
        return total


def over_and_left_days(curve: DueCurve, *, reach: int) -> tuple[Floats, Floats]:
    """Return, for each number of days up to `reach`, the days expected past the limit and the days expected short of it."""
    import numpy as np

    points = curve.points()
    corners = [points[0], *(after for before, after in itertools.pairwise(points) if after[0] > before[0])]
    # Of corners on one day the highest chance holds: the limit is passed on that day.
    by_day = dict(points)
    last = int(max(reach, np.ceil(points[-1][0]))) + 1
    at = np.arange(last + 1, dtype=float)
    x = np.array([day for day, _ in corners])
    chance = np.interp(at, x, np.array([by_day[day] for day, _ in corners]), left=0.0, right=1.0)
    over = np.concatenate([[0.0], np.cumsum(chance)])[: last + 1]
    short = 1.0 - chance
    left = np.cumsum(short[::-1])[::-1]
    return over[: reach + 1], left[: reach + 1]
