"""The invented demo household: its files, shifted so that the last reading lies nine days before today, and built.

Every name, make, number and place in it is made up; the odometer histories and the climate are real open data, with
their notices beside the files.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from twomarks import packaged, units
from twomarks.exchange.readings_file import read_readings
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.answers import record_answers
from twomarks.keeping.services.documents import save_document
from twomarks.keeping.services.entries import record_entry
from twomarks.keeping.services.households import found_household
from twomarks.keeping.services.levels import record_level_check, record_top_up
from twomarks.keeping.services.noticed import record_measurement, record_quote, record_snag
from twomarks.keeping.services.places import settle_place
from twomarks.keeping.services.readings import record_readings
from twomarks.keeping.services.shelf import record_stock_moves, record_waste_move
from twomarks.keeping.services.vehicles import add_vehicle
from twomarks.model.climate import ClimateRecord
from twomarks.model.ledger import Answer, Entry, LevelCheck, Measurement, Quote, Reading, Snag, StockMove, TopUp, WasteMove
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.words import Reader

__all__ = ["GAP_DAYS", "SHEETS", "Shift", "build_household", "demo_text"]

FOLDER = "demo/files"
SHEETS = ("alder.toml", "hazel.toml", "rowan.toml")
GAP_DAYS = 9
"""Days between the last reading of each history and today."""


@dataclass(frozen=True, slots=True)
class Shift:
    """By how many whole days a vehicle's history was moved so that it ends nine days before today."""

    vehicle: str
    days: int
    readings: int


def demo_text(name: str) -> str:
    """Return the text of one of the demo's files."""
    return packaged.text(f"{FOLDER}/{name}")


def build_household(today: dt.date) -> tuple[Scope, tuple[Shift, ...]]:
    """Build the demo household in the home that is open, and return its scope and how its histories were shifted."""
    told = tomllib.loads(demo_text("household.toml"))
    house = told["household"]
    record_text = demo_text(told["place"]["record"])
    record = load_as(ClimateRecord, record_text, where=told["place"]["record"])
    reader = Reader.of("metric", zone=told["place"]["zone"], currency=house["currency"])
    scope = found_household(house["name"], house["person"], reader=reader)
    settle_place(
        scope,
        name=told["place"]["name"],
        latitude=record.place.latitude,
        longitude=record.place.longitude,
        zone=told["place"]["zone"],
        climate=record_text,
        where=told["place"]["record"],
    )
    shelf = demo_text("shelf.toml")
    save_document(scope, shelf, where="shelf.toml")
    sheets = [load_as(VehicleSheet, demo_text(name), where=name) for name in SHEETS]
    for name in SHEETS:
        add_vehicle(scope, demo_text(name), where=name)
    last = today - dt.timedelta(days=GAP_DAYS)
    shifts = tuple(_history(scope, sheet, told, last) for sheet in sheets)
    _stock(scope, told, load_as(ShelfList, shelf, where="shelf.toml"), today)
    for row in told.get("done", ()):
        _done(scope, row, last, today, house["currency"])
    for row in told.get("level_checks", ()):
        record_level_check(scope, row["vehicle"], _level(row, last), today=today)
    for row in told.get("top_ups", ()):
        record_top_up(scope, row["vehicle"], _top_up(row, last), today=today)
    _noticed(scope, told, last, today, house["currency"])
    record_answers(scope, [Answer(day=last, question=row["question"], word=row["word"]) for row in told.get("answers", ())], today=today)
    return scope, shifts


def _history(scope: Scope, sheet: VehicleSheet, told: Mapping[str, Any], last: dt.date) -> Shift:
    name = told.get("histories", {}).get(sheet.name)
    unit = sheet.counters["odometer"].unit
    if name is not None:
        found = read_readings(packaged.data(f"{FOLDER}/{name}"), where=name, default_unit=unit).readings
    else:
        found = tuple(_hand_readings(told.get("readings", ()), sheet.name, last, unit))
    days = (last - max(reading.day for reading in found)).days
    record_readings(scope, sheet.name, [_shifted(reading, days) for reading in found])
    return Shift(sheet.name, days, len(found))


