"""Leads and plugs in the order that burns or strands: positive before negative, drain plug before fill plug."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from benchmarks.mutations.edits import Spot, alone, between, inserted, moves_of, with_fields, without_moves, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def leads_the_wrong_way_round(case: Case) -> Iterator[Mutant]:
    """The leads of a battery are taken off, or put back, in the other order."""
    for action in ("disconnect", "connect"):
        spots = [spot for spot in worked_moves(case, action) if spot.move.get("thing")]
        for one, other in combinations(spots, 2):
            if one.move["thing"] == other.move["thing"]:
                continue
            changed = with_fields(case.procedure, one, thing=other.move["thing"])
            yield Mutant(
                what=f"{action}: {other.move['thing']} before {one.move['thing']}",
                procedure=with_fields(changed, other, thing=one.move["thing"]),
                steps=frozenset({one.step, other.step}),
                things=frozenset({*one.things, *other.things}),
            )


def fill_plug_after_drain_plug(case: Case) -> Iterator[Mutant]:
    """A unit is drained before its fill plug was proved to come out."""
    roles = case.procedure.get("roles", {})
    for drain in worked_moves(case, "drain"):
        circuit = next((thing for thing in drain.things if roles.get(thing, {}).get("kind") == "circuit"), "")
        plug = str(drain.move.get("through", ""))
        others = {name for name, role in roles.items() if role.get("of") == circuit and role["kind"] == "fastening" and name != plug}
        spots = [one for one in worked_moves(case, "loosen", "remove", "open") if set(one.things) & others and one.index < drain.index]
        opened = [one for one in worked_moves(case, "loosen", "remove") if plug in one.things and one.index <= drain.index]
        for anchor in {spot.step: spot for spot in (*opened, drain)}.values():
            late = [spot for spot in spots if spot.index < anchor.index]
            if late:
                yield _after(case, late, anchor)


def _after(case: Case, late: list[Spot], anchor: Spot) -> Mutant:
    procedure = without_moves(case.procedure, late)
    copies, after = {}, anchor.step
    for spot in late:
        whole = len(moves_of(case.procedure["steps"][spot.index])) == 1
        name = spot.step if whole else f"{spot.move['id']}-late"
        made = dict(alone(case.procedure, spot, name=name))
        made.pop("during", None)
        procedure = inserted(procedure, made, after=after)
        after = name
        if not whole:
            copies[name] = spot.step
    return Mutant(
        what=f"{', '.join(str(spot.move['id']) for spot in late)} only after {anchor.step}",
        procedure=procedure,
        steps=between(case.procedure, late[0], anchor.step) | set(copies),
        things=frozenset(thing for spot in late for thing in spot.things),
        copies=copies,
    )


OPERATORS: tuple[Operator, ...] = (leads_the_wrong_way_round, fill_plug_after_drain_plug)
