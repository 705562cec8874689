"""A kit that does not do: the pan or the can too small, a tool or a part not there, a wrench that does not reach."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchmarks.mutations.edits import listed, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator
from twomarks.model.procedure import reference

__all__ = ["OPERATORS"]

_SHARES = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)


def too_small(case: Case) -> Iterator[Mutant]:
    """The pan, or the room left in the can for the waste, holds less than what comes out."""
    for spot in worked_moves(case, "drain"):
        for circuit in spot.things:
            part = case.vehicle.circuits.get(case.roles.get(circuit, ""))
            volume = part and (part.refill_with_filter or part.refill_without_filter or part.refill)
            if not volume:
                continue
            for share in _SHARES:
                holds = round(volume.core * share, 2)
                here: dict[str, Any] = {"steps": frozenset({spot.step}), "things": frozenset({circuit, "pan", "waste_can"})}
                yield Mutant(what=f"a pan of {holds} L at {spot.step}", kit={"pan_l": holds}, **here)
                yield Mutant(what=f"room for {holds} L in the can at {spot.step}", kit={"waste_room_l": holds}, **here)


def not_there(case: Case) -> Iterator[Mutant]:
    """A tool or a new part that the procedure asks for is not at hand."""
    used = {tool: spot.step for spot in worked_moves(case) for tool in listed(spot.move.get("tools"))}
    for tool, step in used.items():
        yield Mutant(what=f"{tool} not there", kit={"tools": {tool: False}}, steps=frozenset({step}), things=frozenset({tool}))
    fitted: dict[str, dict[str, str]] = {}
    for spot in worked_moves(case, "fit"):
        for thing in spot.things:
            if spot.move.get("new") and thing in case.roles:
                fitted.setdefault(case.roles[thing], {})[thing] = spot.step
    for key, places in fitted.items():
        where: dict[str, Any] = {"steps": frozenset(places.values()), "things": frozenset({key, *places})}
        yield Mutant(what=f"new {key} not there", kit={"parts": {key: False}}, **where)


def wrench_out_of_range(case: Case) -> Iterator[Mutant]:
    """No torque wrench in the kit has the figure within its range."""
    for spot in worked_moves(case, "tighten"):
        named = reference(str(spot.move.get("amount", "")))
        part = case.vehicle.fastenings.get(case.roles.get(named[0], "")) if named else None
        if part is None or part.torque is None:
            continue
        wanted = part.torque.core
        for low, high in ((1.4, 7.0), (2.0, 10.0), (1.1, 4.0), (5.0, 25.0), (0.1, 0.7), (0.02, 0.3), (0.3, 0.9)):
            rounded = (round(wanted * low, 1), round(wanted * high, 1))
            yield Mutant(
                what=f"wrench of {rounded[0]} to {rounded[1]} N·m at {spot.step}",
                kit={"wrenches_nm": (rounded,)},
                steps=frozenset({spot.step}),
                things=frozenset(spot.things),
            )
        yield Mutant(
            what=f"no torque wrench at {spot.step}",
            kit={"wrenches_nm": ()},
            steps=frozenset({spot.step}),
            things=frozenset(spot.things),
        )


OPERATORS: tuple[Operator, ...] = (too_small, not_there, wrench_out_of_range)
