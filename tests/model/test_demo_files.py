"""The files of the demo household: invented and said so, sourced, and fitting together."""

from __future__ import annotations

import csv
import tomllib

import pytest

from twomarks import packaged, units
from twomarks.model.climate import ClimateRecord
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.library import library

FOLDER = "demo/files"
VEHICLES = ("alder", "hazel", "rowan")


def sheet(name: str) -> VehicleSheet:
    return load_as(VehicleSheet, packaged.text(f"{FOLDER}/{name}.toml"), where=name)


def shelf() -> ShelfList:
    return load_as(ShelfList, packaged.text(f"{FOLDER}/shelf.toml"), where="shelf")


@pytest.mark.parametrize("name", packaged.names(FOLDER, ".toml"))
def test_the_first_line_says_that_it_is_invented(name: str) -> None:
    assert packaged.text(f"{FOLDER}/{name}").startswith("# Invented example: ")


@pytest.mark.parametrize("name", VEHICLES)
def test_every_fact_has_a_source(name: str) -> None:
    assert sheet(name).unsourced == ()
    assert len(tuple(sheet(name).facts())) > 30


@pytest.mark.parametrize("name", VEHICLES)
def test_every_procedure_that_a_sheet_names_is_in_the_library(name: str) -> None:
    known = library()
    named = [item.procedure for item in sheet(name).items.values() if item.procedure]
    assert named
    assert set(named) <= set(known)


def test_the_three_vehicles_are_as_different_as_they_should_be() -> None:
    alder, hazel, rowan = map(sheet, VEHICLES)
    assert (alder.kind, hazel.kind, rowan.kind) == ("car", "van", "4x4")
    assert "dpf" in hazel.engine.after_treatment
    assert hazel.fastenings["engine_oil_drain"].torque is None
    assert {"transfer_case", "front_axle", "rear_axle"} <= set(rowan.circuits)
    assert {fact.source.kind for _, fact in rowan.facts()} >= {"told", "memory", "stamped", "measured"}
    assert alder.circuits["engine_oil"].accepts[0].approvals is not None


def test_the_household_speaks_of_what_is_there() -> None:
    told = tomllib.loads(packaged.text(f"{FOLDER}/household.toml"))
    there, sheets = shelf(), {found.name: found for found in map(sheet, VEHICLES)}
    assert set(told["stock"]) <= set(there.oils) | set(there.parts)
    assert set(told["cans"]) == set(there.cans)
    for key, amount in told["cans"].items():
        assert units.quantity(amount, kind="volume").core < there.cans[key].holds.core
    for row in told["done"]:
        assert row["item"] in sheets[row["vehicle"]].items
    for row in (*told["level_checks"], *told["top_ups"]):
        assert row["circuit"] in sheets[row["vehicle"]].circuits
    for name in told["histories"].values():
        assert packaged.data(f"{FOLDER}/{name}")


def test_the_histories_and_the_climate_are_the_real_data_whole() -> None:
    car = list(csv.DictReader(packaged.text(f"{FOLDER}/car_odometer.csv").splitlines()))
    assert (len(car), sum(not row["odometer_m"] for row in car), sum(row["odometer_m"] == "0" for row in car)) == (1036, 21, 1)
    van = list(csv.DictReader(packaged.text(f"{FOLDER}/van_odometer.csv").splitlines()))
    assert (len(van), {row["bus"] for row in van}) == (99, {"d309-01"})
    record = load_as(ClimateRecord, packaged.text(f"{FOLDER}/place.toml"), where="place")
    days = record.days()
    assert len(days) == 13514
    assert (min(low for _, low, _ in days), max(high for _, _, high in days)) == pytest.approx((-37.1, 43.7), abs=0.1)


def test_every_real_file_has_its_notice() -> None:
    notice = packaged.text(f"{FOLDER}/NOTICE.md")
    for name in (*packaged.names(FOLDER, ".csv"), "place.toml"):
        assert f"`{name}`" in notice
