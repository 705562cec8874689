"""What goes wrong while filling: all at once where it takes two pours, into the wrong opening, through a cap that is still on."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.dependency import asks_for
from benchmarks.mutations.edits import Spot, with_fields, with_role, without_move, worked_moves, worked_steps
from benchmarks.mutations.elsewhere import made_elsewhere
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_WHOLE = ("refill_with_filter", "refill", "dry_fill")


def two_pours_in_one(case: Case) -> Iterator[Mutant]:
    """The whole refill goes in at once, and what was to be poured after the reading goes in with it or on top of it."""
    pours = list(worked_moves(case, "pour"))
    for first in pours:
        for circuit in first.things:
            part = case.sheet["circuits"].get(case.roles.get(circuit, ""), {})
            later = [one for one in pours if circuit in one.things and one.index > first.index]
            for fact in (fact for fact in _WHOLE if fact in part and first.move.get("amount") != f"{{{circuit}.{fact}}}"):
                whole = with_fields(case.procedure, first, amount=f"{{{circuit}.{fact}}}", manner=None)
                here = {"steps": frozenset({first.step, *(one.step for one in later)}), "things": frozenset({circuit})}
                yield Mutant(what=f"{first.move['id']} pours all of {fact}", procedure=whole, steps=here["steps"], things=here["things"])
                for one in later:
                    yield Mutant(
                        what=f"{first.move['id']} pours all of {fact}, {one.move['id']} not made",
                        procedure=without_move(whole, one),
                        steps=here["steps"],
                        things=here["things"],
                    )


def into_another_circuit(case: Case) -> Iterator[Mutant]:
    """The fluid goes into the opening of another circuit of the vehicle."""
    for spot in worked_moves(case, "pour"):
        for circuit in spot.things:
            for other in case.sheet.get("circuits", {}):
                if other in case.roles.values():
                    continue
                role = {"kind": "circuit", "name": "another circuit", "usual": other, "optional": True}
                yield Mutant(
                    what=f"{spot.move['id']} into {other}",
                    procedure=with_fields(with_role(case.procedure, "other_circuit", role), spot, thing="other_circuit"),
                    steps=frozenset({spot.step}),
                    things=frozenset({circuit, "other_circuit"}),
                )


def opened_too_late(case: Case) -> Iterator[Mutant]:
    """A cap, a cover or the bonnet is opened only after work that goes through it."""
    for spot in worked_moves(case, "open"):
        for anchor in _through(case, spot):
            yield made_elsewhere(case, spot, after=anchor)


def _through(case: Case, spot: Spot) -> list[str]:
    """Return the steps, until it is closed again, that ask for what a move opens; work above asks for the bonnet."""
    closed = [one.index for one in worked_moves(case, "close") if set(one.things) & set(spot.things) and one.index > spot.index]
    until = min(closed, default=10**6)
    later = [step for index, step in worked_steps(case) if spot.index < index < until]
    asking = [step for step in later if asks_for(case.procedure, step) & set(spot.things)]
    above = [step for step in later if "bonnet" in spot.things and step.get("place") == "above"]
    return [str(step["id"]) for step in later if step in asking or step in above]


OPERATORS: tuple[Operator, ...] = (two_pours_in_one, into_another_circuit, opened_too_late)
