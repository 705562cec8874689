"""What is not done at all: the commonest mistake of all, in putting together as in writing down."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import acted_on, moves_of, without_move, without_step, worked_moves, worked_steps
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def step_dropped(case: Case) -> Iterator[Mutant]:
    """A step is not there."""
    for index, step in worked_steps(case):
        things = frozenset(thing for move in moves_of(step) for thing in acted_on(move))
        yield Mutant(
            what=f"{step['id']} dropped",
            procedure=without_step(case.procedure, index),
            steps=frozenset({str(step["id"])}),
            things=things,
        )


def move_dropped(case: Case) -> Iterator[Mutant]:
    """One move of a step is not there, the rest of it is."""
    for spot in worked_moves(case):
        if len(moves_of(case.procedure["steps"][spot.index])) == 1:
            continue
        yield Mutant(
            what=f"{spot.move['id']} dropped from {spot.step}",
            procedure=without_move(case.procedure, spot),
            steps=frozenset({spot.step}),
            things=frozenset(spot.things),
        )


OPERATORS: tuple[Operator, ...] = (step_dropped, move_dropped)
