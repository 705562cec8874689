"""What a write-up leaves unsaid: the caution before what burns or crushes, the sign by which one sees that a look came out well."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import listed, worked_steps
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def caution_left_out(case: Case) -> Iterator[Mutant]:
    """A step that can hurt somebody no longer says so."""
    for index, step in worked_steps(case):
        if any(one["signal"] in ("danger", "warning", "caution") for one in listed(step.get("caution"))):
            yield _less(case, index, ("caution",), "says nothing of the danger")


def sign_left_out(case: Case) -> Iterator[Mutant]:
    """A look no longer says by what one sees whether all is well."""
    for index, step in worked_steps(case):
        if step["action"] in ("inspect", "measure") and ("accept" in step or "reject" in step):
            yield _less(case, index, ("accept", "reject", "look"), "says no sign")


def _less(case: Case, index: int, fields: tuple[str, ...], how: str) -> Mutant:
    step = case.procedure["steps"][index]
    less = {name: value for name, value in step.items() if name not in fields}
    steps = [less if number == index else one for number, one in enumerate(case.procedure["steps"])]
    return Mutant(what=f"{step['id']} {how}", procedure={**case.procedure, "steps": steps}, steps=frozenset({str(step["id"])}))


OPERATORS: tuple[Operator, ...] = (caution_left_out, sign_left_out)