def _hand_readings(rows: Sequence[Mapping[str, Any]], vehicle: str, last: dt.date, unit: str) -> Iterator[Reading]:
    for row in rows:
        if row["vehicle"] == vehicle:
            amount = units.quantity(row["text"], kind="distance", decimal=".", default_unit=unit)
            yield Reading(steps=amount.steps, text=row["text"], **_days(row, last))


def _shifted(reading: Reading, days: int) -> Reading:
    step = dt.timedelta(days=days)
    return replace(
        reading,
        day=reading.day + step,
        day_from=reading.day_from + step if reading.day_from else None,
        day_to=reading.day_to + step if reading.day_to else None,
        at=reading.at + step if reading.at else None,
    )


def _days(row: Mapping[str, Any], last: dt.date) -> dict[str, Any]:
    day = last - dt.timedelta(days=row["days_before"])
    about = dt.timedelta(days=row.get("about_days", 0))
    return {"day": day, "day_from": day - about, "day_to": day + about} if about else {"day": day}


def _stock(scope: Scope, told: Mapping[str, Any], shelf: ShelfList, today: dt.date) -> None:
    day = today - dt.timedelta(days=GAP_DAYS + 1)
    moves = []
    for key, amount in told["stock"].items():
        fluid = isinstance(amount, str)
        count = units.quantity(amount, kind="volume", decimal=".").steps if fluid else int(amount)
        moves.append(StockMove(day=day, item=key, amount=count, unit="mL" if fluid else "piece", why="counted", text=str(amount)))
    record_stock_moves(scope, moves, today=today)
    for key, amount in told["cans"].items():
        content = units.quantity(amount, kind="volume", decimal=".").steps
        if content:
            record_waste_move(
                scope, WasteMove(day=day, can=key, amount_ml=content, stream=shelf.cans[key].stream, text=amount), today=today
            )


def _done(scope: Scope, row: Mapping[str, Any], last: dt.date, today: dt.date, currency: str) -> None:
    cost, code = _money(row, "cost", currency)
    entry = Entry(
        vehicle=row["vehicle"],
        items=(row["item"],),
        title=row["text"],
        odometer_steps=_odometer(row),
        text=row["text"],
        cost_minor=cost,
        currency=code,
        minutes=row.get("minutes"),
        **_days(row, last),
    )
    record_entry(scope, row["vehicle"], entry, force=True, today=today)


def _noticed(scope: Scope, told: Mapping[str, Any], last: dt.date, today: dt.date, currency: str) -> None:
    for row in told.get("measurements", ()):
        for place, text in row["values"].items():
            value = units.quantity(text, decimal=".")
            where = {"vehicle": row["vehicle"], "item": row["item"], "place": place, "kind": value.kind}
            record_measurement(scope, row["vehicle"], Measurement(steps=value.steps, text=text, **where, **_days(row, last)), today=today)
    for row in told.get("snags", ()):
        snag = Snag(vehicle=row["vehicle"], what=row["what"], where=row.get("where", ""), how_bad=row["how_bad"], **_days(row, last))
        record_snag(scope, row["vehicle"], snag, today=today)
    for row in told.get("quotes", ()):
        amount, code = _money(row, "amount", currency)
        asked = {"vehicle": row["vehicle"], "item": row["item"], "currency": code, "shop": row["shop"], "text": row["amount"]}
        record_quote(scope, row["vehicle"], Quote(amount_minor=amount or 0, **asked, **_days(row, last)), today=today)


def _money(row: Mapping[str, Any], key: str, currency: str) -> tuple[int | None, str]:
    return units.minor_of(row[key], currency=currency, decimal=".") if key in row else (None, "")


def _odometer(row: Mapping[str, Any]) -> int | None:
    return units.quantity(row["odometer"], kind="distance", decimal=".").steps if "odometer" in row else None


def _level(row: Mapping[str, Any], last: dt.date) -> LevelCheck:
    return LevelCheck(
        circuit=row["circuit"], permille=round(row["at"] * 1000), odometer_steps=_odometer(row), text=row["text"], **_days(row, last)
    )


def _top_up(row: Mapping[str, Any], last: dt.date) -> TopUp:
    volume = units.quantity(row["volume"], kind="volume", decimal=".").steps
    return TopUp(
        circuit=row["circuit"],
        volume_ml=volume,
        product=row["product"],
        odometer_steps=_odometer(row),
        text=row["text"],
        **_days(row, last),
    )
