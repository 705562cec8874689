"""The answer of `cost`: by workday, and for each vehicle by distance, against the workshop, and at other intervals."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, FigureSaid, Part, Said, figure_said, said
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.keeping.questions import Cost, VehicleCost
    from twomarks.planning.cost import AgainstWorkshop, IntervalCost, WorkdayCost

__all__ = ["CostAnswer", "cost_answer"]


class WorkSaid(Part):
    """One entry: what its materials cost and how that was reckoned, in the currency of the answer."""

    vehicle: str
    title: str
    items: tuple[str, ...] = ()
    materials: str | None = None
    minutes: int | None = None
    own_time: str
    reckoned: tuple[Said, ...] = ()
    unpriced: tuple[Said, ...] = ()


class WorkdaySaid(Part):
    """What one day's work cost; `complete` is false where something used has no price: the total is then at least so much."""

    day: dt.date
    total: str | None = None
    materials: str
    own_time: str
    minutes: int
    complete: bool
    works: tuple[WorkSaid, ...]


class PerDistanceSaid(Part):
    """What each 1,000 km cost, or why that cannot be said yet."""

    per_1000_km: str | None = None
    total: str | None = None
    distance_km: float | None = None
    since: dt.date | None = None
    entries_left_out: int = 0
    why_not: Said | None = None


class AgainstSaid(Part):
    """A workshop's quote beside what the item cost at home the last time."""

    item: str
    quote: str
    currency: str
    shop: str = ""
    home: str | None = None
    home_on: dt.date | None = None
    saved: str | None = Field(default=None, description="below nothing where the workshop is cheaper")
    why_not: Said | None = None


class OtherIntervalSaid(Part):
    """Another limit, and what it changes a year."""

    axis: Literal["distance", "time"]
    limit: FigureSaid
    change_a_year: str


class IntervalSaid(Part):
    """What an item costs at its interval."""

    item: str
    each: str
    times_a_year: float
    a_year: str
    comes_first: Literal["distance", "time"]
    others: tuple[OtherIntervalSaid, ...]


class VehicleCostSaid(Part):
    """What one vehicle costs."""

    vehicle: str
    per_distance: PerDistanceSaid
    against_workshop: tuple[AgainstSaid, ...] = ()
    intervals: tuple[IntervalSaid, ...] = ()


class CostAnswer(Answer):
    """The answer of `cost`; amounts are decimal texts in `currency`."""

    format: Literal["twomarks/answer/cost/1"] = "twomarks/answer/cost/1"
    currency: str
    own_time_per_hour: str
    workdays: tuple[WorkdaySaid, ...]
    vehicles: tuple[VehicleCostSaid, ...]


def cost_answer(found: Cost, on: dt.date, reader: Reader) -> CostAnswer:
    """Return the answer."""
    return CostAnswer(
        on=on,
        currency=found.currency,
        own_time_per_hour=str(found.rate),
        workdays=tuple(_workday(day, reader) for day in found.workdays),
        vehicles=tuple(_vehicle(one, reader) for one in found.vehicles),
    )


def _workday(day: WorkdayCost, reader: Reader) -> WorkdaySaid:
    return WorkdaySaid(
        day=day.day,
        total=_text(day.total),
        materials=str(day.materials),
        own_time=str(day.time),
        minutes=day.minutes,
        complete=day.complete,
        works=tuple(
            WorkSaid(
                vehicle=work.vehicle,
                title=work.title,
                items=work.items,
                materials=_text(work.materials.amount),
                minutes=work.minutes,
                own_time=str(work.time),
                reckoned=tuple(said(one, reader) for one in work.materials.reckoned),
                unpriced=tuple(said(one, reader) for one in work.materials.unpriced),
            )
            for work in day.works
        ),
    )


def _vehicle(one: VehicleCost, reader: Reader) -> VehicleCostSaid:
    per = one.per_distance
    return VehicleCostSaid(
        vehicle=one.vehicle,
        per_distance=PerDistanceSaid(
            per_1000_km=_text(per.amount),
            total=_text(per.total),
            distance_km=None if per.distance_km is None else round(per.distance_km, 1),
            since=per.since,
            entries_left_out=per.left_out,
            why_not=said(per.why_not, reader) if per.why_not else None,
        ),
        against_workshop=tuple(_against(against, reader) for against in one.against),
        intervals=tuple(_interval(interval) for interval in one.intervals),
    )


def _against(against: AgainstWorkshop, reader: Reader) -> AgainstSaid:
    return AgainstSaid(
        item=against.item,
        quote=str(against.quote),
        currency=against.quote_currency,
        shop=against.shop,
        home=None if against.home is None else _text(against.home.total),
        home_on=None if against.home is None else against.home.day,
        saved=_text(against.saved),
        why_not=said(against.why_not, reader) if against.why_not else None,
    )


def _interval(interval: IntervalCost) -> IntervalSaid:
    return IntervalSaid(
        item=interval.item,
        each=str(interval.each),
        times_a_year=round(interval.times_a_year, 3),
        a_year=str(interval.a_year),
        comes_first=interval.first,
        others=tuple(
            OtherIntervalSaid(axis=other.axis, limit=figure_said(other.limit), change_a_year=str(other.change)) for other in interval.others
        ),
    )


def _text(amount: object) -> str | None:
    return None if amount is None else str(amount)
