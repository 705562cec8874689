"""The correct jobs: every procedure that ships, bound to every invented vehicle that it fits, with a kit that does."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from benchmarks.mutations.mutant import Case, Document
from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.model.writing import new_text
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Bound, Choices
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.kit import Kit, WrenchRange
from twomarks.procedures.library import library, procedure_text
from twomarks.procedures.rehearsal import Rehearsal, rehearse

__all__ = ["VEHICLES", "Job", "correct_jobs", "kit_with", "loaded", "played", "sheet_of"]

VEHICLES = ("alder", "hazel", "rowan")
"""The vehicles of the demo household: a petrol car, a diesel van with a particulate filter, an older 4x4 with a transfer case."""

OTHER_FILTER = "with the other filter"
"""What follows the name of a vehicle that takes its oil filter from another, so that every filter is tried on all three."""

AMPLE_L = 40.0
WRENCHES = ((1.0, 6.0), (5.0, 25.0), (20.0, 110.0), (60.0, 320.0))
"""A kit that reaches every torque of the demo household [N·m]."""
_OIL_ITEM = "engine_oil_and_filter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A correct job as documents, as it is bound, and what its rehearsal says."""

    case: Case
    bound: Bound
    correct: Rehearsal


@cache
def tables_of(name: str) -> Document:
    """Return a vehicle sheet as it stands in its file: of the demo household, or one of these with the other oil filter."""
    whose = name.removesuffix(OTHER_FILTER).strip()
    tables = tomllib.loads(packaged.text(f"demo/files/{whose}.toml"))
    return tables if whose == name else _with_other_filter(tables, tables_of("hazel" if whose != "hazel" else "alder"))


def _with_other_filter(sheet: Document, other: Document) -> Document:
    """Return `sheet` with the oil filter of `other`, all that belongs to it, and the procedure that it takes."""
    slots = {"oil_filter", "filter_o_rings"}
    joints = {"oil_filter", "filter_cap"}
    item = other["items"][_OIL_ITEM]
    roles = {name: key for name, key in item["roles"].items() if key in slots | joints} | {"drain_plug": "engine_oil_drain"}
    own = {name: value for name, value in sheet["items"][_OIL_ITEM].items() if name != "roles"}
    made = {
        **sheet,
        "name": f"{sheet['name']} {OTHER_FILTER}",
        "slots": _exchanged(sheet["slots"], other["slots"], slots),
        "fastenings": _exchanged(sheet["fastenings"], other["fastenings"], joints),
        "items": {**sheet["items"], _OIL_ITEM: {**own, "procedure": item["procedure"], "roles": roles}},
    }
    return {name: value for name, value in made.items() if name != "id"}


def _exchanged(own: Document, other: Document, keys: set[str]) -> dict[str, Any]:
    return {key: part for key, part in own.items() if key not in keys} | {key: part for key, part in other.items() if key in keys}


@cache
def sheet_of(name: str) -> VehicleSheet:
    """Return a vehicle sheet as it is read from its file."""
    return load_as(VehicleSheet, new_text(tables_of(name)), where=name)


def correct_jobs() -> Iterator[Job]:
    """Yield every procedure of the library on every vehicle that it fits."""
    for key, procedure in library().items():
        others = [f"{name} {OTHER_FILTER}" for name in VEHICLES] if procedure.applies.filter else []
        for name in (*VEHICLES, *others):
            items = [item for item, one in sheet_of(name).items.items() if one.procedure == key]
            for item in items or [""]:
                job = correct_job(key, name, item)
                if job is not None:
                    yield job


@cache
def correct_job(key: str, name: str, item: str) -> Job | None:
    """Return the procedure `key` on the vehicle `name`, bound for the service item `item`; None where it does not fit."""
    procedure, sheet = library()[key], sheet_of(name)
    bound = played(procedure, sheet, item)
    if not _fits(procedure, sheet, bound):
        return None
    case = Case(
        procedure=tomllib.loads(procedure_text(key)),
        sheet=tables_of(name),
        vehicle=sheet,
        worked=tuple(dict.fromkeys(step.step.id for step in bound.steps)),
        roles=bound.roles,
        item=item,
    )
    return Job(case=case, bound=bound, correct=rehearse(bound, kit_with({})))


def _fits(procedure: Procedure, sheet: VehicleSheet, bound: Bound) -> bool:
    if procedure.applies.fuel and sheet.engine.fuel not in procedure.applies.fuel:
        return False
    needed = [name for name, role in procedure.roles.items() if role.kind == "circuit" and not role.optional]
    if any(name not in bound.roles for name in needed):
        return False
    asked = procedure.applies.filter
    kinds = [sheet.slots[bound.roles[name]].kind for name in bound.filters if name in bound.roles]
    return not asked or kinds == [asked]


def played(procedure: Procedure, sheet: VehicleSheet, item: str) -> Bound:
    """Return a procedure bound to a sheet as it is for a day's work, with the pour plan of the circuit it fills."""
    circuits = [name for name, role in procedure.roles.items() if role.kind == "circuit"]
    named = sheet.items[item].roles if item else {}
    circuit = next((named.get(name) or procedure.roles[name].usual or name for name in circuits), "engine_oil")
    return bind(procedure, sheet, item=item or None, choices=Choices(oil_name="Example", pour=pour_plan(sheet, circuit)))


def kit_with(changes: Document) -> Kit:
    """Return a kit that does, with what an operator changed in it."""
    known: dict[str, Any] = {"pan_l": AMPLE_L, "waste_room_l": AMPLE_L, "wrenches_nm": WRENCHES, "product": "meets", **changes}
    ranges = known.pop("wrenches_nm")
    return Kit(**known, wrenches=tuple(WrenchRange(low_nm=low, high_nm=high) for low, high in ranges))


def loaded(kind: type[Any], document: Document, where: str) -> Any:
    """Return a changed document as it is read from its file."""
    return load_as(kind, new_text(document), where=where)
