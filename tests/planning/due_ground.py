"""An invented vehicle with one item, and steady use, for the tests of what is due."""

from __future__ import annotations

import datetime as dt
from typing import Any

from twomarks import units
from twomarks.model.ledger import Measurement, Reading
from twomarks.model.loading import load_as
from twomarks.model.vehicle import VehicleSheet
from twomarks.planning.due import Done, DueItem, due_items
from twomarks.planning.usage import forecast, judge
from twomarks.planning.usage.forecast import UsageForecast
from twomarks.words import Reader, keys, render

__all__ = ["TODAY", "ago", "measured", "one", "sheet", "steady", "told"]

TODAY = dt.date(2026, 3, 1)
HEAD = """format = "twomarks/vehicle/1"
id = "7d7f2e9e-6b0e-4a3c-9a53-1a8a5d3f0c11"
name = "Invented"
kind = "car"
[engine]
fuel = "petrol"
"""
ITEM = """[items.oil]
name = "Oil and filter"
source = "handbook: p. 9"
"""


def ago(days: int) -> dt.date:
    return TODAY - dt.timedelta(days=days)


def sheet(item: str, *, head: str = "") -> VehicleSheet:
    return load_as(VehicleSheet, HEAD + head + ITEM + item, where="test")


def steady(*, km: float = 60_000, daily: float = 40.0, months: int = 24, last: dt.date = TODAY) -> UsageForecast:
    readings = [
        Reading(day=last - dt.timedelta(days=30 * i), steps=round((km - daily * 30 * i) * 1000), number=months - i) for i in range(months)
    ]
    return forecast(judge(readings, today=TODAY), today=TODAY)


def measured(
    value: float, days_ago: int, *, kind: str = "length", place: str = "", number: int = 1, km: float | None = None
) -> Measurement:
    return Measurement(
        day=ago(days_ago),
        vehicle="Invented",
        item="oil",
        place=place,
        kind=kind,
        steps=units.steps(value, kind=kind),
        odometer_steps=None if km is None else units.steps(km, kind="distance"),
        number=number,
    )


def one(item: str, done: Done | None = None, *, head: str = "", use: UsageForecast | None = None, **known: Any) -> DueItem:
    """Return the one item of the vehicle, after looking that every sentence about it can be said."""
    last = {} if done is None else {"oil": done}
    (due,) = due_items(sheet(item, head=head), done=last, forecast=use or steady(), today=TODAY, **known)
    for message in (*due.reasons, *due.settles):
        assert message.key in keys()
        assert "{" not in render(message, Reader())
        assert "?" not in render(message, Reader())
    return due


def told(due: DueItem) -> list[str]:
    return [message.key for message in due.reasons]
