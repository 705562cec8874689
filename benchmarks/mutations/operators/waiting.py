"""Waits cut short: oil that has not run out, oil that has not run back."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import with_fields, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_SHORT = ("5 s", "20 s", "45 s", None)


def too_short_a_wait(case: Case) -> Iterator[Mutant]:
    """A fluid is not given the time that it needs to run out, to run back or to run through."""
    for spot in worked_moves(case, "drain", "wait", "run_engine", "bleed"):
        if not spot.move.get("wait"):
            continue
        for short in _SHORT:
            yield Mutant(
                what=f"{spot.move['id']} waits {short or 'not at all'}",
                procedure=with_fields(case.procedure, spot, wait=short),
                steps=frozenset({spot.step}),
                things=frozenset(spot.things),
            )


OPERATORS: tuple[Operator, ...] = (too_short_a_wait,)
