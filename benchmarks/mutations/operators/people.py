"""What protects the one who works: what the vehicle stands on, what keeps it there, gloves and glasses."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchmarks.mutations.edits import (
    Spot,
    alone,
    between,
    inserted,
    listed,
    with_fields,
    without_moves,
    without_thing,
    worked_moves,
    worked_steps,
)
from benchmarks.mutations.elsewhere import made_elsewhere
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_SUPPORTS = ("raise", "support", "shake")
_CHOCKED = {"chock": ("chocks",)}


def bare_skin(case: Case) -> Iterator[Mutant]:
    """Gloves or glasses are not put on, or only after the work for which they were meant."""
    for spot in worked_moves(case, "wear"):
        for thing in spot.things:
            procedure = without_thing(case.procedure, spot, thing)
            here: dict[str, Any] = {"steps": frozenset({spot.step}), "things": frozenset({thing})}
            yield Mutant(what=f"{thing} not worn at {spot.move['id']}", procedure=procedure, **here)
            wet = worked_moves(case, "loosen", "drain", "remove", "pour", "disconnect", "bleed")
            for after in {one.step: one for one in wet}.values():
                if after.index <= spot.index or after.step == spot.step:
                    continue
                name = f"{spot.move['id']}-late"
                kept = {
                    field: value for field, value in alone(case.procedure, spot, name=name).items() if field not in ("things", "during")
                }
                yield Mutant(
                    what=f"{thing} put on only after {after.step}",
                    procedure=inserted(procedure, {**kept, "thing": thing}, after=after.step),
                    steps=between(case.procedure, spot, after.step) | {name},
                    things=here["things"],
                    copies={name: spot.step},
                )


def not_supported(case: Case) -> Iterator[Mutant]:
    """Somebody goes beneath a vehicle that a jack alone holds, that nobody shook, or that nothing was put under in time."""
    spots = list(worked_moves(case, *_SUPPORTS))
    for lift in (spot for spot in spots if spot.action == "raise"):
        until = next((one.index for one in spots if one.action == "raise" and one.index > lift.index), 10**6)
        group = [one for one in spots if lift.index <= one.index < until]
        for what, actions in (("no stands", ("support",)), ("no stands, no shake", ("support", "shake")), ("not shaken", ("shake",))):
            gone = [one for one in group if one.action in actions]
            if gone:
                yield _without(case, f"{what} after {lift.step}", gone)
        for spot in (one for one in group if one.action in ("support", "shake")):
            yield from _too_late(case, spot)


def rolls(case: Case) -> Iterator[Mutant]:
    """Chocks, parking brake, gear or range lever are forgotten altogether, undone too soon or done on one side alone."""
    for thing in ("chocks", "brake", "gear", "range_lever", "air_suspension"):
        held = [
            spot for spot in worked_moves(case, "chock", "secure") if thing in spot.things or (thing == "chocks" and spot.action == "chock")
        ]
        if held:
            yield _without(case, f"{thing} never seen to", held, thing)
    for spot in worked_moves(case, "chock", "secure"):
        for place in listed(spot.move.get("at")):
            rest = [one for one in listed(spot.move.get("at")) if one != place]
            yield Mutant(
                what=f"{spot.move['id']} not on {place}",
                procedure=with_fields(case.procedure, spot, at=rest or None),
                steps=frozenset({spot.step}),
                things=frozenset({*spot.things, "chocks"}),
            )
    for spot in worked_moves(case, "take_away"):
        if "chocks" in spot.things:
            yield from _too_soon(case, spot)


def _without(case: Case, what: str, gone: list[Spot], thing: str = "") -> Mutant:
    procedure = case.procedure
    whole = [spot for spot in gone if len(spot.things) == 1 or not thing]
    for spot in gone:
        if spot not in whole:
            procedure = without_thing(procedure, spot, thing)
    return Mutant(
        what=what,
        procedure=without_moves(procedure, whole) if whole else procedure,
        steps=frozenset(spot.step for spot in gone),
        things=frozenset({thing} if thing else {one for spot in gone for one in spot.things}),
    )


def _too_late(case: Case, spot: Spot) -> Iterator[Mutant]:
    """Yield the move made only after each of the next steps that are worked under the vehicle."""
    below = [step for index, step in worked_steps(case) if index > spot.index and step.get("place") == "under"]
    for anchor in below[:3]:
        yield made_elsewhere(case, spot, after=str(anchor["id"]))


def _too_soon(case: Case, spot: Spot) -> Iterator[Mutant]:
    """Yield the chocks taken away before each step that lets the vehicle down."""
    for lower in worked_moves(case, "lower"):
        yield made_elsewhere(case, spot, before=lower.step)


OPERATORS: tuple[Operator, ...] = (bare_skin, not_supported, rolls)
