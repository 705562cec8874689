"""`twomarks rehearse`: a written procedure is played on a model of the vehicle."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, vehicle_option
from twomarks.cli.played import misfits_of, played
from twomarks.cli.said import Terminal
from twomarks.words import Reader, say

if TYPE_CHECKING:
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
    done = played(asking, procedure, vehicle, item)
    bound, found, reader, today = done.bound, done.rehearsal, done.reader, asking.today()
    numbers = {step.id: number for number, step in reversed(list(enumerate(bound.steps, start=1)))}
    if asking.as_json:
        from twomarks.exchange.answers.rehearse import rehearse_answer

        Terminal.json(rehearse_answer(today, bound, found, numbers, reader, misfits=misfits_of(bound)))
    else:
        _say(bound, found, numbers, reader)
    return OPEN_FINDINGS if found.worst in _SERIOUS else 0


def _say(bound: Bound, found: Rehearsal, numbers: dict[str, int], reader: Reader) -> None:
    terminal = Terminal(reader)
    terminal.heading("rehearse_answer.head", title=bound.procedure.title, vehicle=bound.sheet.name)
    for misfit in misfits_of(bound):
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
