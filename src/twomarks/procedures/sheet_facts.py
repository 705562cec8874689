"""Facts of a vehicle sheet as figures: by role, by part, and the volumes of the circuit at work."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks import units
from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import SORTS, CircuitAtWork, Volumes
from twomarks.procedures.practice import FILTER_HOLDS_L, RESIDUE_L, SPAN_L
from twomarks.words import Figure, Message, Source, say

__all__ = ["GROUPS", "circuits_of", "core_of", "figure_of", "part_of", "torque_nm"]

GROUPS = {"circuit": "circuits", "fastening": "fastenings", "tap": "fastenings", "slot": "slots"}
"""The group of a vehicle sheet in which a role of each kind is found."""

_PRACTICE = Source("practice")


def part_of(sheet: VehicleSheet, kind: str, key: str) -> object | None:
    """Return the part of the sheet called `key` in the group of `kind`, or None."""
    group = GROUPS.get(kind)
    parts: Mapping[str, object] = getattr(sheet, group) if group else {}
    return parts.get(key)


def figure_of(part: object, fact: str) -> Figure | None:
    """Return the fact of a part as a figure with its source, or None where the sheet has none."""
    value = getattr(part, fact, None) if part is not None else None
    if isinstance(value, tuple):
        value = value[0] if value else None
    if value is None or value == "":
        return None
    figure = getattr(value, "figure", None)
    if isinstance(figure, Figure):
        return figure
    return Figure(float(value), "") if isinstance(value, int | float) else Figure(str(value))


def core_of(part: object, fact: str) -> float | None:
    """Return the fact of a part in the core unit of its kind, or None where the sheet has none."""
    value = getattr(part, fact, None) if part is not None else None
    return None if value is None else float(value.core)


def torque_nm(figure: Figure | None) -> float | None:
    """Return a torque in whatever unit its sheet has it [N.m]; None where it is none (a turn, or an empty box)."""
    if figure is None or isinstance(figure.value, str) or figure.unit not in units.UNITS or units.UNITS[figure.unit].kind != "torque":
        return None
    return units.in_unit(float(figure.value), unit=figure.unit, to="N.m")


def circuits_of(sheet: VehicleSheet, roles: Mapping[str, str], procedure: Procedure) -> dict[str, CircuitAtWork]:
    """Return every circuit of the procedure with its volumes and what opens it."""
    found = {}
    for name, role in procedure.roles.items():
        if role.kind != "circuit":
            continue
        owned = {other: part for other, part in procedure.roles.items() if part.of == name}
        filters = frozenset(other for other, part in owned.items() if part.kind == "slot")
        opens = {other: part.serves for other, part in owned.items() if part.kind in ("fastening", "tap")}
        found[name] = CircuitAtWork(
            role=name,
            fluid=role.fluid,
            volumes=_volumes(sheet, roles, name, filters, engine=SORTS[role.fluid] == "engine", followed=_followed(procedure, name)),
            filters=filters,
            drains=tuple(other for other, serves in opens.items() if serves == "drain"),
            fills=tuple(other for other, serves in opens.items() if serves == "fill"),
            bleeds=tuple(other for other, serves in opens.items() if serves == "bleed"),
        )
    return found


def _followed(procedure: Procedure, name: str) -> bool:
    """Return whether the litres of a circuit are let out or poured; of the fuel only water and a filter's worth are."""
    moves = (move for step in procedure.steps for move in step.moves)
    worked = any(move.action in ("drain", "pour", "bleed") and name in move.acted_on for move in moves)
    return worked and procedure.roles[name].fluid != "diesel fuel"


def _volumes(sheet: VehicleSheet, roles: Mapping[str, str], name: str, filters: frozenset[str], *, engine: bool, followed: bool) -> Volumes:
    circuit = part_of(sheet, "circuit", roles[name]) if name in roles else None
    refill_l = core_of(circuit, "refill_with_filter") if filters else core_of(circuit, "refill_without_filter")
    if refill_l is None:
        refill_l = core_of(circuit, "refill")
    defaults: list[Message] = []
    if refill_l is None and followed:
        defaults.append(say("rehearsal.no_refill"))
    if not engine:
        return Volumes(refill_l=refill_l, span_l=0.0, residue_l=0.0, filter_l=0.0, defaults=tuple(defaults))
    span_l = core_of(circuit, "between_marks")
    filter_l = next((core_of(part_of(sheet, "slot", roles[name]), "holds") for name in filters if name in roles), None)
    if span_l is None:
        defaults.append(say("rehearsal.default_span", volume=Figure(SPAN_L, "L", _PRACTICE)))
    defaults.append(say("rehearsal.default_residue", volume=Figure(RESIDUE_L, "L", _PRACTICE)))
    if filter_l is None and filters:
        defaults.append(say("rehearsal.default_filter", volume=Figure(FILTER_HOLDS_L, "L", _PRACTICE)))
    return Volumes(
        refill_l=refill_l,
        span_l=SPAN_L if span_l is None else span_l,
        residue_l=RESIDUE_L,
        filter_l=FILTER_HOLDS_L if filter_l is None else filter_l,
        defaults=tuple(defaults),
    )
