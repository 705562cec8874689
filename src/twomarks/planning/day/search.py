"""The search for the shortest day: quick orders first, then branch and bound with a memory of what was seen before."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from twomarks.errors import NoSolutionError
from twomarks.planning.day.board import Board, Standing
from twomarks.planning.day.bounds import Bounds
from twomarks.planning.day.problem import Problem, Solution

__all__ = ["NEAR_MIN", "Effort", "solve"]

NEAR_MIN = 10.0
"""How much longer than the shortest a day may be that has fewer changes of place and job [min]."""
_EPS = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How much a search may look at; counts and no clock, so that the same day always gets the same plan."""

    width: int = 8
    nodes: int = 60_000
    nodes_for_changes: int = 20_000


def solve(problem: Problem, *, effort: Effort | None = None, going_on: Callable[[Solution], bool] | None = None) -> Solution | None:
    """Return the best order found, or None where no order was found in which everything that a task needs holds.

    `going_on` is told the best so far now and then; when it says no, the search ends with that.
    """
    given = effort or Effort()
    board = Board(problem)
    try:
        bounds = Bounds(board)
    except NoSolutionError:
        return None
    search = _Search(board, bounds, going_on)
    search.quick(given.width)
    search.prove(given.nodes)
    if search.best is None:
        return None
    shortest = search.best
    search.fewest_changes(given.nodes_for_changes)
    return search.told(shortest)


@dataclass(slots=True)
class _Search:
    board: Board
    bounds: Bounds
    going_on: Callable[[Solution], bool] | None
    best: Standing | None = None
    calm: Standing | None = None
    bound: float = 0.0
    nodes: int = 0
    stopped: bool = False
    root: Standing = field(init=False)

    def __post_init__(self) -> None:
        self.root = self.board.first()
        self.bound = self.bounds.least(self.root)

    def told(self, shortest: Standing) -> Solution:
        """Return what has been found, as it is told to others."""
        chosen = self.calm or shortest
        bars, left_out = chosen.trail()
        return Solution(
            bars=bars,
            left_out=left_out,
            length_min=self.board.length(chosen),
            changes=chosen.changes,
            shortest_min=self.board.length(shortest),
            changes_of_shortest=shortest.changes,
            bound_min=self.bound,
            nodes=self.nodes,
        )

    def quick(self, width: int) -> None:
        """Lay out days side by side, the most promising few of every length, and keep the shortest and the calmest."""
        for key in (_one_by_one, _few_at_once, _soon, _soon_and_calm):
            layer = [self.root]
            while layer:
                found: dict[object, tuple[object, Standing]] = {}
                for one in layer:
                    if self.board.is_last(one):
                        self._ends(one)
                        continue
                    for after in self.board.follow(one):
                        self.nodes += 1
                        least = self.bounds.least(after)
                        rank = key(self.board, after, least)
                        mark = (after.places, after.values)
                        if mark not in found or rank < found[mark][0]:  # type: ignore[operator]
                            found[mark] = (rank, after)
                layer = [one for _, one in sorted(found.values(), key=lambda item: item[0])[:width]]  # type: ignore[arg-type, return-value]

    def _ends(self, one: Standing) -> None:
        length = self.board.length(one)
        if self.best is None or (length, one.changes) < (self.board.length(self.best), self.best.changes):
            self.best = one
        if self.calm is None or (one.changes, length) < (self.calm.changes, self.board.length(self.calm)):
            self.calm = one

    def prove(self, nodes: int) -> None:
        """Look at every order that could be shorter, as far as `nodes` reach; what is left open bounds what may still be found."""
        self.bound = self._through(nodes, lambda: self.board.length(self.best) - _EPS if self.best else float("inf"), self._shorter)

    def _shorter(self, one: Standing) -> None:
        if self.best is None or self.board.length(one) < self.board.length(self.best) - _EPS:
            self.best = one

    def fewest_changes(self, nodes: int) -> None:
        """Find an order near the shortest with fewer changes of place and job."""
        assert self.best is not None
        most = self.board.length(self.best) + NEAR_MIN
        if self.calm is None or self.board.length(self.calm) > most + _EPS or self.calm.changes >= self.best.changes:
            self.calm = self.best
        self._calmer(nodes, most)

    def _through(self, nodes: int, most: Callable[[], float], ends: Callable[[Standing], None]) -> float:
        """Search depth first; return what no order can be shorter than."""
        open_ = [(self.bounds.least(self.root), self.root)]
        seen: dict[object, list[tuple[float, ...]]] = {}
        least_cut = float("inf")
        used = 0
        while open_:
            least, one = open_.pop()
            if least >= most():
                continue
            if used >= nodes or self.stopped:
                least_cut = min(least_cut, least)
                continue
            used += 1
            self.nodes += 1
            if self.going_on is not None and used % 500 == 0 and self.best is not None and not self.going_on(self.told(self.best)):
                self.stopped = True
            if self.board.is_last(one):
                ends(one)
                continue
            if _is_worse(seen, one):
                continue
            following = [(max(least, self.bounds.least(after)), after) for after in self.board.follow(one)]
            following = [(bound, after) for bound, after in following if bound < most()]
            following.sort(key=lambda item: (-item[0], -item[1].now, item[1].changes))
            open_ += following
        return min(least_cut, most() + _EPS)

    def _calmer(self, nodes: int, most: float) -> None:
        assert self.calm is not None
        open_ = [self.root]
        seen: dict[object, list[tuple[float, ...]]] = {}
        used = 0
        while open_ and used < nodes and not self.stopped:
            one = open_.pop()
            if one.changes >= self.calm.changes or self.bounds.least(one) > most + _EPS:
                continue
            used += 1
            self.nodes += 1
            if self.board.is_last(one):
                self.calm = one
                continue
            if _is_worse(seen, one, with_changes=True):
                continue
            following = sorted(self.board.follow(one), key=lambda after: (-after.changes, -after.now))
            open_ += following


def _one_by_one(board: Board, one: Standing, least: float) -> object:
    """Prefer days on which few jobs are under way: they seldom end where nothing more can be begun."""
    return (_under_way(board, one), least, one.changes)


def _few_at_once(board: Board, one: Standing, least: float) -> object:
    return (least + 5.0 * _under_way(board, one), one.now, one.changes)


def _under_way(board: Board, one: Standing) -> int:
    return sum(0 < place < len(chain) for place, chain in zip(one.places, board.problem.chains, strict=True))


def _soon(_board: Board, one: Standing, least: float) -> object:
    return (least, one.now, one.changes)


def _soon_and_calm(_board: Board, one: Standing, least: float) -> object:
    return (least + 2.0 * one.changes, one.now)


def _is_worse(seen: dict[object, list[tuple[float, ...]]], one: Standing, *, with_changes: bool = False) -> bool:
    """Return whether a day that stands as this one does was as far on before, in every way; else remember this one."""
    mark = (one.places, one.values, one.at if with_changes else None)
    times = (
        one.now,
        *(max(free, one.now) for free in one.free),
        *(max(ready, one.now) for ready in one.ready),
        *((float(one.changes),) if with_changes else ()),
    )
    those: list[tuple[float, ...]] = seen.setdefault(mark, [])
    if any(all(a <= b + _EPS for a, b in zip(other, times, strict=True)) for other in those):
        return True
    those[:] = [other for other in those if not all(b <= a + _EPS for a, b in zip(other, times, strict=True))]
    those.append(times)
    return False
