"""The main job for a vehicle that nobody keeps: a sheet in a file, or kind and fuel alone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from twomarks.cli.options import read_file
from twomarks.cli.typed import odometer_steps
from twomarks.errors import InputError
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.planning.preparation import Preparation

__all__ = ["bare_sheet", "prepared", "sheet_in"]


def sheet_in(path: Path) -> VehicleSheet:
    """Return the vehicle sheet in a file."""
    from twomarks.model.loading import load_bytes
    from twomarks.model.vehicle import VehicleSheet

    document = load_bytes(read_file(path), where=str(path))
    if not isinstance(document, VehicleSheet):
        raise InputError("document.other_kind", line=1, path="format", found=document.format, expected="twomarks/vehicle/1")
    return document


def bare_sheet(kind: str | None, fuel: str | None, oil_label: str | None) -> VehicleSheet:
    """Return the sheet of a vehicle of which only kind and fuel are known, and perhaps what the oil label says."""
    if kind is None or fuel is None:
        raise InputError("prepare.kind_and_fuel", where="--kind" if kind is None else "--fuel", example="--kind car --fuel petrol")
    from twomarks.model.loading import load_as
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.model.writing import new_text

    tables: dict[str, object] = {"format": "twomarks/vehicle/1", "name": kind, "kind": kind, "engine": {"fuel": fuel}}
    if oil_label:
        tables["circuits"] = {"engine_oil": {"holds": {"value": oil_label, "source": "label: as typed"}}}
    return load_as(VehicleSheet, new_text(tables), where="--kind")


def prepared(
    sheet: VehicleSheet, *, today: dt.date, odometer: str | None, reader: Reader, item: str | None, stage: Callable[[str], None]
) -> Preparation:
    """Return the main job for `sheet` from one reading of today, or from none."""
    from twomarks.model.ledger import Reading
    from twomarks.planning.preparation import Given, prepare
    from twomarks.planning.usage import forecast, judge, prior_of
    from twomarks.procedures.library import library

    readings: tuple[Reading, ...] = ()
    if odometer is not None:
        readings = (Reading(day=today, steps=odometer_steps(odometer, sheet=sheet, reader=reader), text=odometer),)
    judged = judge(readings, today=today)
    stage("kept")
    use = forecast(judged, today=today, prior=prior_of(sheet.kind, sheet.engine.fuel))
    stage("forecast")
    given = Given(sheet=sheet, today=today, history=judged, forecast=use, done={}, procedures=library(), item=item)
    return prepare(given, stage=stage)
