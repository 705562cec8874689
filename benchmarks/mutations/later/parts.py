"""What goes wrong with parts and pans: a part of another number or kind, a pan that is not where the fluid comes."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import Row, inserted, listed, place_of, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_FILTERS = ("spin-on", "cartridge", "element")


def another_part(case: Case) -> Iterator[Mutant]:
    """What is fitted is the part of another slot: the air filter's number for the oil filter's, a ring of another joint."""
    if not case.item:
        return
    slots = case.sheet.get("slots", {})
    for spot in worked_moves(case, "fit"):
        for thing in spot.things:
            key = case.roles.get(thing, "")
            if key not in slots:
                continue
            for other, part in slots.items():
                if other == key or _family(part) != _family(slots[key]):
                    continue
                item = case.sheet["items"][case.item]
                changed = {**item, "roles": {**item.get("roles", {}), thing: other}}
                yield Mutant(
                    what=f"{spot.move['id']} fits {other} as {thing}",
                    sheet={**case.sheet, "items": {**case.sheet["items"], case.item: changed}},
                    steps=frozenset({spot.step}),
                    things=frozenset({thing}),
                    paths=frozenset({f"items.{case.item}.roles.{thing}"}),
                )


def _family(slot: Row) -> str:
    """Return what somebody could take a part for: one filter for another, one seal for another."""
    return "filter" if slot.get("kind") in _FILTERS else str(slot.get("kind", ""))


def pan_gone(case: Case) -> Iterator[Mutant]:
    """The pan has been drawn away, to look or to pour, when fluid comes again."""
    for spot in worked_moves(case, "loosen", "drain", "remove"):
        placed = [one for one in worked_moves(case, "place") if "pan" in one.things and (one.index, one.number) < (spot.index, spot.number)]
        step = case.procedure["steps"][spot.index]
        role = case.procedure.get("roles", {}).get(next(iter(spot.things), ""), {})
        owner = case.procedure.get("roles", {}).get(role.get("of"), {}).get("kind")
        wet = spot.action == "drain" or (owner in ("circuit", "slot") and place_of(step, spot.move) == "under")
        if not placed or not wet or listed(step.get("first")):
            continue
        gone = {"id": "pan-away", "action": "take_away", "thing": "pan", "place": "under", "words": "Draw the pan away."}
        yield Mutant(
            what=f"pan drawn away before {spot.step}",
            procedure=inserted(case.procedure, gone, before=spot.step),
            steps=frozenset({spot.step, "pan-away"}),
            things=frozenset({"pan", *spot.things}),
            copies={"pan-away": spot.step},
        )


OPERATORS: tuple[Operator, ...] = (another_part, pan_gone)
