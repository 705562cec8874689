"""Service items of general practice for a vehicle whose sheet names none yet; common practice, no source."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.model.facts import Fact
from twomarks.model.service_items import Condition, Limits, ServiceItem
from twomarks.model.vehicle import VehicleSheet
from twomarks.planning.due.values import Done
from twomarks.units import quantity
from twomarks.words import Figure, Message, Source, say

__all__ = ["EARLIER", "THIS_YEAR", "UNSURE", "GeneralItem", "general_items", "general_question", "with_general"]

THIS_YEAR, EARLIER, UNSURE = "this year", "earlier", "do not know"
"""The answers to "when was it last done"."""

_PRACTICE = Source("practice")
_EARLIEST_YEARS = 3
_BURNS = ("petrol", "diesel", "lpg", "hybrid")
_ALL = (*_BURNS, "electric")


@dataclass(frozen=True, slots=True)
class _Practice:
    """What is usual: from and to which distance [km], from and to how many months; nothing where it is not usual to say.

    `hard_km` and `hard_months` are the shorter of what is usual in hard use, `hard_when` the use that asks for it (none
    named: any), `after` what calls for the item out of turn.
    """

    fuels: tuple[str, ...]
    distance_km: tuple[int, int] | None
    months: tuple[int, int] | None
    hard_km: int | None = None
    hard_months: int | None = None
    hard_when: tuple[Condition, ...] = ()
    after: tuple[str, ...] = ()


_USUAL: dict[str, _Practice] = {
    "engine_oil": _Practice(_BURNS, (10_000, 15_000), (12, 12), hard_km=5_000, hard_months=6, after=("waded", "overheated")),
    "air_filter": _Practice(_BURNS, (30_000, 40_000), None, after=("dust", "waded")),
    "fuel_filter": _Practice(("diesel",), (30_000, 60_000), None, hard_km=15_000, hard_when=("dust", "for_hire")),
    "coolant": _Practice(_BURNS, None, (36, 60), hard_months=24, hard_when=("towing", "heat"), after=("overheated",)),
    "brake_fluid": _Practice(_ALL, None, (24, 24), hard_months=12, hard_when=("towing", "heat")),
    "tyres": _Practice(_ALL, (8_000, 10_000), None, hard_km=5_000, hard_when=("dust", "towing", "for_hire"), after=("stood",)),
    "battery": _Practice(_ALL, None, (12, 12), after=("stood",)),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GeneralItem:
    """An item of general practice: its key, its name, what is usual, and the question under which its answer is kept."""

    key: str
    name: Message
    usual: Message
    question: str


def general_question(vehicle: str, key: str) -> str:
    """Return the key under which the answer about an item of general practice is kept."""
    return f"last-done:{vehicle}:{key}"


def general_items(sheet: VehicleSheet) -> tuple[GeneralItem, ...]:
    """Return what general practice asks about this vehicle; nothing where its sheet has items of its own."""
    if sheet.items:
        return ()
    return tuple(
        GeneralItem(key=key, name=say(f"general.{key}"), usual=_usual(usual), question=general_question(sheet.name, key))
        for key, usual in _USUAL.items()
        if sheet.engine.fuel in usual.fuels
    )


def _usual(practice: _Practice) -> Message:
    low, high = practice.distance_km or (None, None)
    first, last = practice.months or (None, None)
    return say(
        "general.usual_months" if low is None else "general.usual_distance",
        low=None if low is None else Figure(low, "km", _PRACTICE),
        high=None if high is None else Figure(high, "km", _PRACTICE),
        first=None if first is None or first == last else Figure(first, "month", _PRACTICE),
        last=None if last is None else Figure(last, "month", _PRACTICE),
    )


def with_general(
    sheet: VehicleSheet, *, done: Mapping[str, Done], answers: Mapping[str, str], today: dt.date
) -> tuple[VehicleSheet, Mapping[str, Done]]:
    """Return the sheet with the items of general practice where it has none, and what was answered about them as done.

    The shorter of what is usual is taken. "This year" is a range from its first day; "earlier" one of three years
    before it.
    """
    asked = general_items(sheet)
    if not asked:
        return sheet, done
    items = {item.key: _service_item(item.key) for item in asked}
    answered = {item.key: about for item in asked if (about := _about(answers.get(item.question), today)) is not None}
    return sheet.model_copy(update={"items": items}), {**answered, **done}


def _service_item(key: str) -> ServiceItem:
    usual = _USUAL[key]
    hard = usual.hard_km or usual.hard_months
    return ServiceItem.model_construct(
        name=key.replace("_", " "),
        every=_limits(usual.distance_km and usual.distance_km[0], usual.months and usual.months[0]),
        hard_use=_limits(usual.hard_km, usual.hard_months) if hard else None,
        hard_when=usual.hard_when,
        event=usual.after,
    )


def _limits(distance_km: int | None, months: int | None) -> Limits:
    return Limits.model_construct(
        distance=_fact(f"{distance_km} km") if distance_km else None, time=_fact(f"{months} months") if months else None
    )


def _fact(text: str) -> Fact:
    return Fact(text, _PRACTICE, "", quantity(text, decimal="."))


def _about(answer: str | None, today: dt.date) -> Done | None:
    new_year = dt.date(today.year, 1, 1)
    if answer == THIS_YEAR:
        return Done(day=new_year + (today - new_year) // 2, about=(new_year, today))
    if answer == EARLIER:
        first, last = dt.date(today.year - _EARLIEST_YEARS, 1, 1), new_year - dt.timedelta(days=1)
        return Done(day=first + (last - first) // 2, about=(first, last))
    return None
