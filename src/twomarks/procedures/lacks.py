"""What a sheet lacks for one procedure: each figure with where it is usually found, the worst to miss first."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.model.procedure import Fluid, Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import BoundStep, Lack
from twomarks.procedures.sheet_facts import GROUPS, figure_of, part_of
from twomarks.words import Message, Wording, say

__all__ = ["FACTS_OF_FLUID", "HARM_OF_FACT", "WHERE_FOUND", "facts_of_circuit", "lacks_of"]

FACTS_OF_FLUID: Mapping[Fluid, tuple[str, ...]] = {
    "engine oil": ("refill_with_filter", "accepts", "between_marks", "settle"),
    "gearbox oil": ("refill", "accepts"),
    "transfer case oil": ("refill", "accepts"),
    "axle oil": ("refill", "accepts", "limited_slip"),
    "coolant": ("refill", "accepts", "mixture"),
    "brake fluid": ("refill", "accepts", "order"),
    "diesel fuel": (),
}
"""The facts of a circuit that a job on it wants, by what is in it."""

HARM_OF_FACT: Mapping[str, str] = {
    "torque": "damage",
    "turn": "damage",
    "refill_with_filter": "damage",
    "refill": "damage",
    "accepts": "damage",
    "limited_slip": "damage",
    "mixture": "damage",
    "order": "omission",
    "between_marks": "omission",
    "numbers": "omission",
    "count": "damage",
    "drive": "omission",
    "sizes": "omission",
    "settle": "advice",
}
"""The grade of missing a fact: what is at stake when it is guessed."""

WHERE_FOUND: Mapping[str, str] = {
    "torque": "procedure.find_workshop",
    "turn": "procedure.find_filter_print",
    "refill_with_filter": "procedure.find_handbook",
    "refill": "procedure.find_handbook",
    "limited_slip": "procedure.find_axle_plate",
    "mixture": "procedure.find_handbook",
    "order": "procedure.find_workshop",
    "accepts": "procedure.find_handbook",
    "between_marks": "procedure.find_measure",
    "numbers": "procedure.find_parts_counter",
    "count": "procedure.find_parts_counter",
    "drive": "procedure.find_stamped",
    "sizes": "procedure.find_stamped",
    "settle": "procedure.find_handbook",
}
"""Where each fact is usually found."""

_ORDER = ("harm", "damage", "omission", "advice")


def facts_of_circuit(procedure: Procedure, name: str) -> tuple[str, ...]:
    """Return the facts of a circuit that a procedure wants; none where it neither lets it out nor fills it."""
    moves = (move for step in procedure.steps for move in step.moves)
    worked = any(move.action in ("drain", "pour", "bleed") and name in move.acted_on for move in moves)
    return FACTS_OF_FLUID[procedure.roles[name].fluid] if worked else ()


def lacks_of(procedure: Procedure, sheet: VehicleSheet, roles: Mapping[str, str], steps: tuple[BoundStep, ...]) -> tuple[Lack, ...]:
    """Return what `sheet` lacks for these steps, ordered by what is at stake."""
    found: dict[str, Lack] = {}
    for name, role in procedure.roles.items():
        if name in roles or role.optional:
            continue
        key = f"{GROUPS.get(role.kind, role.kind)}.{role.usual or name}"
        what = say("procedure.lack_role", role=Wording(role.name))
        found[key] = Lack(path=key, what=what, where_to_find=_where("", role.kind), grade="damage")
    for move in (move for step in steps for move in step.moves):
        fact = move.amount_path.rpartition(".")[2]
        if move.action == "tighten" and fact in HARM_OF_FACT and move.amount is None:
            name = move.things[0]
            tightened = Wording(procedure.roles[name].name if name in procedure.roles else name)
            found.setdefault(move.amount_path, _lack(move.amount_path, tightened, fact))
    for name, fact in _wanted(procedure):
        role = procedure.roles[name]
        part = part_of(sheet, role.kind, roles[name]) if name in roles else None
        blocks = fact == "accepts" and bool(getattr(part, "accepts", ()))
        if part is not None and figure_of(part, fact) is None and not blocks:
            path = f"{GROUPS[role.kind]}.{roles[name]}.{fact}"
            found.setdefault(path, _lack(path, Wording(role.name), fact))
    return tuple(sorted(found.values(), key=lambda lack: _ORDER.index(lack.grade)))


def _where(fact: str, kind: str) -> Message:
    return say(WHERE_FOUND.get(fact, "procedure.find_parts_counter" if kind == "slot" else "procedure.find_handbook"))


def _lack(path: str, role: Wording, fact: str) -> Lack:
    what = say("procedure.lack_fact", role=role, fact=say(f"procedure.fact_{fact}"))
    return Lack(path=path, what=what, where_to_find=_where(fact, ""), grade=HARM_OF_FACT[fact])


def _wanted(procedure: Procedure) -> tuple[tuple[str, str], ...]:
    wanted: list[tuple[str, str]] = []
    for name, role in procedure.roles.items():
        facts: tuple[str, ...] = ()
        if role.kind == "circuit":
            facts = facts_of_circuit(procedure, name)
        elif role.kind == "fastening":
            facts = ("drive",) if role.of and procedure.roles[role.of].kind == "circuit" else ()
        elif role.kind == "slot":
            facts = ("numbers",)
        wanted.extend((name, fact) for fact in facts)
    return tuple(wanted)
