"""The jobs on gear units, cooling and brakes on the vehicles they are for: clean, with their gates, needs and lacks."""

from __future__ import annotations

import pytest

from tests.procedures import fluid_sheets, sheets
from tests.procedures.mistakes import apart, bound, drop, step_of
from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.binding import bind
from twomarks.procedures.gates import gates_of
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.rehearsal import rehearse
from twomarks.words import Reader, render

GEAR = ("manual-gearbox-oil", "transfer-case-oil", "axle-oil")
KEYS = (*GEAR, "coolant", "brake-fluid")
NAMES = ["car", "van", "4x4"]
CHOICES = [{}, {"raised": True, "undertray": True}, {"raised": True}, {"undertray": True}, {"raised": False, "undertray": False}]
READER = Reader.of("uk")


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("text", fluid_sheets.ALL, ids=NAMES)
@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_a_correct_procedure_has_no_finding(key: str, text: str, choices: dict[str, bool]) -> None:
    assert rehearse(bound(library_procedure(key), text, **choices)).findings == ()


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("text", fluid_sheets.ALL, ids=NAMES)
def test_a_whole_sheet_lacks_nothing_but_what_is_no_part_of_it(key: str, text: str) -> None:
    lacks = {one.path for one in bound(library_procedure(key), text).lacks}
    assert lacks == set()


@pytest.mark.parametrize("key", KEYS)
def test_a_bare_sheet_is_told_all_that_it_lacks(key: str) -> None:
    played = bound(library_procedure(key), sheets.BARE)
    roles = {name for name, role in played.procedure.roles.items() if not role.optional}
    assert len([one for one in played.lacks if one.what.key == "procedure.lack_role"]) == len(roles)
    for one in played.lacks:
        said = f"{render(one.what, READER)} {render(one.where_to_find, READER)}"
        assert "?" not in said
        assert "{" not in said


@pytest.mark.parametrize("key", [key for key in KEYS if key != "brake-fluid"])
@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_moves_joined_to_a_step_are_played_as_if_each_stood_alone(key: str, choices: dict[str, bool]) -> None:
    procedure = library_procedure(key)
    joined, alone = rehearse(bound(procedure, **choices)), rehearse(bound(apart(procedure), **choices))
    assert [(one.rule, one.step) for one in joined.findings] == [(one.rule, step_of(procedure, one.step)) for one in alone.findings]


@pytest.mark.parametrize(("vehicle", "key"), [("alder", "manual-gearbox-oil"), ("alder", "coolant"), ("alder", "brake-fluid"),
                                              ("hazel", "manual-gearbox-oil"), ("hazel", "axle-oil"), ("hazel", "coolant"),
                                              ("hazel", "brake-fluid"), *(("rowan", key) for key in KEYS)])  # fmt: skip
def test_the_demo_vehicles_rehearse_without_a_finding_above_advice(vehicle: str, key: str) -> None:
    sheet = load_as(VehicleSheet, packaged.text(f"demo/files/{vehicle}.toml"), where=vehicle)
    played = bind(library_procedure(key), sheet)
    assert set(played.roles) >= {name for name, role in played.procedure.roles.items() if not role.optional}
    assert [one for one in rehearse(played).findings if one.grade != "advice"] == []


def test_one_procedure_serves_both_axles() -> None:
    procedure = library_procedure("axle-oil")
    rear, front = bound(procedure, fluid_sheets.OLD), bound(procedure, fluid_sheets.OLD, item="axle_in_front")
    assert (rear.roles["oil"], front.roles["oil"]) == ("rear_axle", "front_axle")
    assert front.roles["drain_seal"] == "front_axle_drain_ring"
    assert [fluid.circuit for fluid in needs_of(front).fluids] == ["front_axle"]


def test_a_step_goes_round_the_wheels_all_of_it_at_one_then_at_the_next() -> None:
    steps = [step.id for step in bound(library_procedure("brake-fluid")).steps]
    first = steps.index("hose-on-1")
    assert steps[first : first + 6] == ["hose-on-1", "bleed-1", "screw-tight-1", "hose-on-2", "bleed-2", "screw-tight-2"]
    assert "second" in render(bound(library_procedure("brake-fluid")).step("hose-on-2").words, READER)


