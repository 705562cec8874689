"""The jobs on wheels, brakes, battery, filters and belt on the vehicles they are for: clean, and every move of them counts."""

from __future__ import annotations

from functools import cache

import pytest

from tests.procedures import parts_sheets, sheets
from tests.procedures.mistakes import apart, drop, step_of
from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.binding import bind
from twomarks.procedures.gates import gates_of
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.rehearsal import Rehearsal, rehearse
from twomarks.words import Reader, render

KEYS = (
    "tyre-rotation",
    "battery",
    "engine-air-filter",
    "diesel-fuel-filter",
    "brake-pads-front",
    "brake-pads-rear",
    "auxiliary-belt-check",
)
VEHICLES = parts_sheets.VEHICLES
READER = Reader.of("uk")


@cache
def _fits(key: str) -> tuple[str, ...]:
    """Return the invented vehicles that the procedure is for."""
    fuels = library_procedure(key).applies.fuel
    return tuple(name for name, text in VEHICLES.items() if not fuels or any(f'fuel = "{fuel}"' in text for fuel in fuels))


def _bare(key: str) -> str:
    fuels = library_procedure(key).applies.fuel or ("petrol",)
    return sheets.BARE.replace('fuel = "petrol"', f'fuel = "{fuels[0]}"')


ON_ITS_VEHICLES = [(key, vehicle) for key in KEYS for vehicle in _fits(key)]


def _played(procedure: Procedure, vehicle: str) -> Rehearsal:
    return rehearse(bind(procedure, sheets.sheet(VEHICLES[vehicle])))


@cache
def _moves(key: str) -> tuple[str, ...]:
    return tuple(move.id for step in library_procedure(key).steps for move in step.moves)


@pytest.mark.parametrize(("key", "vehicle"), ON_ITS_VEHICLES)
def test_a_correct_procedure_has_no_finding(key: str, vehicle: str) -> None:
    assert _played(library_procedure(key), vehicle).findings == ()


@pytest.mark.parametrize("key", KEYS)
def test_a_bare_sheet_brings_nothing_but_advice_about_its_figures(key: str) -> None:
    found = rehearse(bind(library_procedure(key), sheets.sheet(_bare(key)))).findings
    assert {(one.rule, one.grade) for one in found} <= {("figure_known", "advice")}


@pytest.mark.parametrize(("key", "name"), [(key, name) for key in KEYS for name in _moves(key)])
def test_leaving_out_any_one_move_is_found(key: str, name: str) -> None:
    left_out = drop(library_procedure(key), name)
    found = {vehicle: _played(left_out, vehicle).findings for vehicle in _fits(key)}
    assert any(found.values())


@pytest.mark.parametrize(("key", "vehicle"), [one for one in ON_ITS_VEHICLES if not one[0].startswith("brake-pads")])
def test_moves_joined_to_a_step_are_played_as_if_each_stood_alone(key: str, vehicle: str) -> None:
    procedure = library_procedure(key)
    joined, alone = _played(procedure, vehicle), _played(apart(procedure), vehicle)
    assert [(one.rule, one.step) for one in joined.findings] == [(one.rule, step_of(procedure, one.step)) for one in alone.findings]


@pytest.mark.parametrize(("key", "vehicle"), ON_ITS_VEHICLES)
def test_a_whole_sheet_lacks_nothing(key: str, vehicle: str) -> None:
    assert bind(library_procedure(key), sheets.sheet(VEHICLES[vehicle])).lacks == ()


@pytest.mark.parametrize("key", KEYS)
def test_it_is_tried_on_three_vehicles_at_least(key: str) -> None:
    assert len(_fits(key)) >= 3


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("market", ["uk", "us", "au", "metric"])
def test_gates_and_needs_can_be_read(key: str, market: str) -> None:
    reader = Reader.of(market)
    for text in (*VEHICLES.values(), sheets.BARE):
        played = bind(library_procedure(key), sheets.sheet(text))
        said = [render(question, reader) for gate in gates_of(played) for question in gate.questions]
        said += [render(tool.name, reader) for tool in needs_of(played).tools]
        assert said
        assert not [text for text in said if "{" in text or "[" in text]


@pytest.mark.parametrize("key", KEYS)
def test_it_stops_before_the_first_undo_and_at_the_end(key: str) -> None:
    names = [gate.name for gate in gates_of(bind(library_procedure(key), sheets.sheet(parts_sheets.CAR)))]
    assert "before first undo" in names
    assert names[-1] == "end"


@pytest.mark.parametrize("key", KEYS)
def test_where_one_is_can_be_read_after_every_step(key: str) -> None:
    for state in _played(library_procedure(key), "4x4").states:
        for message in state.messages:
            assert "{" not in render(message, READER)


@pytest.mark.parametrize(
    ("key", "step", "said"),
    [
        ("tyre-rotation", "wheels-off", "Off: wheel nuts, wheels."),
        ("tyre-rotation", "nuts-snug", "Only hand-tight or loose: wheel nuts."),
        ("battery", "battery-off", "Off: hold-down of the battery, negative lead of the battery, positive lead of the battery, battery."),
        ("engine-air-filter", "element-out", "Off: air filter element."),
        ("brake-pads-front", "pads-off-1", "The brakes are not proved: do not move it, not by a hand's breadth."),
        ("diesel-fuel-filter", "filter-off", "The fuel side is open, or not primed: do not start."),
    ],
)
def test_where_one_is_says_what_is_off_and_what_must_not_be_done(key: str, step: str, said: str) -> None:
    states = {
        state.step: [render(message, READER) for message in state.messages] for state in _played(library_procedure(key), "4x4").states
    }
    assert said in states[step]


@pytest.mark.parametrize("name", ["alder", "hazel", "rowan"])
@pytest.mark.parametrize("key", KEYS)
def test_the_demo_vehicles_rehearse_without_a_finding_above_advice(name: str, key: str) -> None:
    sheet = load_as(VehicleSheet, packaged.text(f"demo/files/{name}.toml"), where=name)
    fuels = library_procedure(key).applies.fuel
    found = {one.rule for one in rehearse(bind(library_procedure(key), sheet)).findings if one.grade != "advice"}
    assert found == (set() if not fuels or sheet.engine.fuel is None or _fuel(sheet) in fuels else {"fuel_is_diesel"})


def _fuel(sheet: VehicleSheet) -> str:
    return str(getattr(sheet.engine.fuel, "text", sheet.engine.fuel))


def test_the_service_items_of_the_demo_lead_to_these_jobs() -> None:
    led = {}
    for name in ("alder", "hazel", "rowan"):
        sheet = load_as(VehicleSheet, packaged.text(f"demo/files/{name}.toml"), where=name)
        led[name] = {item.procedure for item in sheet.items.values()} & set(KEYS)
    assert led == {
        "alder": {"engine-air-filter", "tyre-rotation"},
        "hazel": {"engine-air-filter", "tyre-rotation", "diesel-fuel-filter"},
        "rowan": {"engine-air-filter", "diesel-fuel-filter"},
    }


def test_an_old_battery_and_old_fuel_are_waste() -> None:
    streams = {key: {one.stream for one in needs_of(bind(library_procedure(key), sheets.sheet(parts_sheets.VAN))).waste} for key in KEYS}
    assert streams["battery"] == {"battery"}
    assert {"fuel", "filter", "rags"} <= streams["diesel-fuel-filter"]
    assert streams["tyre-rotation"] == set()
