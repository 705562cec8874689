"""A mixed-integer linear programme, written down in plain lists and solved by HiGHS with a proven bound.

The solver and NumPy are loaded only when a programme is solved.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

__all__ = ["Programme", "Solved"]

INFINITY = math.inf
Term = tuple[int, float]


@dataclass(frozen=True, slots=True)
class Solved:
    """The best values found, what they cost, and the least that any could cost; `values` is empty where none was found.

    `infeasible` is true where it is proven that there are none.
    """

    values: tuple[float, ...]
    cost: float
    bound: float
    infeasible: bool = False


@dataclass(slots=True)
class Programme:
    """Least cost over variables between limits, some of them whole numbers, under rows of linear terms."""

    costs: list[float] = field(default_factory=list)
    lows: list[float] = field(default_factory=list)
    highs: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[float, float]] = field(default_factory=list)
    starts: list[int] = field(default_factory=lambda: [0])
    columns: list[int] = field(default_factory=list)
    weights: list[float] = field(default_factory=list)

    def variable(self, *, cost: float = 0.0, low: float = 0.0, high: float = INFINITY, whole: bool = False) -> int:
        """Add a variable and return its number."""
        self.costs.append(cost)
        self.lows.append(low)
        self.highs.append(high)
        self.whole.append(whole)
        return len(self.costs) - 1

    def row(self, terms: Iterable[Term], *, low: float = -INFINITY, high: float = INFINITY) -> None:
        """Demand that the sum of `terms` (variable, weight) lies between `low` and `high`; a variable stands in it once."""
        for column, weight in terms:
            self.columns.append(column)
            self.weights.append(weight)
        self.starts.append(len(self.columns))
        self.rows.append((low, high))

    def solve(self, *, limit_s: float, gap: float = 1e-6) -> Solved:
        """Return the best values found within `limit_s` seconds, with the bound proven by then."""
        import highspy
        import numpy as np

        solver = highspy.Highs()  # type: ignore[no-untyped-call]
        options = {"output_flag": False, "time_limit": float(limit_s), "mip_rel_gap": gap, "mip_allow_restart": False}
        for name, value in options.items():
            solver.setOptionValue(name, value)
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self.costs), len(self.rows)
        lp.col_cost_, lp.col_lower_, lp.col_upper_ = (np.array(values, float) for values in (self.costs, self.lows, self.highs))
        lp.row_lower_, lp.row_upper_ = (np.array([row[side] for row in self.rows], float) for side in (0, 1))
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.array(self.starts, np.int32)
        lp.a_matrix_.index_ = np.array(self.columns, np.int32)
        lp.a_matrix_.value_ = np.array(self.weights, float)
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[whole] for whole in self.whole]
        solver.passModel(lp)
        solver.run()
        status, info = solver.getModelStatus(), solver.getInfo()
        infeasible = status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible)
        found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        bound = info.mip_dual_bound if any(self.whole) else info.objective_function_value
        values = tuple(solver.getSolution().col_value) if found and not infeasible else ()
        return Solved(values, info.objective_function_value if values else INFINITY, bound, infeasible)
