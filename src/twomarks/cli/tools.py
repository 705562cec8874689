"""`twomarks tools`: what a procedure needs on one vehicle: tools, parts, fluids, waste."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, units_option, vehicle_option
from twomarks.cli.played import played
from twomarks.cli.said import Terminal
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.procedures.bound import Bound
    from twomarks.procedures.needs import Needs

__all__ = ["tools"]


@click.command()
@click.argument("procedure", metavar="PROCEDURE|FILE")
@vehicle_option
@click.option("--item", metavar="KEY", help="The service item whose roles hold; left out, the one that names the procedure.")
@units_option
@asks
def tools(asking: Asking, procedure: str, vehicle: str | None, item: str | None, units: str | None) -> None:
    """List the tools, parts and fluids that a procedure needs on one vehicle, the waste it makes, and how long it takes."""
    from twomarks.procedures.needs import needs_of

    done = played(asking, procedure, vehicle, item)
    needs, reader = needs_of(done.bound), done.reader if units is None else Reader.of(units)
    if asking.as_json:
        from twomarks.exchange.answers.text import tools_answer

        Terminal.json(tools_answer(asking.today(), done.bound, needs, reader))
        return
    _say(done.bound, needs, Terminal(reader))


def _say(bound: Bound, needs: Needs, terminal: Terminal) -> None:
    from twomarks.procedures.text_out import needed

    terminal.heading("text_out.needed_for", title=bound.procedure.title, vehicle=bound.sheet.name)
    terminal.lines(needed(bound, needs), indent=2)
