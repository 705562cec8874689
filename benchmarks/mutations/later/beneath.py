"""What goes wrong beneath a vehicle: hands under it before it stands, the way down while somebody is there, a key at hand."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import place_of, worked_moves
from benchmarks.mutations.elsewhere import made_elsewhere
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def beneath_too_soon(case: Case) -> Iterator[Mutant]:
    """Something is done under the vehicle before it was raised, set on its stands or shaken."""
    below = [spot for spot in worked_moves(case) if place_of(case.procedure["steps"][spot.index], spot.move) == "under"]
    lifts = list(worked_moves(case, "support", "shake"))
    for spot in {one.step: one for one in below}.values():
        before = [one for one in lifts if one.index < spot.index]
        for anchor in {one.step: one for one in before[-2:]}.values():
            yield made_elsewhere(case, spot, before=anchor.step)


def let_down_too_soon(case: Case) -> Iterator[Mutant]:
    """The vehicle is let down while there is still something to do under it."""
    below = [spot for spot in worked_moves(case) if place_of(case.procedure["steps"][spot.index], spot.move) == "under"]
    for spot in worked_moves(case, "lower"):
        before = list({one.step: one for one in below if one.index < spot.index}.values())
        for anchor in before[-6:]:
            yield made_elsewhere(case, spot, before=anchor.step)


def key_about(case: Case) -> Iterator[Mutant]:
    """The key is in the vehicle while somebody has hands where the engine moves or is under the vehicle."""
    risky = [
        spot
        for spot in worked_moves(case)
        if place_of(case.procedure["steps"][spot.index], spot.move) == "under" or set(spot.things) & {"belt", "hoses"}
    ]
    steps = list({one.step: one for one in risky}.values())
    for spot in worked_moves(case, "take_away", "place"):
        if "key" not in spot.things:
            continue
        if spot.action == "take_away":
            for anchor in [one for one in steps if one.index > spot.index][:4]:
                yield made_elsewhere(case, spot, after=anchor.step)
        else:
            for anchor in [one for one in steps if one.index < spot.index][-4:]:
                yield made_elsewhere(case, spot, before=anchor.step)


OPERATORS: tuple[Operator, ...] = (beneath_too_soon, let_down_too_soon, key_about)
