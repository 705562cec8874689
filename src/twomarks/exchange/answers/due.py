"""The answer of `due`: for each vehicle, what is due and the window around it."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, FigureSaid, Part, Said, figure_said, said
from twomarks.model.ledger import Snag
from twomarks.planning.due import Bound, DueItem, DueState
from twomarks.planning.usage import History, UsageForecast
from twomarks.words import Reader

__all__ = ["CounterSaid", "DueAnswer", "DueItemSaid", "DueVehicle", "counter_said", "due_item_said", "snag_said"]


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


class LimitSaid(Part):
    """One limit of an item, and the days on which it is reached with a chance of 10, 50 and 90 %."""

    binds: str = Field(description="distance, time, hours, fuel, measurement, event or date")
    limit: FigureSaid
    place: str = ""
    opens_on: dt.date | None = None
    likely_on: dt.date | None = None
    closes_on: dt.date | None = None
    left: FigureSaid | None = None
    passed: bool = False


class SnagSaid(Part):
    """Something noticed that no entry has closed yet."""

    number: int
    what: str
    where: str = ""
    how_bad: str
    since: dt.date


class DueItemSaid(Part):
    """A service item: its state, its most likely day and the window that holds the day eight times out of ten."""

    item: str
    name: str
    state: DueState
    likely_on: dt.date | None = None
    opens_on: dt.date | None = None
    closes_on: dt.date | None = None
    binds: str = Field(default="", description="which limit comes first: distance, time, hours, fuel, measurement, event, date")
    limit: FigureSaid | None = None
    due_at: FigureSaid | None = None
    left: FigureSaid | None = Field(default=None, description="what is left of the limit that comes first; below nothing past it")
    days_left: int | None = Field(default=None, description="days from the day of the answer to the most likely day")
    chance_past: float | None = Field(default=None, description="the chance that a limit has been passed on the day of the answer")
    chance_past_by: float | None = Field(default=None, description="the same by the end of the day that was asked about")
    hard_use: bool = Field(default=False, description="whether the limits for hard use hold")
    limits: tuple[LimitSaid, ...] = Field(default=(), description="every limit of the item, the one that comes first first")
    last_done_on: dt.date | None = None
    reasons: tuple[Said, ...] = ()
    settles: tuple[Said, ...] = Field(default=(), description="what would settle what is not known")


class DueVehicle(Part):
    """What is due on one vehicle."""

    vehicle: str
    odometer: CounterSaid
    snags: tuple[SnagSaid, ...] = Field(default=(), description="what is noticed and open, the worst first: it stands above everything due")
    stated_use: dict[str, str] = Field(default_factory=dict, description="how the owner says it is driven, by condition")
    items: tuple[DueItemSaid, ...]


class DueAnswer(Answer):
    """The answer of `due`."""

    format: Literal["twomarks/answer/due/1"] = "twomarks/answer/due/1"
    by: dt.date | None = Field(default=None, description="the day that was asked about")
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


def snag_said(snag: Snag) -> SnagSaid:
    """Return an open snag as part of an answer."""
    return SnagSaid(number=snag.number, what=snag.what, where=snag.where, how_bad=snag.how_bad, since=snag.day)


def _limit_said(bound: Bound) -> LimitSaid:
    return LimitSaid(
        binds=bound.binds,
        limit=figure_said(bound.limit),
        place=bound.place,
        opens_on=bound.days.earliest,
        likely_on=bound.days.likely,
        closes_on=bound.days.latest,
        left=figure_said(bound.left) if bound.left else None,
        passed=bound.passed,
    )


def due_item_said(item: DueItem, reader: Reader, *, by: dt.date | None = None) -> DueItemSaid:
    """Return a due item as part of an answer, with the chance that a limit is passed `by` a day."""
    chance = None if by is None else item.chance_by(by)
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
        left=figure_said(item.left) if item.left else None,
        days_left=item.days_left,
        chance_past_by=None if chance is None else round(chance, 4),
        hard_use=item.hard_use,
        limits=tuple(_limit_said(bound) for bound in item.bounds),
        chance_past=None if item.chance_past is None else round(item.chance_past, 4),
        last_done_on=item.last.day if item.last else None,
        reasons=tuple(said(reason, reader) for reason in item.reasons),
        settles=tuple(said(settle, reader) for settle in item.settles),
    )
