"""Seals, filters and other parts that are renewed every time, and were not."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchmarks.mutations.edits import with_fields, without_moves, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def not_renewed(case: Case) -> Iterator[Mutant]:
    """The old part goes back where a new one belongs, is left in its place, or is overlooked under the new one."""
    for spot in worked_moves(case, "fit"):
        if not spot.move.get("new"):
            continue
        here: dict[str, Any] = {"steps": frozenset({spot.step}), "things": frozenset(spot.things)}
        yield Mutant(what=f"{spot.move['id']} with the old part", procedure=with_fields(case.procedure, spot, new=None), **here)
        taken = [one for one in worked_moves(case, "remove") if set(one.things) & set(spot.things) and one.index <= spot.index]
        steps = here["steps"] | {one.step for one in taken}
        if taken:
            left = without_moves(case.procedure, [*taken, spot])
            yield Mutant(what=f"{spot.move['id']}: old part left in place", procedure=left, steps=steps, things=here["things"])
            under = without_moves(case.procedure, taken)
            yield Mutant(what=f"{spot.move['id']}: new part on the old one", procedure=under, steps=steps, things=here["things"])


OPERATORS: tuple[Operator, ...] = (not_renewed,)
