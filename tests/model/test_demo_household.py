"""The invented household agrees with its real histories, and its shelf with what its vehicles ask for."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Iterator

import pytest

from twomarks import packaged, units
from twomarks.exchange.readings_file import read_readings
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.binding import bind
from twomarks.procedures.facts import oil_verdict_for
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import Needs, needs_of
from twomarks.trade.label import read_label
from twomarks.trade.oil import OilOnOffer

FOLDER = "demo/files"
VEHICLES = ("alder", "hazel", "rowan")
ITEM = "engine_oil_and_filter"
TOLD = tomllib.loads(packaged.text(f"{FOLDER}/household.toml"))
ROUNDING_KM = 30
"""By how much an odometer told from memory may lie outside the readings around its day."""


def sheet(name: str) -> VehicleSheet:
    return load_as(VehicleSheet, packaged.text(f"{FOLDER}/{name}.toml"), where=name)


def shelf() -> ShelfList:
    return load_as(ShelfList, packaged.text(f"{FOLDER}/shelf.toml"), where="shelf")


def needs(name: str) -> Needs:
    found = sheet(name)
    return needs_of(bind(library_procedure(found.items[ITEM].procedure or ""), found, item=ITEM))


def entered(vehicle: str) -> Iterator[tuple[int, float]]:
    """Yield days before the last reading and odometer [km] of everything entered about a vehicle."""
    for row in (*TOLD["done"], *TOLD["level_checks"], *TOLD["top_ups"]):
        if row["vehicle"] == vehicle and "odometer" in row:
            yield row["days_before"], units.quantity(row["odometer"], kind="distance", decimal=".").core


@pytest.mark.parametrize("vehicle", ["Alder", "Hazel"])
def test_what_was_entered_lies_on_the_history_of_its_day(vehicle: str) -> None:
    name = TOLD["histories"][vehicle]
    unit = sheet(vehicle.lower()).counters["odometer"].unit
    readings = read_readings(packaged.data(f"{FOLDER}/{name}"), where=name, default_unit=unit).readings
    known = sorted((reading.day, reading.steps / 1000) for reading in readings if reading.steps)
    last = known[-1][0]
    rows = list(entered(vehicle))
    assert len(rows) >= 3
    for days, odometer_km in rows:
        day = last - dt.timedelta(days=days)
        before, after = max(one for one in known if one[0] <= day)[1], min(one for one in known if one[0] >= day)[1]
        assert before - ROUNDING_KM <= odometer_km <= after + ROUNDING_KM, (days, odometer_km)


def test_the_readings_of_the_old_vehicle_rise_with_what_was_entered() -> None:
    written = [(row["days_before"], units.quantity(row["text"], decimal=".").core) for row in TOLD["readings"]]
    together = sorted({*written, *entered("Rowan")}, reverse=True)
    assert [odometer for _, odometer in together] == sorted(odometer for _, odometer in together)


@pytest.mark.parametrize("name", VEHICLES)
def test_every_renewed_part_is_on_the_shelf_list_under_one_of_its_numbers(name: str) -> None:
    listed = {number.text for part in shelf().parts.values() for number in part.numbers}
    parts = needs(name).parts
    assert len(parts) >= 2
    assert [part.slot for part in parts if not listed & {str(number.value) for number in part.numbers}] == []


def test_the_rings_of_the_filter_housing_are_counted() -> None:
    assert {part.slot: part.count for part in needs("hazel").parts}["filter_o_rings"] == 3


@pytest.mark.parametrize("name", VEHICLES)
def test_every_known_drive_of_the_job_has_its_tool(name: str) -> None:
    drives = {tool.drive.text for tool in shelf().tools.values() if tool.drive is not None}
    wanted = {str(tool.drive.value) for tool in needs(name).tools if tool.drive is not None}
    assert wanted
    assert wanted <= drives


@pytest.mark.parametrize("name", VEHICLES)
def test_the_wrenches_reach_every_torque_of_the_job(name: str) -> None:
    ranges = [(tool.low.core, tool.high.core) for tool in shelf().tools.values() if tool.low is not None and tool.high is not None]
    torques = [float(str(torque.value)) for tool in needs(name).tools for torque in tool.torques]
    assert torques
    assert [torque for torque in torques if not any(low <= torque <= high for low, high in ranges)] == []


@pytest.mark.parametrize("name", VEHICLES)
def test_a_pan_holds_what_comes_out_and_a_can_takes_each_stream(name: str) -> None:
    found = needs(name)
    assert found.pan_l is not None
    assert max(pan.holds.core for pan in shelf().pans.values()) >= found.pan_l
    assert {waste.stream for waste in found.waste} <= {can.stream for can in shelf().cans.values()}


@pytest.mark.parametrize("name", VEHICLES)
def test_the_shelf_holds_an_oil_that_meets_the_call_and_one_that_does_not(name: str) -> None:
    assert {"meets", "does not meet"} <= set(_verdicts(name).values())


def test_a_label_that_only_claims_an_approval_does_not_show_it() -> None:
    assert _verdicts("alder")["pellgate_0w30"] == "not shown"


def _verdicts(name: str) -> dict[str, str]:
    oils = {key: oil for key, oil in shelf().oils.items() if oil.fluid == "engine oil"}
    offers = {key: OilOnOffer(oil.name, read_label(oil.label.text)) for key, oil in oils.items()}
    return {key: oil_verdict_for(sheet(name), offer=offer, coldest_start_c=-10.0).state for key, offer in offers.items()}
