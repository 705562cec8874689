"""`twomarks due`: what is due, with the most likely date and the window around it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, kept_vehicle_option
from twomarks.cli.said import Script, Speaker, Terminal
from twomarks.words import Figure, Reader, say

if TYPE_CHECKING:
    import datetime as dt

    from twomarks.keeping.questions import Outlook
    from twomarks.planning.due import DueItem
    from twomarks.planning.usage import History, UsageForecast

__all__ = ["due", "say_counter", "say_due"]


@click.command()
@kept_vehicle_option
@asks
def due(asking: Asking, vehicle: str | None) -> None:
    """Say what is due on one vehicle, or on all, with reasons.

    An item is before its window, in its window, past its limit, or not known; the window holds the day eight times
    out of ten.
    """
    scope = asking.scope()
    from twomarks.keeping import questions

    today = asking.today()
    names = tuple([questions.vehicle(scope, vehicle).name] if vehicle else [one.name for one in questions.vehicles(scope)])
    reader = questions.reader(scope)

    def found() -> dict[str, Outlook]:
        return {name: questions.outlook(scope, name, today) for name in names}

    form, work_out = ("json", _as_json) if asking.as_json else ("text", _as_text)
    answer = questions.kept_answer(
        scope, f"due {form}", lambda: work_out(found(), today, reader), today=today, about=vehicle or "", further=(repr(reader), *names)
    )
    if asking.as_json:
        click.echo(answer)
    else:
        Terminal(reader).speak(answer)


def _as_json(found: dict[str, Outlook], today: dt.date, reader: Reader) -> str:
    from twomarks.exchange.answers.due import DueAnswer, DueVehicle, counter_said, due_item_said

    rows = tuple(
        DueVehicle(
            vehicle=name,
            odometer=counter_said(seen.history, seen.forecast, reader),
            items=tuple(due_item_said(item, reader) for item in seen.due),
        )
        for name, seen in found.items()
    )
    return DueAnswer(on=today, vehicles=rows).model_dump_json(indent=2, exclude_none=True)


def _as_text(found: dict[str, Outlook], today: dt.date, _reader: Reader) -> str:
    script = Script()
    if not found:
        script.line(say("answer.no_vehicle"), indent=0)
    for name, seen in found.items():
        script.heading("answer.vehicle_on", vehicle=name, day=today)
        say_counter(script, seen.history, seen.forecast)
        general = not seen.sheet.items
        if general:
            script.line(say("answer.general"))
        say_due(script, seen.due, general=general)
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


def say_due(terminal: Speaker, items: tuple[DueItem, ...], *, reasons: bool = True, settles: bool = True, general: bool = False) -> None:
    """Write a list of due items, each with its window; the reasons and what would settle the rest where they are wanted.

    Items of `general` practice go by the names that they are asked about under.
    """
    if not items:
        terminal.line(say("answer.no_items"))
    for item in items:
        key = "answer.due_bare" if item.likely is None else "answer.due_day" if item.opens == item.closes else "answer.due_window"
        state = say(f"answer.state_{item.state.replace(' ', '_')}")
        name = say(f"general.{item.item}") if general else item.name
        terminal.line(say(key, item=name, state=state, likely=item.likely, opens=item.opens, closes=item.closes))
        if reasons:
            terminal.lines(item.reasons)
        if settles:
            terminal.lines(say("answer.settles", what=what) for what in item.settles)
