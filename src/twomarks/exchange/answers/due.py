"""The answer of `due`: for each vehicle, what is due and the window around it."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, FigureSaid, Part, Said, figure_said, said
from twomarks.planning.due import DueItem, DueState
from twomarks.planning.usage import History, UsageForecast
from twomarks.words import Reader

__all__ = ["CounterSaid", "DueAnswer", "DueItemSaid", "DueVehicle", "counter_said", "due_item_said"]


class CounterSaid(Part):
    """A counter as it was read and as it probably stands."""

    readings_used: int
    readings_flagged: int
    last_read_on: dt.date | None = None
    last_km: float | None = None
    likely_km: float | None = Field(default=None, description="most likely value on the day of the answer")
    low_km: float | None = Field(default=None, description="10 % of the chance lies below")
    high_km: float | None = Field(default=None, description="10 % of the chance lies above")
    daily_km: float
    basis: Said


class DueItemSaid(Part):
    """A service item: its state, its most likely day and the window that holds the day eight times out of ten."""

    item: str
    name: str
    state: DueState
    likely_on: dt.date | None = None
    opens_on: dt.date | None = None
    closes_on: dt.date | None = None
    binds: str = Field(default="", description="which limit comes first: distance, time, hours, fuel, event")
    limit: FigureSaid | None = None
    due_at: FigureSaid | None = None
    chance_past: float | None = None
    last_done_on: dt.date | None = None
    reasons: tuple[Said, ...] = ()
    settles: tuple[Said, ...] = Field(default=(), description="what would settle what is not known")


class DueVehicle(Part):
    """What is due on one vehicle."""

    vehicle: str
    odometer: CounterSaid
    items: tuple[DueItemSaid, ...]


class DueAnswer(Answer):
    """The answer of `due`."""

    format: Literal["twomarks/answer/due/1"] = "twomarks/answer/due/1"
    vehicles: tuple[DueVehicle, ...]


def counter_said(history: History, forecast: UsageForecast, reader: Reader) -> CounterSaid:
    """Return the counter of a vehicle as part of an answer."""
    spread = forecast.spread_on(forecast.today)
    return CounterSaid(
        readings_used=history.used,
        readings_flagged=len(history.flags),
        last_read_on=forecast.last_day,
        last_km=forecast.last_value,
        likely_km=round(spread.likely, 1) if spread else None,
        low_km=round(spread.low, 1) if spread else None,
        high_km=round(spread.high, 1) if spread else None,
        daily_km=round(float(forecast.daily_km.value), 2),
        basis=said(forecast.basis, reader),
    )


def due_item_said(item: DueItem, reader: Reader) -> DueItemSaid:
    """Return a due item as part of an answer."""
    return DueItemSaid(
        item=item.item,
        name=item.name,
        state=item.state,
        likely_on=item.likely,
        opens_on=item.opens,
        closes_on=item.closes,
        binds=item.binds,
        limit=figure_said(item.limit) if item.limit else None,
        due_at=figure_said(item.due_at) if item.due_at else None,
        chance_past=None if item.chance_past is None else round(item.chance_past, 4),
        last_done_on=item.last.day if item.last else None,
        reasons=tuple(said(reason, reader) for reason in item.reasons),
        settles=tuple(said(settle, reader) for settle in item.settles),
    )
