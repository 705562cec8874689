"""`twomarks card`: the job card as a PDF, and starting the workday that freezes it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.chosen import chosen_vehicle, refuse_unknown_item
from twomarks.cli.options import Asking, asks, is_file, vehicle_option
from twomarks.cli.said import Terminal
from twomarks.errors import InputError
from twomarks.words import Figure, Reader, say

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.planning.card import JobCard
    from twomarks.planning.help_call import HelpCall

__all__ = ["card"]


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A card, the id of its workday where it was started, and whether that was before this command."""

    card: JobCard
    reader: Reader
    workday: str = ""
    frozen_before: bool = False
    call: HelpCall | None = None


@click.command()
@vehicle_option
@click.option("--item", metavar="KEY", help="The service item, or walk-round; left out, the first one due that has a procedure.")
@click.option("--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write the card to this file.")
@click.option("--freeze", is_flag=True, help="Start the workday: from now on the card stays as it is.")
@asks
def card(asking: Asking, vehicle: str | None, item: str | None, pdf: Path | None, freeze: bool) -> None:
    """Lay out the job card of the next work, write it as a PDF, or start its workday.

    A card that was started is written as it was frozen. A vehicle of which little is known gets the walk-round; the
    figures that its sheet lacks are empty boxes on the card, to be filled from the handbook where they are seen.
    """
    if pdf is None and not freeze:
        raise InputError("card_answer.what_for", expected="--pdf FILE, --freeze")
    if is_file(vehicle):
        if freeze:
            raise InputError("card_answer.not_kept", where="--freeze", found=vehicle)
        laid_out = _of_file(Path(vehicle or ""), item, asking.today())
        scope = None
    else:
        scope = asking.scope()
        laid_out = _of_kept(scope, chosen_vehicle(scope, vehicle), item, asking.today())
    if pdf is not None:
        _write(pdf, laid_out)
    if freeze and scope is not None and not laid_out.frozen_before:
        from twomarks.keeping.services.workdays import start_workday

        laid_out = replace(laid_out, workday=str(start_workday(scope, laid_out.card).id))
    _answer(asking, laid_out, pdf)


def _of_file(path: Path, item: str | None, today: dt.date) -> LaidOut:
    from twomarks.cli.unkept import prepared, sheet_in

    sheet = sheet_in(path)
    refuse_unknown_item(sheet, item)
    reader = Reader()
    return LaidOut(prepared(sheet, today=today, odometer=None, reader=reader, item=item, stage=lambda _name: None).job.card, reader)


def _of_kept(scope: Scope, name: str, item: str | None, today: dt.date) -> LaidOut:
    from twomarks.keeping import questions

    refuse_unknown_item(questions.sheet(scope, name), item)
    reader = questions.reader(scope)
    laid_out = questions.prepare(scope, name, today, item=item).job.card
    started = next((one for one in questions.workdays(scope) if str(one.card) == laid_out.id), None)
    if started is None:
        return LaidOut(laid_out, reader, call=questions.help_call(scope))
    return LaidOut(questions.card(scope, started.card), reader, str(started.id), frozen_before=True, call=questions.help_call(scope))


def _write(path: Path, laid_out: LaidOut) -> None:
    from twomarks.exchange.written import write_whole
    from twomarks.paper.job_card import job_card_pdf

    write_whole(path, job_card_pdf(laid_out.card, laid_out.reader, laid_out.call))


def _answer(asking: Asking, laid_out: LaidOut, pdf: Path | None) -> None:
    found = laid_out.card
    findings = len(found.findings) + sum(len(step.findings) for step in found.steps)
    boxes = tuple(dict.fromkeys(stub.fact for step in found.steps for stub in step.stubs if stub.figure is None and stub.fact))
    if asking.as_json:
        from twomarks.exchange.answers.card import CardAnswer

        Terminal.json(
            CardAnswer(
                on=asking.today(),
                vehicle=found.vehicle,
                card=found.id,
                title=found.title,
                day=found.day,
                items=found.items,
                steps=len(found.steps),
                gates=len(found.gates),
                active_min=found.active_min,
                elapsed_min=found.elapsed_min,
                findings=findings,
                empty_boxes=boxes,
                pdf="" if pdf is None else str(pdf),
                workday=laid_out.workday,
                frozen_before=laid_out.frozen_before,
            )
        )
        return
    terminal = Terminal(laid_out.reader)
    terminal.heading("card_answer.head", vehicle=found.vehicle, title=found.title, day=found.day)
    terminal.line(
        say(
            "card_answer.steps",
            steps=len(found.steps),
            gates=len(found.gates),
            active=Figure(found.active_min, "min"),
            elapsed=Figure(found.elapsed_min, "min"),
        )
    )
    if findings:
        terminal.line(say("card_answer.findings", count=findings))
    if boxes:
        terminal.line(say("card_answer.boxes", count=len(boxes)))
    if laid_out.workday:
        terminal.line(say("card_answer.frozen_before" if laid_out.frozen_before else "card_answer.started", card=found.id))
    if pdf is not None:
        terminal.line(say("card_answer.written", file=str(pdf)))
