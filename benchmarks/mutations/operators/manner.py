"""How something is done: by feel where a figure is asked for, in one go where it takes two."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import Spot, with_fields, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def by_feel(case: Case) -> Iterator[Mutant]:
    """Something is tightened by hand, by feel or to a figure that nobody names."""
    for spot in worked_moves(case, "tighten"):
        if spot.move.get("manner") == "to figure":
            yield _done(case, spot, "by hand", manner="by hand", amount=None)
            yield _done(case, spot, "by feel", manner=None, amount=None)
            yield _done(case, spot, "to no figure", amount=None)


def wrong_manner(case: Case) -> Iterator[Mutant]:
    """An engine is run or warmed, a fluid poured or bled, a pedal pressed in another manner than the one that does it."""
    for spot in worked_moves(case, "run_engine", "warm", "pour", "bleed", "prime", "press", "drive"):
        for field in ("manner", "pace", "amount"):
            if spot.move.get(field):
                yield _done(case, spot, f"without its {field}", **{field: None})


def _done(case: Case, spot: Spot, how: str, **fields: str | None) -> Mutant:
    return Mutant(
        what=f"{spot.move['id']} {how}",
        procedure=with_fields(case.procedure, spot, **fields),
        steps=frozenset({spot.step}),
        things=frozenset(spot.things),
    )


OPERATORS: tuple[Operator, ...] = (by_feel, wrong_manner)
