"""A place that does not do: sloping or soft ground, a garage for the engine to run in."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_GROUNDS = ("soft", "slope")


def bad_place(case: Case) -> Iterator[Mutant]:
    """What is known of the place on the day speaks against the work: at each lift the ground, at each run the air."""
    for spot in worked_moves(case, "raise", "support"):
        for ground in _GROUNDS:
            yield _here(spot.step, f"ground: {ground}", "ground", ground)
    for spot in worked_moves(case, "warm", "run_engine"):
        yield _here(spot.step, "in a garage", "air", "garage")


def _here(step: str, what: str, name: str, value: str) -> Mutant:
    return Mutant(what=f"{step} {what}", kit={name: value}, steps=frozenset({step}), things=frozenset({"vehicle"}))


OPERATORS: tuple[Operator, ...] = (bad_place,)