def test_a_bleed_screw_that_the_sheet_has_is_no_question_and_one_it_has_not_is() -> None:
    coolant = library_procedure("coolant")
    assert bound(coolant, fluid_sheets.VAN).step("bleed").condition is None
    assert bound(coolant, fluid_sheets.CAR).step("bleed").condition is not None


@pytest.mark.parametrize(
    ("key", "gates"),
    [
        (
            "manual-gearbox-oil",
            {"before under": "unit", "before first undo": "fill-loose", "before first pour": "pour", "before first drive": "test-drive"},
        ),
        (
            "coolant",
            {"before first undo": "cap-off", "before first pour": "pour", "before first start": "run", "before first drive": "enter"},
        ),
        (
            "brake-fluid",
            {
                "before first undo": "tank-open",
                "before first pour": "tank-fill",
                "before first start": "run",
                "before first drive": "slow-stop",
            },
        ),
    ],
)
def test_gates_stand_where_something_cannot_be_taken_back(key: str, gates: dict[str, str]) -> None:
    found = {gate.name: gate.before for gate in gates_of(bound(library_procedure(key), raised=False, undertray=False))}
    assert gates.items() <= found.items()
    assert found["end"] == ""


def test_the_pedal_is_asked_for_before_the_vehicle_moves_and_the_cold_before_the_cap() -> None:
    brake = {gate.name: [one.key for one in gate.questions] for gate in gates_of(bound(library_procedure("brake-fluid")))}
    assert "gate.ask_pedal_on" in brake["before first drive"]
    coolant = {gate.name: [one.key for one in gate.questions] for gate in gates_of(bound(library_procedure("coolant")))}
    assert "gate.ask_cold" in coolant["before first undo"]
    for questions in (*brake.values(), *coolant.values()):
        assert "gate.ask_later" not in questions or questions[-1] == "gate.ask_later"


@pytest.mark.parametrize(
    ("key", "stream", "volume_l", "pan_l"),
    [("manual-gearbox-oil", "gear oil", 2.1, 2.52), ("coolant", "coolant", 9.5, 11.4), ("brake-fluid", "brake fluid", 0.9, None)],
)
def test_fluids_and_waste_follow_the_refill(key: str, stream: str, volume_l: float, pan_l: float | None) -> None:
    needs = needs_of(bound(library_procedure(key)))
    assert [(one.stream, one.volume_l) for one in needs.waste] == [(stream, volume_l), ("rags", None)]
    assert [fluid.volume_l for fluid in needs.fluids] == [volume_l]
    assert needs.pan_l == (None if pan_l is None else pytest.approx(pan_l))


def test_where_you_were_says_what_stops_a_drive() -> None:
    said = {}
    for key in ("manual-gearbox-oil", "coolant", "brake-fluid"):
        for one in rehearse(bound(library_procedure(key), raised=False, undertray=False)).states:
            said[key, one.step] = [render(message, READER) for message in one.messages]
    assert said["manual-gearbox-oil", "drain"][0] == "oil of the manual gearbox: let out and not filled again. Do not drive."
    assert said["manual-gearbox-oil", "pour"][0] == "oil of the manual gearbox: filled, but its level is not proved. Do not drive."
    assert said["manual-gearbox-oil", "enter"][0] == "oil of the manual gearbox: filled."
    assert "Open: coolant tank, bonnet." in said["coolant", "drain"]
    assert said["brake-fluid", "bleed-1"][0] == "The brakes are not proved: do not move it, not by a hand's breadth."
    assert said["brake-fluid", "slow-stop"][0] == "brake fluid: filled."


@pytest.mark.parametrize("key", KEYS)
def test_every_finding_of_a_dropped_move_can_be_read(key: str) -> None:
    procedure = library_procedure(key)
    for step in procedure.steps:
        for move in step.moves:
            for one in rehearse(bound(drop(procedure, move.id))).findings:
                for message in (one.expected, one.found, one.remedy):
                    assert "?" not in render(message, READER)
                    assert "{" not in render(message, READER)


@pytest.mark.parametrize("key", ["coolant", "brake-fluid"])
def test_work_that_can_hurt_says_so_and_defers(key: str) -> None:
    said = " ".join(hazard.words for hazard in library_procedure(key).hazards)
    assert "{term.handbook}" in said
    assert ("child" in said and "animal" in said) if key == "coolant" else "licensed practice" in said
