"""`twomarks rehearse`: a written procedure is played on a model of the vehicle."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.chosen import chosen_vehicle, refuse_unknown_item
from twomarks.cli.options import Asking, asks, is_file, vehicle_option
from twomarks.cli.said import Terminal
from twomarks.words import Message, Reader, say

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.procedure import Procedure
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.procedures.bound import Bound
    from twomarks.procedures.rehearsal import Rehearsal

__all__ = ["rehearse"]

OPEN_FINDINGS = 1
_SERIOUS = ("harm", "damage")


@click.command()
@click.argument("procedure", metavar="PROCEDURE|FILE")
@vehicle_option
@click.option("--item", metavar="KEY", help="The service item whose roles hold; left out, the one that names the procedure.")
@asks
def rehearse(asking: Asking, procedure: str, vehicle: str | None, item: str | None) -> int:
    """Play a written procedure on a model of the vehicle, and say what comes to light at which step.

    PROCEDURE is a key (see: twomarks procedures) or a file. Nothing needs to be kept where procedure and vehicle sheet
    come from files or the library. The exit code is 1 where a person or the vehicle could come to harm, else 0.
    """
    from twomarks.cli.written import known_procedures, procedure_named

    scope = None if is_file(vehicle) else asking.scope()
    played = procedure_named(procedure, known_procedures(scope))
    today = asking.today()
    if scope is None:
        from twomarks.cli.unkept import sheet_in

        sheet, reader = sheet_in(Path(vehicle or "")), Reader()
    else:
        from twomarks.keeping import questions

        sheet, reader = questions.sheet(scope, chosen_vehicle(scope, vehicle)), questions.reader(scope)
    refuse_unknown_item(sheet, item)
    if item is None:
        item = next((key for key, one in sheet.items.items() if one.procedure == played.key), None)
    bound, found = _prepared(scope, sheet, played, item, today) or _played(scope, sheet, played, item)
    numbers = {step.id: number for number, step in reversed(list(enumerate(bound.steps, start=1)))}
    if asking.as_json:
        from twomarks.exchange.answers.rehearse import rehearse_answer

        Terminal.json(rehearse_answer(today, bound, found, numbers, reader, misfits=_misfits(bound)))
    else:
        _say(bound, found, numbers, reader)
    return OPEN_FINDINGS if found.worst in _SERIOUS else 0


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


def _played(scope: Scope | None, sheet: VehicleSheet, procedure: Procedure, item: str | None) -> tuple[Bound, Rehearsal]:
    from twomarks.procedures.binding import bind
    from twomarks.procedures.bound import Choices
    from twomarks.procedures.facts import pour_plan
    from twomarks.procedures.rehearsal import rehearse as played

    plan = pour_plan(sheet) if "oil" in procedure.roles else None
    bound = bind(procedure, sheet, item=item, choices=Choices(pour=plan))
    if scope is None:
        return bound, played(bound)
    from twomarks.keeping import questions
    from twomarks.planning.preparation import kit_of

    return bound, played(bound, kit_of(questions.shelf(scope), questions.cans(scope)))


def _misfits(bound: Bound) -> tuple[Message, ...]:
    """Return why the procedure is not meant for this vehicle: another fuel, another kind of filter."""
    meant, sheet = bound.procedure.applies, bound.sheet
    told = []
    if meant.fuel and sheet.engine.fuel not in meant.fuel:
        told.append(say("rehearse_answer.other_fuel", found=sheet.engine.fuel, expected=meant.fuel))
    filters = tuple(dict.fromkeys(slot.kind for slot in sheet.slots.values() if slot.kind in ("spin-on", "cartridge")))
    if meant.filter and filters and meant.filter not in filters:
        told.append(say("rehearse_answer.other_filter", found=filters, expected=meant.filter))
    return tuple(told)


def _say(bound: Bound, found: Rehearsal, numbers: dict[str, int], reader: Reader) -> None:
    terminal = Terminal(reader)
    terminal.heading("rehearse_answer.head", title=bound.procedure.title, vehicle=bound.sheet.name)
    for misfit in _misfits(bound):
        terminal.line(misfit, mark="!")
    terminal.line(say("rehearse_answer.found", count=len(found.findings)))
    for one in found.findings:
        terminal.heading(
            "rehearse_answer.finding",
            grade=say(f"prepare.grade_{one.grade}"),
            basis=say(f"prepare.basis_{one.basis.replace(' ', '_')}"),
            rule=say(f"rule.{one.rule}_name"),
            number=numbers.get(one.step),
            step=one.step,
        )
        for part, message in (("expected", one.expected), ("came", one.found), ("why", say(f"rule.{one.rule}_why")), ("do", one.remedy)):
            terminal.line(say(f"rehearse_answer.{part}", what=message))
    if bound.lacks:
        terminal.heading("rehearse_answer.lacks")
        terminal.lines((say("rehearse_answer.lack", what=one.what, where=one.where_to_find) for one in bound.lacks), indent=2)
    for part, messages in (("checked", found.checked), ("rests_on", found.rests_on), ("not_seen", found.not_seen)):
        if messages:
            terminal.heading(f"rehearse_answer.{part}")
            terminal.lines(messages, indent=2)
