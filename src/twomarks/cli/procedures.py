"""`twomarks procedures`: the list of procedures, or one of them as numbered steps."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, is_file, vehicle_option
from twomarks.cli.procedure_steps import ReadCaution, ReadStep, bound_to, plainly, unbound
from twomarks.cli.said import Terminal
from twomarks.words import Reader, Wording, say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from twomarks.exchange.answers.procedures import CautionSaid, ProcedureAnswer, StepSaid
    from twomarks.exchange.answers.said import Said
    from twomarks.keeping.scope import Scope
    from twomarks.model.procedure import Procedure
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.planning.help_call import HelpCall

__all__ = ["procedures"]


@click.command()
@click.argument("key", metavar="[KEY|FILE]", required=False)
@vehicle_option
@asks
def procedures(asking: Asking, key: str | None, vehicle: str | None) -> None:
    """List the procedures, or show one as numbered steps.

    With --vehicle the steps carry the figures of that vehicle's sheet; without, the names of the figures. The key
    when-it-goes-wrong shows the short branches for when something goes wrong and for when somebody is hurt, whom to
    call first; each of them has a key of its own.
    """
    from twomarks.cli.gone_wrong import branch_named, show_branches
    from twomarks.cli.written import known_procedures, procedure_named, scope_if_any

    scope = asking.scope() if vehicle is not None and not is_file(vehicle) else scope_if_any(asking)
    known = known_procedures(scope)
    sheet: VehicleSheet | None = None
    reader = Reader()
    if scope is not None:
        from twomarks.keeping import questions

        reader = questions.reader(scope)
        if vehicle is not None and not is_file(vehicle):
            sheet = questions.sheet(scope, vehicle)
    if is_file(vehicle):
        from twomarks.cli.unkept import sheet_in

        sheet = sheet_in(Path(vehicle or ""))
    branches = branch_named(key) if key is not None and key not in known else ()
    if key is None:
        _list(asking, known, reader)
    elif branches:
        show_branches(asking, branches, _help(scope), reader)
    else:
        _show(asking, procedure_named(key, known), sheet, reader)


def _help(scope: Scope | None) -> HelpCall:
    from twomarks.planning.help_call import HelpCall

    if scope is None:
        return HelpCall()
    from twomarks.keeping import questions

    return questions.help_call(scope)


def _list(asking: Asking, known: Mapping[str, Procedure], reader: Reader) -> None:
    from twomarks.procedures.library import library, library_keys

    shipped = {key for key in known if key in library_keys() and known[key] == library()[key]}
    if asking.as_json:
        from twomarks.exchange.answers.procedures import ProcedureSaid, ProceduresAnswer
        from twomarks.exchange.answers.said import said

        rows = tuple(
            ProcedureSaid(
                key=key, title=one.title, purpose=said(plainly(one.purpose, one), reader), steps=len(one.steps), library=key in shipped
            )
            for key, one in known.items()
        )
        Terminal.json(ProceduresAnswer(on=asking.today(), procedures=rows))
        return
    terminal = Terminal(reader)
    for key, one in known.items():
        terminal.heading("procedures_answer.listed", name=key, title=one.title, steps=len(one.steps))
        terminal.line(plainly(one.purpose, one))
        if key not in shipped:
            terminal.line(say("procedures_answer.own"))
    terminal.heading("wrong.pointer", command="twomarks procedures when-it-goes-wrong")


def _show(asking: Asking, procedure: Procedure, sheet: VehicleSheet | None, reader: Reader) -> None:
    if sheet is None:
        hazards, steps = unbound(procedure)
    else:
        item = next((key for key, one in sheet.items.items() if one.procedure == procedure.key), None)
        hazards, steps = bound_to(procedure, sheet, item)
    name = sheet.name if sheet is not None else ""
    if asking.as_json:
        Terminal.json(_answer(asking.today(), procedure, name, hazards, steps, reader))
        return
    terminal = Terminal(reader)
    terminal.heading("procedures_answer.head", title=procedure.title, vehicle=name)
    terminal.line(plainly(procedure.purpose, procedure))
    terminal.line(say("procedures_answer.first"))
    for hazard in hazards:
        _caution(terminal, hazard, indent=2)
    for step in steps:
        _step(terminal, step)


def _caution(terminal: Terminal, caution: ReadCaution, *, indent: int) -> None:
    terminal.line(say(f"procedures_answer.{caution.signal}", words=caution.words), indent=indent, mark="!")


def _step(terminal: Terminal, step: ReadStep) -> None:
    for caution in step.cautions:
        _caution(terminal, caution, indent=2)
    words = say("procedures_answer.only", condition=step.condition, words=step.words) if step.condition else step.words
    terminal.line(words, mark=f"{step.number}.")
    if step.look:
        terminal.line(step.look, indent=5)
    for part, found in (("accept", step.accept), ("reject", step.reject)):
        if found:
            terminal.line(say(f"procedures_answer.{part}", words=found), indent=5)


def _answer(
    on: dt.date, procedure: Procedure, vehicle: str, hazards: tuple[ReadCaution, ...], steps: tuple[ReadStep, ...], reader: Reader
) -> ProcedureAnswer:
    from twomarks.exchange.answers.procedures import CautionSaid, ProcedureAnswer, StepSaid
    from twomarks.exchange.answers.said import said

    def perhaps(words: Wording | None) -> Said | None:
        return said(words, reader) if words else None

    def cautions(found: tuple[ReadCaution, ...]) -> tuple[CautionSaid, ...]:
        return tuple(CautionSaid(signal=one.signal, words=said(one.words, reader)) for one in found)  # type: ignore[arg-type]

    def step_said(step: ReadStep) -> StepSaid:
        return StepSaid(
            number=step.number,
            step=step.id,
            action=step.action,
            words=said(step.words, reader),
            cautions=cautions(step.cautions),
            condition=perhaps(step.condition),
            look=perhaps(step.look),
            accept=perhaps(step.accept),
            reject=perhaps(step.reject),
        )

    return ProcedureAnswer(
        on=on,
        key=procedure.key,
        title=procedure.title,
        purpose=said(plainly(procedure.purpose, procedure), reader),
        vehicle=vehicle,
        hazards=cautions(hazards),
        steps=tuple(step_said(step) for step in steps),
    )
