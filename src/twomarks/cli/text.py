"""`twomarks text`: a procedure with one vehicle's figures as text for other owners, plain or Markdown."""

from __future__ import annotations

import click

from twomarks.cli.options import Asking, asks, units_option, vehicle_option
from twomarks.cli.played import misfits_of, played
from twomarks.cli.said import Terminal
from twomarks.words import Reader

__all__ = ["text"]


@click.command()
@click.argument("procedure", metavar="PROCEDURE|FILE")
@vehicle_option
@click.option("--item", metavar="KEY", help="The service item whose roles hold; left out, the one that names the procedure.")
@click.option("--markdown", is_flag=True, help="Write Markdown instead of plain text.")
@units_option
@asks
def text(asking: Asking, procedure: str, vehicle: str | None, item: str | None, markdown: bool, units: str | None) -> None:
    """Write a procedure out as text, with the figures of one vehicle, their sources, and whether they were confirmed.

    It opens with what readers must check on their own vehicle and closes with what was not verified; whatever a
    rehearsal found that could harm a person or the vehicle stands at its step.
    """
    from twomarks.procedures.text_out import as_text, contents, used_figures

    done = played(asking, procedure, vehicle, item)
    reader = done.reader if units is None else Reader.of(units)
    form = "markdown" if markdown else "plain"
    written = as_text(contents(done.bound, done.rehearsal, misfits_of(done.bound)), reader, form=form)
    if asking.as_json:
        from twomarks.exchange.answers.text import text_answer

        figures = used_figures(done.bound)
        Terminal.json(
            text_answer(asking.today(), done.bound, done.rehearsal, figures, reader, form="markdown" if markdown else "plain", text=written)
        )
        return
    click.echo(written, nl=False)
