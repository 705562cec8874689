"""The order of a day on twenty invented days of sixty steps: is there a plan after half a second, is it proven after two.

Seconds are those of a machine on which the reference load takes 100 ms; the load is timed beside each day.
"""

from __future__ import annotations

import json
import time
from typing import Any

from benchmarks.day_instances import INSTANCES, STEPS, invented_day
from benchmarks.evidence import write
from benchmarks.reference_load import REFERENCE_MS, load_ms
from twomarks.planning.day.problem import Solution
from twomarks.planning.day.search import Effort, solve

SEED = 0
PLAN_S, PROOF_S = 0.5, 2.0
PROVEN_OF_20 = 15
MANY = 10_000_000


def main() -> None:
    """Plan every day, print the figures against what is asked, and write the evidence."""
    rows = [_row(seed) for seed in range(INSTANCES)]
    proven = sum(row["proven_s"] is not None and row["proven_s"] <= PROOF_S for row in rows)
    with_plan = sum(row["plan_s"] is not None and row["plan_s"] <= PLAN_S for row in rows)
    worst = max(row["gap_percent"] for row in rows)
    print(f"   a plan within {PLAN_S:g} s: {with_plan} of {len(rows)}")
    verdict = "held" if proven >= PROVEN_OF_20 else "NOT HELD"
    print(f"   proven within {PROOF_S:g} s: {proven} of {len(rows)} (asked {PROVEN_OF_20}): {verdict}")
    print(f"   worst gap at {PROOF_S:g} s: {worst:g} %")
    saved = sum(row["one_after_another_min"] - row["shortest_min"] for row in rows) / len(rows)
    print(f"   saved against the lists one after another, on average: {saved:.0f} min")
    result = {
        "plans_in_half_a_second": with_plan,
        "proven_in_two_seconds": proven,
        "worst_gap_percent": worst,
        "saved_min": round(saved, 1),
        "days": rows,
    }
    write("day_plan", result, seed=SEED, counts={"days": len(rows), "steps": STEPS})


def _row(seed: int) -> dict[str, Any]:
    problem = invented_day(seed)
    ms = load_ms()
    began = time.perf_counter()
    first = solve(problem, effort=Effort(nodes=0, nodes_for_changes=0))
    plan_s = (time.perf_counter() - began) * REFERENCE_MS / ms
    began = time.perf_counter()

    def going_on(_so_far: Solution) -> bool:
        return (time.perf_counter() - began) * REFERENCE_MS / ms < PROOF_S

    found = solve(problem, effort=Effort(nodes=MANY, nodes_for_changes=0), going_on=going_on)
    took_s = (time.perf_counter() - began) * REFERENCE_MS / ms
    assert found is not None
    row = {
        "day": seed,
        "hands": problem.capacity["hands"],
        "plan_s": None if first is None else round(plan_s, 2),
        "first_min": None if first is None else first.shortest_min,
        "shortest_min": found.shortest_min,
        "bound_min": found.bound_min,
        "gap_percent": round(100.0 * found.gap, 1),
        "proven_s": round(took_s, 2) if found.proven else None,
        "one_after_another_min": sum(task.active_min + (0.0 if task.within else task.wait_min) for task in problem.tasks),
    }
    print("  ", json.dumps(row), flush=True)
    return row


if __name__ == "__main__":
    main()
