"""`twomarks import`: readings and documents from files."""

from __future__ import annotations

import sys
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.group import LazyGroup
from twomarks.cli.options import Asking, asks, kept_vehicle_option, read_file
from twomarks.cli.said import Terminal
from twomarks.errors import InputError
from twomarks.words import Reader, render, say

if TYPE_CHECKING:
    pass

__all__ = ["imports"]

SHOWN = 20
_VERBS = {
    "readings": ("twomarks.cli.imports:readings", "Odometer readings from any table of dates and readings."),
    "vehicle": ("twomarks.cli.imports:vehicle", "A vehicle sheet (TOML)."),
    "document": ("twomarks.cli.imports:document", "A shelf list, a procedure or a climate record (TOML)."),
}


@click.group(cls=LazyGroup, name="import", lazy=_VERBS)
def imports() -> None:
    """Bring in readings or documents from files; nothing is half-saved."""


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@kept_vehicle_option
@click.option("--unit", metavar="UNIT", help="Unit of the readings (km, mi, m, h); left out, by the column's name, else the vehicle's own.")
@click.option("--date-column", metavar="NAME", help="Column of the dates; a number where there is no header.")
@click.option("--reading-column", metavar="NAME", help="Column of the readings; a number where there is no header.")
@click.option("--only", metavar="COLUMN=VALUE", help="Take only the rows of one vehicle out of a file of several.")
@asks
def readings(
    asking: Asking, file: Path, vehicle: str | None, unit: str | None, date_column: str | None, reading_column: str | None, only: str | None
) -> None:
    """Bring in the odometer readings of FILE, faults and all.

    Doubtful readings are kept, flagged with the reason and left out of the forecast until you confirm them in the pages.
    """
    data = read_file(file)
    if only is not None and "=" not in only:
        raise InputError("cli.column_value", where="--only", found=only, example="bus=a-17")
    scope = asking.scope()
    from twomarks.cli.chosen import chosen_vehicle
    from twomarks.exchange.readings_file import read_readings
    from twomarks.keeping import questions
    from twomarks.keeping.services.readings import record_readings

    today = asking.today()
    chosen = chosen_vehicle(scope, vehicle)
    counter = questions.sheet(scope, chosen).counters.get("odometer")
    column, _, value = (only or "").partition("=")
    with _progress() as progress:
        found = read_readings(
            data,
            where=str(file),
            default_unit=counter.unit if counter else "km",
            unit=unit,
            day_column=date_column,
            reading_column=reading_column,
            only=(column, value) if only else None,
            progress=progress,
        )
        recorded = record_readings(scope, chosen, found.readings)
    judged = questions.history(scope, chosen, today)
    reader = questions.reader(scope)
    if asking.as_json:
        from twomarks.exchange.answers.imports import ImportAnswer, import_said

        Terminal.json(ImportAnswer(on=today, **import_said(chosen, found, recorded, judged, reader)))
        return
    terminal = Terminal(reader)
    terminal.line(
        say("import.done", file=str(file), rows=found.rows, count=recorded.count, skipped=recorded.skipped, blank=found.blank), indent=0
    )
    terminal.lines(found.faults[:SHOWN])
    terminal.line(say("import.judged", vehicle=chosen, used=judged.used, flagged=len(judged.flags)), indent=0)
    terminal.lines([say("import.flag", day=flag.reading.day, text=flag.reading.text, reason=flag.reason) for flag in judged.flags[:SHOWN]])
    if len(judged.flags) > SHOWN or len(found.faults) > SHOWN:
        terminal.line(say("import.more", count=max(len(judged.flags), len(found.faults)) - SHOWN))


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--mine/--theirs", "mine", default=None, help="Your own sheet, or another owner's; left out, it is asked, else theirs.")
@asks
def vehicle(asking: Asking, file: Path, mine: bool | None) -> None:
    """Bring in a vehicle sheet.

    \b
    --mine    a new vehicle, or a new revision of one whose id is known; its sources and confirmations are kept
    --theirs  a new vehicle with an id of its own: every fact is told by another owner, and none is confirmed
    """
    if mine is None and sys.stdin.isatty() and sys.stderr.isatty():
        mine = click.confirm(render(say("import.whose"), Reader()), default=False, err=True)
    _keep(asking, file, only="vehicle", theirs=not mine)


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@asks
def document(asking: Asking, file: Path) -> None:
    """Bring in a document of your own: a shelf list, a procedure or a climate record."""
    _keep(asking, file, only="", theirs=False)


def _keep(asking: Asking, file: Path, *, only: str, theirs: bool) -> None:
    from twomarks.model.loading import kind_of, load_bytes

    data = read_file(file)
    loaded = load_bytes(data, where=str(file))
    if only and kind_of(loaded) != only:
        raise InputError("import.other_kind", where=str(file), found=loaded.format, expected=f"twomarks/{only}/1")
    scope = asking.scope(found=True)
    from twomarks.keeping import questions
    from twomarks.keeping.services.documents import save_document

    text = data.decode("utf-8-sig")
    if theirs:
        from twomarks.model.theirs import as_told

        text = as_told(text, uuid.uuid4(), where=str(file))
        loaded = load_bytes(text.encode(), where=str(file))
    revision = save_document(scope, text, where=str(file))
    reader = questions.reader(scope)
    unsourced = loaded.unsourced if hasattr(loaded, "unsourced") else ()
    if asking.as_json:
        from twomarks.exchange.answers.imports import DocumentAnswer

        Terminal.json(
            DocumentAnswer(
                on=asking.today(),
                kind=revision.kind,
                name=revision.name,
                id=str(revision.document),
                revision=revision.number,
                sha256=revision.sha256,
                unsourced=unsourced,
            )
        )
        return
    terminal = Terminal(reader)
    if theirs:
        terminal.line(say("import.theirs"), indent=0)
    terminal.line(say("import.kept", name=revision.name, kind=revision.kind, revision=revision.number, id=str(revision.document)), indent=0)
    if unsourced:
        terminal.line(say("import.unsourced", count=len(unsourced)), indent=0)
        terminal.lines(unsourced[:SHOWN])


@contextmanager
def _progress() -> Iterator[Callable[[int, int], None] | None]:
    """Show a bar on a terminal while rows are read; nowhere else."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("")

        def progress(done: int, total: int) -> None:
            bar.update(task, completed=done, total=total)

        yield progress
