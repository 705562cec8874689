"""`twomarks demo`: the invented household, the main job done once on real data, and the pages."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import uuid
from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.app.serve import DEFAULT_PORT, free_port, serve_pages
from twomarks.cli.options import day_type
from twomarks.errors import InputError, StorageError

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.ledger import Tick, TickWhat
    from twomarks.planning.card import JobCard

__all__ = ["demo", "own_folder"]

MARK = "demo-household"
FIRST = "Alder"
ITEM = "engine_oil_and_filter"
CARD_FILE = "alder-job-card.pdf"


@click.command()
@click.option("--home", type=click.Path(path_type=Path), metavar="FOLDER", help="Where the demo lives; left out, a folder of its own.")
@click.option("--on", "today", type=day_type, metavar="DATE", help="Take this day for today (YYYY-MM-DD).")
@click.option("--port", type=click.IntRange(1, 65535), default=DEFAULT_PORT, show_default=True, help="The port on this computer.")
@click.option("--no-serve", is_flag=True, help="End after the result.")
def demo(home: Path | None, today: dt.date | None, port: int, no_serve: bool) -> None:
    """Build the invented demo household, do the main job once, print its result, and serve the pages.

    Vehicles, makes, part numbers and places are invented; odometer histories and climate are real open data, shifted
    by whole days so that the last reading lies nine days before today. Your own home is never touched.
    """
    from twomarks.app.opening import open_home
    from twomarks.cli.preparation_said import say_preparation
    from twomarks.cli.said import Terminal
    from twomarks.words import say

    if not no_serve:
        free_port(port)
    folder = own_folder(home)
    opened = open_home(folder)
    from twomarks.demo.household import build_household
    from twomarks.exchange.written import write_whole
    from twomarks.keeping import clock, questions
    from twomarks.paper.job_card import job_card_pdf

    day = today or clock.today()
    scope, shifts = build_household(day)
    reader = questions.reader(scope)
    terminal = Terminal(reader)
    terminal.line(say("demo.built", folder=str(opened.folder)), indent=0)
    for shift in shifts:
        terminal.line(say("demo.shifted", vehicle=shift.vehicle, days=shift.days or None, count=shift.readings), mark="-")
    found = questions.prepare(scope, FIRST, day, item=ITEM)
    say_preparation(terminal, found)
    path = opened.folder / CARD_FILE
    write_whole(path, job_card_pdf(found.job.card, reader))
    terminal.heading("demo.card")
    terminal.line(say("prepare.card_written", file=str(path)))
    _work_and_enter(scope, terminal, day)
    if no_serve:
        return
    serve_pages(opened.folder, port=port, on=day.isoformat() if today else "")


def _work_and_enter(scope: Scope, terminal: object, day: dt.date) -> None:
    """Start the workday, and enter it as if every step had gone as planned."""
    from twomarks.cli.due import say_due
    from twomarks.cli.said import Terminal
    from twomarks.keeping import questions
    from twomarks.keeping.services.ticks import record_ticks
    from twomarks.keeping.services.workdays import start_workday
    from twomarks.keeping.services.worked import Worked, record_work
    from twomarks.words import Figure, say

    assert isinstance(terminal, Terminal)
    found = questions.prepare(scope, FIRST, day, item=ITEM)
    workday = start_workday(scope, found.job.card)
    record_ticks(scope, _every_mark(found.job.card, day))
    spread = found.forecast.spread_on(day)
    assert spread is not None
    metres = round(spread.likely * 1000)
    volume_ml = round(sum(pour.volume_l or 0.0 for pour in found.job.pour.pours) * 1000) if found.job.pour else 0
    oil = found.job.oil
    worked = Worked(
        day=day,
        items=(ITEM,),
        title=found.job.card.title,
        odometer_steps=metres,
        product=oil.key if oil else "",
        volume_in_ml=volume_ml,
        volume_out_ml=volume_ml,
        can="old_oil",
        level_permille=900,
        card=workday.card,
        note="demo",
    )
    kept = record_work(scope, FIRST, worked, today=day)
    terminal.heading("demo.after")
    terminal.line(say("demo.pretended", odometer=Figure(metres / 1000, "km"), volume=Figure(volume_ml / 1000, "L")))
    terminal.line(say("enter.kept", vehicle=FIRST, number=kept.number, chain=kept.chain[:16]))
    for follow_up in questions.follow_ups(scope, FIRST, still_open=True):
        at = None if follow_up.due_odometer_steps is None else Figure(follow_up.due_odometer_steps / 1000, "km")
        terminal.line(say("enter.follow_up", words=follow_up.words, day=follow_up.due_day, at=at), indent=4, mark="-")
    say_due(terminal, tuple(one for one in questions.due(scope, FIRST, day) if one.item == ITEM))


def _every_mark(card: JobCard, day: dt.date) -> list[Tick]:
    """Return the marks of somebody who works the whole card: every question of every gate answered, every step done."""
    from twomarks.model.ledger import Tick

    said: list[tuple[str, TickWhat, str]] = []
    for step in (*card.steps, None):
        for gate in card.gates:
            if gate.before == (step.id if step else ""):
                said += [(gate.id, "answer", f"{number}: so") for number in range(1, len(gate.questions) + 1)]
        if step is not None:
            said.append((step.id, "done", ""))
    own = uuid.UUID(card.id)
    return [
        Tick(day=day, id=uuid.uuid5(own, str(place)), card=own, target=target, what=what, words=words, device="demo", device_sequence=place)
        for place, (target, what, words) in enumerate(said, start=1)
    ]


def own_folder(home: Path | None) -> Path:
    """Return an empty folder, marked as the demo's before anything is built in it.

    A demo that is there already, whole or broken off, is built anew. A folder that the owner named and that holds anything
    else is refused.
    """
    import platformdirs

    place = os.environ.get("TWOMARKS_PLACE")
    folder = home or (Path(place) / "demo" if place else platformdirs.user_data_path("twomarks-demo", appauthor=False))
    try:
        if home is not None and folder.exists() and any(folder.iterdir()) and not (folder / MARK).is_file():
            raise InputError("demo.not_empty", where="--home", found=str(folder))
        if folder.exists():
            shutil.rmtree(folder)
        folder.mkdir(mode=0o700, parents=True)
        (folder / MARK).touch()
    except OSError as error:
        raise StorageError("storage.folder", where=str(folder), found=error.strerror or type(error).__name__) from None
    return folder
