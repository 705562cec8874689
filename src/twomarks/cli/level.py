"""`twomarks level`: a reading on the stick is kept, and answered with what to add or take out."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from twomarks import units
from twomarks.cli.chosen import chosen_vehicle, nearest
from twomarks.cli.options import Asking, asks, day_type, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.cli.stick import advice, rise_since, stick_reading
from twomarks.cli.typed import odometer_steps
from twomarks.errors import InputError
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["level"]

ENGINE_OIL = "engine_oil"
LONGEST_MIN = 100_000


@click.command()
@click.argument("reading")
@kept_vehicle_option
@click.option("--circuit", metavar="KEY", default=ENGINE_OIL, show_default=True, help="Which circuit was read.")
@click.option("--minutes-since-stop", type=click.IntRange(0, LONGEST_MIN), metavar="MINUTES", help="How long the engine had stood.")
@click.option("--odometer", metavar="READING", help='The odometer at the check: "148210 km"; kept as a reading as well.')
@click.option("--day", type=day_type, metavar="DATE", help="The day of the check; left out, today.")
@asks
def level(
    asking: Asking,
    reading: str,
    vehicle: str | None,
    circuit: str,
    minutes_since_stop: int | None,
    odometer: str | None,
    day: dt.date | None,
) -> None:
    """Keep a reading on the dipstick, and say what to add for it.

    READING is where the oil stands between the marks: 1/2, 0.5 or 50% is halfway, 0 the lower mark, 1 the upper one;
    or only "below" or "above". Read it on level ground, with the oil run down, wiped and read twice.
    """
    scope = asking.scope()
    from twomarks.keeping import questions
    from twomarks.keeping.services.levels import record_level_check
    from twomarks.keeping.services.readings import record_reading
    from twomarks.model.ledger import LevelCheck, Reading
    from twomarks.procedures.facts import pour_plan
    from twomarks.procedures.sheet_facts import figure_of, part_of

    today, reader = asking.writing_day(), questions.reader(scope)
    name = chosen_vehicle(scope, vehicle)
    sheet = questions.sheet(scope, name)
    _refuse_unknown_circuit(sheet, circuit)
    read = stick_reading(reading, decimal=reader.decimal)
    on = day or today
    steps = None if odometer is None else odometer_steps(odometer, sheet=sheet, reader=reader)
    part = part_of(sheet, "circuit", circuit)
    span = figure_of(part, "between_marks")
    rows = pour_plan(sheet, circuit).after_run
    soon = _too_soon(sheet, circuit, minutes_since_stop)
    told = advice(read, rows, span=span, too_soon=soon)
    rose = rise_since(questions.daybook(scope, name), read, circuit)
    if steps is not None:
        record_reading(scope, name, Reading(day=on, steps=steps, text=odometer or ""), today=today)
    check = LevelCheck(
        day=on, circuit=circuit, permille=read.permille, minutes_since_stop=minutes_since_stop, odometer_steps=steps, text=read.typed
    )
    kept = record_level_check(scope, name, check, today=today)
    what = (*((rose,) if rose else ()), *told.what, *_cautions(sheet, circuit, run_down=minutes_since_stop is not None))
    if asking.as_json:
        from twomarks.exchange.answers.level import LevelAnswer
        from twomarks.exchange.answers.prepare import AddRowSaid
        from twomarks.exchange.answers.said import said

        answer = LevelAnswer(
            on=today,
            vehicle=name,
            circuit=circuit,
            day=on,
            reading=read.fraction,
            typed=read.typed,
            exact=not read.side,
            add_l=told.add_l,
            start=told.start,
            then=told.then,
            what=tuple(said(one, reader) for one in what),
            table=tuple(AddRowSaid(reading=row.reading_fraction, add_l=row.add_l, start=row.start) for row in rows),
            rose=rose is not None,
            number=kept.number,
            root=str(kept.root),
        )
        Terminal.json(answer)
        return
    terminal = Terminal(reader)
    terminal.line(say("level_answer.kept", vehicle=name, day=on, typed=read.typed), indent=0)
    terminal.lines(what, indent=2)


def _settle(sheet: VehicleSheet, circuit: str) -> Figure:
    """Return how long the oil runs down before it is read: the sheet's own figure, else common practice."""
    from twomarks.procedures.practice import PRACTICE
    from twomarks.procedures.sheet_facts import figure_of, part_of

    return figure_of(part_of(sheet, "circuit", circuit), "settle") or PRACTICE["settle"]


def _too_soon(sheet: VehicleSheet, circuit: str, minutes: int | None) -> Message | None:
    settle = _settle(sheet, circuit)
    if minutes is None or minutes >= units.in_unit(float(settle.value), unit=settle.unit, to="min"):
        return None
    return say("level_answer.too_soon", wait=settle)


def _cautions(sheet: VehicleSheet, circuit: str, *, run_down: bool) -> list[Message]:
    """Return the cautions of a reading: whether the oil had run down, and what may go in."""
    from twomarks.procedures.sheet_facts import figure_of, part_of

    holds = figure_of(part_of(sheet, "circuit", circuit), "holds")
    told = [] if run_down else [say("level_answer.settle_unsaid", wait=_settle(sheet, circuit))]
    told.append(say("level_answer.holds", label=holds) if holds else say("level_answer.holds_unknown"))
    told.append(say("level_answer.handbook"))
    return told


def _refuse_unknown_circuit(sheet: VehicleSheet, circuit: str) -> None:
    if circuit != ENGINE_OIL and circuit not in sheet.circuits:
        known = tuple(dict.fromkeys((ENGINE_OIL, *sheet.circuits)))
        raise InputError("level_answer.circuit", where="--circuit", found=circuit, nearest=nearest(circuit, known), expected=known)
