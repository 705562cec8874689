"""What is done in the wrong order: neighbours the wrong way round, and preparations made when they no longer help."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from benchmarks.mutations.dependency import asks_for, dependent, shares_nothing
from benchmarks.mutations.edits import Spot, acted_on, moves_of, swapped, worked_moves, worked_steps
from benchmarks.mutations.elsewhere import made_elsewhere
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_PREPARES = frozenset({"secure", "chock", "wear", "gather", "clean", "shake", "support", "place", "say", "inspect", "oil"})
_AFTERWARDS = frozenset({"old_filter", "leaks", "old_oil"})


def neighbours_swapped(case: Case) -> Iterator[Mutant]:
    """Two neighbouring steps stand the wrong way round although one rests on the other."""
    steps = worked_steps(case)
    for (first, one), (second, other) in pairwise(steps):
        apart = shares_nothing(case.procedure, one, other)
        if not apart and not dependent(case.procedure, one, other):
            continue
        yield Mutant(
            what=f"{one['id']} and {other['id']} swapped",
            procedure=swapped(case.procedure, first, second),
            steps=frozenset({str(one["id"]), str(other["id"])}),
            things=frozenset(thing for step in (one, other) for move in moves_of(step) for thing in acted_on(move)),
            same="the two steps share no thing, place, clock or wait" if apart else "",
        )


def prepared_too_late(case: Case) -> Iterator[Mutant]:
    """A preparation is made just after the step that it was to prepare."""
    for spot in worked_moves(case, *_PREPARES):
        if set(spot.things) & _AFTERWARDS:
            continue
        anchor = _first_that_asks(case, spot)
        if anchor is not None:
            yield made_elsewhere(case, spot, after=anchor)


def _first_that_asks(case: Case, spot: Spot) -> str | None:
    """Return the first later step that asks for what a move prepares."""
    for index, step in worked_steps(case):
        if index > spot.index and asks_for(case.procedure, step) & set(spot.things):
            return str(step["id"])
    return None


OPERATORS: tuple[Operator, ...] = (neighbours_swapped, prepared_too_late)
