"""A procedure bound and rehearsed as a command asks for it: kept or from a file, with the day's choices where they are known."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from twomarks.cli.chosen import chosen_vehicle, refuse_unknown_item
from twomarks.cli.options import Asking, is_file
from twomarks.words import Message, Reader, say

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.procedure import Procedure
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.procedures.bound import Bound
    from twomarks.procedures.rehearsal import Rehearsal

__all__ = ["Played", "misfits_of", "played"]


@dataclass(frozen=True, slots=True)
class Played:
    """A bound procedure, what its rehearsal says, and who reads."""

    bound: Bound
    rehearsal: Rehearsal
    reader: Reader


def played(asking: Asking, procedure: str, vehicle: str | None, item: str | None) -> Played:
    """Return the procedure (a key or a file) played on the vehicle (a name or a file), with the roles of a service item."""
    from twomarks.cli.written import known_procedures, procedure_named

    scope = None if is_file(vehicle) else asking.scope()
    asked = procedure_named(procedure, known_procedures(scope))
    if scope is None:
        from twomarks.cli.unkept import sheet_in

        sheet, reader = sheet_in(Path(vehicle or "")), Reader()
    else:
        from twomarks.keeping import questions

        sheet, reader = questions.sheet(scope, chosen_vehicle(scope, vehicle)), questions.reader(scope)
    refuse_unknown_item(sheet, item)
    if item is None:
        item = next((key for key, one in sheet.items.items() if one.procedure == asked.key), None)
    bound, found = _prepared(scope, sheet, asked, item, asking.today()) or _alone(scope, sheet, asked, item)
    return Played(bound, found, reader)


def _prepared(
    scope: Scope | None, sheet: VehicleSheet, procedure: Procedure, item: str | None, today: dt.date
) -> tuple[Bound, Rehearsal] | None:
    """Return the rehearsal with the oil, the pour plan and the kit of the day, where this is the work that is prepared."""
    if scope is None or item is None or sheet.items[item].procedure != procedure.key:
        return None
    from twomarks.keeping import questions

    if questions.procedures(scope).get(procedure.key) != procedure:
        return None
    job = questions.prepare(scope, sheet.name, today, item=item).job
    return job.bound, job.rehearsal


def _alone(scope: Scope | None, sheet: VehicleSheet, procedure: Procedure, item: str | None) -> tuple[Bound, Rehearsal]:
    from twomarks.procedures.binding import bind
    from twomarks.procedures.bound import Choices
    from twomarks.procedures.facts import pour_plan
    from twomarks.procedures.rehearsal import rehearse

    plan = pour_plan(sheet) if "oil" in procedure.roles else None
    bound = bind(procedure, sheet, item=item, choices=Choices(pour=plan))
    if scope is None:
        return bound, rehearse(bound)
    from twomarks.keeping import questions
    from twomarks.planning.preparation import kit_of

    return bound, rehearse(bound, kit_of(questions.shelf(scope), questions.cans(scope)))


def misfits_of(bound: Bound) -> tuple[Message, ...]:
    """Return why the procedure is not meant for this vehicle: another fuel, another kind of filter."""
    meant, sheet = bound.procedure.applies, bound.sheet
    told = []
    if meant.fuel and sheet.engine.fuel not in meant.fuel:
        told.append(say("rehearse_answer.other_fuel", found=sheet.engine.fuel, expected=meant.fuel))
    filters = tuple(dict.fromkeys(slot.kind for slot in sheet.slots.values() if slot.kind in ("spin-on", "cartridge")))
    if meant.filter and filters and meant.filter not in filters:
        told.append(say("rehearse_answer.other_filter", found=filters, expected=meant.filter))
    return tuple(told)
