"""A proof by a solver: the chains of all jobs and their openings as one mixed-integer programme, thinned by prices.

The solver is HiGHS. Where its package is absent there is no such proof, and the bound of the prices stands.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from twomarks.planning.workdays.cost import NEVER, Tables

if TYPE_CHECKING:
    from twomarks.planning.workdays.cost import Flags

__all__ = ["Proof", "exact", "solver_is_there"]

# What is proven to differ by less than this share is called proven [share of the cost].
PROVEN_SHARE = 1e-4


@dataclass(frozen=True, slots=True)
class Proof:
    """What the solver came to: a bound, and the chains it found where they are cheaper than what it was given."""

    bound: float
    chains: tuple[tuple[int, ...], ...] | None


@dataclass(slots=True)
class _Programme:
    """Columns with cost, rows with limits, and the entries between them, as they are gathered."""

    cost: list[float]
    row_low: list[float]
    row_high: list[float]
    rows: list[Any]
    columns: list[Any]
    entries: list[Any]

    def row(self, columns: Any, entries: Any, low: float, high: float) -> None:
        import numpy as np

        self.rows.append(np.full(len(columns), len(self.row_low)))
        self.columns.append(columns)
        self.entries.append(entries)
        self.row_low.append(low)
        self.row_high.append(high)


def solver_is_there() -> bool:
    """Return whether the package of the solver is installed."""
    return find_spec("highspy") is not None


def exact(
    tables: Tables,
    kept: Flags,
    *,
    known_bound: float,
    aim: float,
    seconds: float | None = None,
    most_nodes: int | None = None,
    going_on: Callable[[float], bool] = lambda _bound: True,
) -> Proof:
    """Return a bound on every plan, from the pairs of days that were `kept`, and the chains of a plan cheaper than `aim`.

    The solver ends after `seconds` or `most_nodes`, or when `going_on`, which is told the bound now and then, says no.
    """
    import highspy
    import numpy as np

    programme, arcs = _programme(tables, kept)
    size, nodes = tables.size, len(tables.effort)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(programme.cost), len(programme.row_low)
    lp.col_cost_ = np.array(programme.cost)
    lp.col_lower_, lp.col_upper_ = np.zeros(lp.num_col_), np.ones(lp.num_col_)
    lp.row_lower_, lp.row_upper_ = np.array(programme.row_low), np.array(programme.row_high)
    rows = np.concatenate(programme.rows)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.concatenate([[0], np.cumsum(np.bincount(rows, minlength=lp.num_row_))])
    lp.a_matrix_.index_ = np.concatenate(programme.columns)
    lp.a_matrix_.value_ = np.concatenate(programme.entries)
    whole = [highspy.HighsVarType.kInteger] * (nodes * size)
    lp.integrality_ = whole + [highspy.HighsVarType.kContinuous] * (lp.num_col_ - nodes * size)
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", PROVEN_SHARE / 2)
    solver.setOptionValue("objective_bound", aim + 1e-6)
    if seconds is not None:
        solver.setOptionValue("time_limit", seconds)
    if most_nodes is not None:
        solver.setOptionValue("mip_max_nodes", most_nodes)

    def asked(event: Any) -> None:
        if not going_on(float(event.data_out.mip_dual_bound)):
            event.interrupt()

    solver.cbMipInterrupt.subscribe(asked)
    solver.passModel(lp)
    solver.run()
    info = solver.getInfo()
    status = solver.getModelStatus()
    if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kObjectiveBound):
        # Nothing cheaper than `aim` is left.
        return Proof(aim, None)
    bound = max(known_bound, min(float(info.mip_dual_bound), aim))
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible or info.objective_function_value >= aim:
        return Proof(bound, None)
    taken = np.array(solver.getSolution().col_value)[nodes * size :] > 0.5
    return Proof(bound, _chains_of(tables, arcs, taken))


def _programme(tables: Tables, kept: Flags) -> tuple[_Programme, list[tuple[Any, Any]]]:
    import numpy as np

    size, nodes = tables.size, len(tables.effort)
    programme = _Programme(np.repeat(tables.effort, size).tolist(), [], [], [], [], [])
    arcs = []
    for j in range(tables.count):
        last, now = np.nonzero(kept[j] & (tables.pairs[j] < NEVER / 2))
        columns = len(programme.cost) + np.arange(len(last))
        programme.cost.extend(tables.pairs[j][last, now].tolist())
        arcs.append((last, now))
        _chain_rows(programme, tables, j, columns, last, now)
    one = np.array([1.0, -1.0])
    for node in range(1, nodes):
        for place in range(size):
            pair = np.array([node * size + place, tables.parent[node] * size + place])
            programme.row(pair, one, -np.inf, 0.0)
    return programme, arcs


def _chain_rows(programme: _Programme, tables: Tables, j: int, columns: Any, last: Any, now: Any) -> None:
    """Write the rows of one job: it begins once, goes on from where it came, and is done only where its set-up stands."""
    import numpy as np

    size = tables.size
    begins, ends = columns[last == 0], columns[now == size]
    programme.row(begins, np.ones(len(begins)), 1.0, 1.0)
    programme.row(ends, np.ones(len(ends)), 1.0, 1.0)
    for place in range(size):
        into, out = columns[now == place], columns[last == place + 1]
        if not len(into) and not len(out):
            continue
        programme.row(np.concatenate([into, out]), np.concatenate([np.ones(len(into)), -np.ones(len(out))]), 0.0, 0.0)
        if len(into):
            opening = int(tables.node[j]) * size + place
            programme.row(np.append(into, opening), np.append(np.ones(len(into)), -1.0), -np.inf, 0.0)


def _chains_of(tables: Tables, arcs: list[tuple[Any, Any]], taken: Flags) -> tuple[tuple[int, ...], ...]:
    chains, start = [], 0
    for last, now in arcs:
        mine = taken[start : start + len(last)]
        start += len(last)
        chains.append(tuple(sorted(int(place) for place in now[mine] if place < tables.size)))
    return tuple(chains)
