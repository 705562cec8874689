"""What is done twice, because somebody was called away in between or two people worked on it."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import alone, inserted, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def done_twice(case: Case) -> Iterator[Mutant]:
    """A part is fitted a second time on top of the first, or the same pour is poured again."""
    kinds = {name: role["kind"] for name, role in case.procedure.get("roles", {}).items()}
    for spot in worked_moves(case, "fit", "pour"):
        if spot.action == "fit" and not any(kinds.get(thing) == "slot" for thing in spot.things):
            continue
        name = f"{spot.move['id']}-twice"
        again = dict(alone(case.procedure, spot, name=name))
        again.pop("during", None)
        yield Mutant(
            what=f"{spot.move['id']} done twice",
            procedure=inserted(case.procedure, again, after=spot.step),
            steps=frozenset({spot.step, name}),
            things=frozenset(spot.things),
            copies={name: spot.step},
        )


OPERATORS: tuple[Operator, ...] = (done_twice,)
