"""`twomarks due`: what is due, with the most likely date and the window around it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, day_type, kept_vehicle_option
from twomarks.cli.said import Script, Speaker, Terminal
from twomarks.words import Figure, Reader, say

if TYPE_CHECKING:
    import datetime as dt

    from twomarks.keeping.questions import Outlook
    from twomarks.model.ledger import Snag
    from twomarks.planning.due import DueItem
    from twomarks.planning.usage import History, UsageForecast

__all__ = ["due", "say_counter", "say_due", "say_snags"]


@click.command()
@kept_vehicle_option
@click.option("--by", type=day_type, metavar="DATE", help="Also say how likely each item is to be past its limit by this day.")
@asks
def due(asking: Asking, vehicle: str | None, by: dt.date | None) -> None:
    """Say what is due on one vehicle, or on all, with reasons.

    An item is before its window, in its window, past its limit, or not known; the window holds the day eight times
    out of ten. What was noticed and is still open stands above it.
    """
    scope = asking.scope()
    from twomarks.keeping import questions

    today = asking.today()
    names = tuple([questions.vehicle(scope, vehicle).name] if vehicle else [one.name for one in questions.vehicles(scope)])
    reader = questions.reader(scope)

    def found() -> dict[str, Seen]:
        return {name: Seen(questions.outlook(scope, name, today), questions.snags(scope, name), by) for name in names}

    form, work_out = ("json", _as_json) if asking.as_json else ("text", _as_text)
    answer = questions.kept_answer(
        scope,
        f"due {form}",
        lambda: work_out(found(), today, reader),
        today=today,
        about=vehicle or "",
        further=(repr(reader), str(by), *names),
    )
    if asking.as_json:
        click.echo(answer)
    else:
        Terminal(reader).speak(answer)


@dataclass(frozen=True, slots=True)
class Seen:
    """A vehicle, what is open on it, and the day that was asked about."""

    outlook: Outlook
    snags: tuple[Snag, ...]
    by: dt.date | None


def _as_json(found: dict[str, Seen], today: dt.date, reader: Reader) -> str:
    from twomarks.exchange.answers.due import DueAnswer, DueVehicle, counter_said, due_item_said, snag_said

    rows = tuple(
        DueVehicle(
            vehicle=name,
            odometer=counter_said(seen.outlook.history, seen.outlook.forecast, reader),
            snags=tuple(snag_said(snag) for snag in seen.snags),
            stated_use={**seen.outlook.sheet.use.stated, **seen.outlook.stated},
            items=tuple(due_item_said(item, reader, by=seen.by) for item in seen.outlook.due),
        )
        for name, seen in found.items()
    )
    return DueAnswer(on=today, by=next((seen.by for seen in found.values()), None), vehicles=rows).model_dump_json(
        indent=2, exclude_none=True
    )


def _as_text(found: dict[str, Seen], today: dt.date, _reader: Reader) -> str:
    script = Script()
    if not found:
        script.line(say("answer.no_vehicle"), indent=0)
    for name, seen in found.items():
        script.heading("answer.vehicle_on", vehicle=name, day=today)
        say_snags(script, seen.snags)
        say_counter(script, seen.outlook.history, seen.outlook.forecast)
        general = not seen.outlook.sheet.items
        if general:
            script.line(say("answer.general"))
        say_due(script, seen.outlook.due, general=general, drives=True, by=seen.by)
    return script.text()


def say_counter(terminal: Speaker, history: History, forecast: UsageForecast) -> None:
    """Write where the counter probably stands, and what its readings were worth."""
    spread = forecast.spread_on(forecast.today)
    if spread is None:
        terminal.line(say("answer.no_reading", daily=forecast.daily_km))
        return
    unit = forecast.unit
    wide = spread.low < spread.high
    terminal.line(
        say(
            "answer.counter" if history.used > 1 else "answer.counter_one",
            likely=Figure(spread.likely, unit),
            low=Figure(spread.low, unit) if wide else None,
            high=Figure(spread.high, unit) if wide else None,
            daily=forecast.daily_km,
            used=history.used,
            flagged=len(history.flags) or None,
            last=forecast.last_day,
            basis=forecast.basis,
        )
    )


def say_snags(terminal: Speaker, snags: tuple[Snag, ...]) -> None:
    """Write what was noticed and is open, the worst first."""
    for snag in snags:
        key = f"answer.snag_{snag.how_bad.replace(' ', '_')}"
        terminal.line(say(key, what=snag.what, where=snag.where or None, day=snag.day, number=snag.number))


def say_due(
    terminal: Speaker,
    items: tuple[DueItem, ...],
    *,
    reasons: bool = True,
    settles: bool = True,
    general: bool = False,
    drives: bool = False,
    by: dt.date | None = None,
) -> None:
    """Write a list of due items, each with its window; the reasons and what would settle the rest where they are wanted.

    `drives` adds which limit comes first and what is left of it, `by` the chance that one has been passed by that day.

    Items of `general` practice go by the names that they are asked about under.
    """
    from twomarks.planning.due.said import what_drives

    if not items:
        terminal.line(say("answer.no_items"))
    for item in items:
        key = "answer.due_bare" if item.likely is None else "answer.due_day" if item.opens == item.closes else "answer.due_window"
        state = say(f"answer.state_{item.state.replace(' ', '_')}")
        name = say(f"general.{item.item}") if general else item.name
        terminal.line(say(key, item=name, state=state, likely=item.likely, opens=item.opens, closes=item.closes))
        if drives and (driven := what_drives(item)) is not None:
            terminal.line(driven, indent=4)
        if by is not None and (chance := item.chance_by(by)) is not None:
            terminal.line(say("answer.chance_by", chance=Figure(100 * chance, "%"), day=by), indent=4)
        if reasons:
            terminal.lines(item.reasons)
        if settles:
            terminal.lines(say("answer.settles", what=what) for what in item.settles)
