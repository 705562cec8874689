"""`twomarks due`: what is due, with the most likely date and the window around it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, vehicle_option
from twomarks.cli.said import Terminal
from twomarks.words import Figure, say

if TYPE_CHECKING:
    from twomarks.planning.due import DueItem
    from twomarks.planning.usage import History, UsageForecast

__all__ = ["due", "say_counter", "say_due"]


@click.command()
@vehicle_option
@asks
def due(asking: Asking, vehicle: str | None) -> None:
    """Say what is due on one vehicle, or on all, with reasons.

    An item is before its window, in its window, past its limit, or not known; the window holds the day eight times
    out of ten.
    """
    scope = asking.scope()
    from twomarks.keeping import questions

    today = asking.today()
    names = [questions.vehicle(scope, vehicle).name] if vehicle else [one.name for one in questions.vehicles(scope)]
    found = [
        (name, questions.history(scope, name, today), questions.usage(scope, name, today), questions.due(scope, name, today))
        for name in names
    ]
    reader = questions.reader(scope)
    if asking.as_json:
        from twomarks.exchange.answers.due import DueAnswer, DueVehicle, counter_said, due_item_said

        rows = tuple(
            DueVehicle(vehicle=name, odometer=counter_said(judged, use, reader), items=tuple(due_item_said(item, reader) for item in items))
            for name, judged, use, items in found
        )
        Terminal.json(DueAnswer(on=today, vehicles=rows))
        return
    terminal = Terminal(reader)
    if not found:
        terminal.line(say("answer.no_vehicle"), indent=0)
    for name, judged, use, items in found:
        terminal.heading("answer.vehicle_on", vehicle=name, day=today)
        say_counter(terminal, judged, use)
        say_due(terminal, items, reasons=True)


def say_counter(terminal: Terminal, history: History, forecast: UsageForecast) -> None:
    """Write where the counter probably stands, and what its readings were worth."""
    spread = forecast.spread_on(forecast.today)
    if spread is None:
        terminal.line(say("answer.no_reading", daily=forecast.daily_km))
        return
    unit = forecast.unit
    terminal.line(
        say(
            "answer.counter",
            likely=Figure(spread.likely, unit),
            low=Figure(spread.low, unit),
            high=Figure(spread.high, unit),
            daily=forecast.daily_km,
            used=history.used,
            flagged=len(history.flags),
            last=forecast.last_day,
        )
    )


def say_due(terminal: Terminal, items: tuple[DueItem, ...], *, reasons: bool) -> None:
    """Write a list of due items, each with its window, and the reasons where they are wanted."""
    if not items:
        terminal.line(say("answer.no_items"))
    for item in items:
        key = "answer.due_bare" if item.likely is None else "answer.due_day" if item.opens == item.closes else "answer.due_window"
        state = say(f"answer.state_{item.state.replace(' ', '_')}")
        terminal.line(say(key, item=item.name, state=state, likely=item.likely, opens=item.opens, closes=item.closes))
        if reasons:
            terminal.lines((*item.reasons, *item.settles))
