"""What is done to the wrong thing: another part of the same kind, a plug of another unit, a spot that is not the one meant."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchmarks.mutations.edits import Spot, listed, with_fields, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_GROUPS = {"circuit": "circuits", "fastening": "fastenings", "slot": "slots"}
_OTHER_SPOT = {"drain plug": "filter", "filter": "drain plug"}


def wrong_thing(case: Case) -> Iterator[Mutant]:
    """A move is made on another part of the same kind that the procedure also names."""
    roles = case.procedure.get("roles", {})
    for spot in worked_moves(case):
        for field in ("thing", "things", "through"):
            for named in listed(spot.move.get(field)):
                for other, role in roles.items():
                    if named in roles and other != named and role["kind"] == roles[named]["kind"] and other not in spot.things:
                        yield _exchanged(case, spot, field, named, other)


def _exchanged(case: Case, spot: Spot, field: str, named: str, other: str) -> Mutant:
    present = spot.move[field]
    changed = [other if one == named else one for one in present] if isinstance(present, list) else other
    return Mutant(
        what=f"{spot.move['id']} on {other} instead of {named}",
        procedure=with_fields(case.procedure, spot, **{field: changed}),
        steps=frozenset({spot.step}),
        things=frozenset({named, other}),
    )


def part_of_another_circuit(case: Case) -> Iterator[Mutant]:
    """A role is taken for a part of another circuit of the vehicle: the plug of the gearbox for that of the engine."""
    if not case.item:
        return
    for name, key in case.roles.items():
        role = case.procedure["roles"][name]
        group = case.sheet.get(_GROUPS.get(role["kind"], ""), {})
        for other, part in group.items():
            taken = other in case.roles.values() or (role["kind"] == "fastening" and not part.get("circuit"))
            if role["kind"] == "slot" or taken or part.get("circuit", other) == group[key].get("circuit", key):
                continue
            item = case.sheet["items"][case.item]
            changed = {**item, "roles": {**item.get("roles", {}), name: other}}
            yield Mutant(
                what=f"{name} taken for {other}",
                sheet={**case.sheet, "items": {**case.sheet["items"], case.item: changed}},
                things=frozenset({name}),
                paths=frozenset({f"items.{case.item}.roles.{name}"}),
            )


def wrong_spot(case: Case) -> Iterator[Mutant]:
    """Where or how something is placed, raised or chocked is left out, or is not the spot that is meant."""
    for spot in worked_moves(case):
        present = listed(spot.move.get("at"))
        for one in present:
            rest = [other for other in present if other != one]
            idle = one == "outdoors" and _never_runs(case)
            yield replace(_placed(case, spot, f"not {one}", rest), same="the engine never runs" if idle else "")
            if one in _OTHER_SPOT:
                yield _placed(case, spot, f"at {_OTHER_SPOT[one]} instead of {one}", [*rest, _OTHER_SPOT[one]])


def _never_runs(case: Case) -> bool:
    return not any(True for _ in worked_moves(case, "warm", "run_engine"))


def _placed(case: Case, spot: Spot, how: str, at: list[str]) -> Mutant:
    return Mutant(
        what=f"{spot.move['id']} {how}",
        procedure=with_fields(case.procedure, spot, at=at or None),
        steps=frozenset({spot.step}),
        things=frozenset(spot.things),
    )


OPERATORS: tuple[Operator, ...] = (wrong_thing, part_of_another_circuit, wrong_spot)
