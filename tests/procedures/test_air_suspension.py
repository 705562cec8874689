"""Air suspension: set before the jack touches and before anybody goes beneath, where it is there or may be there."""

from __future__ import annotations

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import bound, drop
from twomarks.model.procedure import Procedure
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import Finding, rehearse

PROCEDURES = [library_procedure(key) for key in ("engine-oil-spin-on", "engine-oil-cartridge")]
STEPS = {"air-set", "air-set-again"}


def _sheet(procedure: Procedure, *lines: str) -> str:
    text = sheets.CAR if procedure.applies.filter == "spin-on" else sheets.VAN
    return text.replace("[chassis]", "\n".join(("[chassis]", *lines)))


def _found(procedure: Procedure, text: str, rule: str, **choices: object) -> list[Finding]:
    return [one for one in rehearse(bound(procedure, text, **choices)).findings if one.rule == rule]


each = pytest.mark.parametrize("procedure", PROCEDURES, ids=lambda procedure: procedure.key)
AIR, STEEL = 'suspension = "air"', 'suspension = "steel"'


@each
def test_known_air_springs_bring_the_steps_without_a_condition(procedure: Procedure) -> None:
    steps = {step.id: step for step in bound(procedure, _sheet(procedure, AIR, "undertray = true")).steps}
    assert set(steps) >= STEPS
    assert {steps[name].condition for name in STEPS} == {None}


@each
def test_steel_springs_leave_the_steps_out(procedure: Procedure) -> None:
    assert not STEPS & {step.id for step in bound(procedure, _sheet(procedure, STEEL)).steps}


@each
def test_where_the_sheet_says_nothing_the_steps_stand_with_their_condition(procedure: Procedure) -> None:
    played = bound(procedure, _sheet(procedure))
    assert played.air_suspension is None
    assert all(played.step(name).condition is not None for name in STEPS)


@each
def test_known_air_springs_that_are_not_set_are_a_harm(procedure: Procedure) -> None:
    found = _found(drop(procedure, "air-set"), _sheet(procedure, AIR), "air_suspension")
    assert ("raise", "harm", "violated") in {(one.step, one.grade, one.basis) for one in found}


@each
def test_known_air_springs_that_are_set_bring_no_finding(procedure: Procedure) -> None:
    assert _found(procedure, _sheet(procedure, AIR), "air_suspension") == []


@each
def test_where_nobody_has_said_it_is_never_shown(procedure: Procedure) -> None:
    found = _found(drop(procedure, "air-set"), _sheet(procedure), "air_suspension")
    assert [(one.step, one.grade, one.basis) for one in found] == [("raise", "harm", "not shown")]


@each
def test_steel_springs_need_no_setting(procedure: Procedure) -> None:
    assert _found(drop(procedure, "air-set"), _sheet(procedure, STEEL), "air_suspension") == []


@each
def test_a_run_of_the_engine_asks_for_the_setting_again(procedure: Procedure) -> None:
    text = _sheet(procedure, AIR, "undertray = true")
    assert [one.step for one in _found(drop(procedure, "air-set-again"), text, "air_suspension")] == ["raise-tray"]


@each
def test_going_under_on_air_springs_is_a_harm(procedure: Procedure) -> None:
    found = _found(procedure, _sheet(procedure, AIR, "raised_to_drain = false"), "air_springs")
    assert {(one.grade, one.basis) for one in found} == {("harm", "violated")}


@each
def test_going_under_on_stands_brings_no_finding(procedure: Procedure) -> None:
    assert _found(procedure, _sheet(procedure, AIR, "raised_to_drain = true"), "air_springs") == []


@each
def test_going_under_on_steel_springs_brings_no_finding(procedure: Procedure) -> None:
    assert _found(procedure, _sheet(procedure, STEEL, "raised_to_drain = false"), "air_springs") == []


@each
def test_on_air_springs_it_is_raised_where_nobody_has_said(procedure: Procedure) -> None:
    text = _sheet(procedure, AIR)
    assert bound(procedure, text).step("raise").condition is None
    assert _found(procedure, text, "air_springs") == []


@each
def test_an_answer_not_to_raise_it_is_kept_and_found(procedure: Procedure) -> None:
    assert _found(procedure, _sheet(procedure, AIR), "air_springs", raised=False)


def test_a_motorcycle_of_which_nothing_is_said_has_no_air_suspension() -> None:
    text = sheets.BARE.replace('kind = "car"', 'kind = "motorcycle"')
    assert bound(PROCEDURES[0], text).air_suspension is False
    assert bound(PROCEDURES[0], sheets.BARE).air_suspension is None
