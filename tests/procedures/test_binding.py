"""Binding: roles, figures with their sources, conditions, and what a sheet lacks."""

from __future__ import annotations

from tests.procedures import sheets
from tests.procedures.mistakes import bound
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Choices
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.library import library_procedure
from twomarks.words import Figure, Reader, Source, render

SPIN_ON, CARTRIDGE = library_procedure("engine-oil-spin-on"), library_procedure("engine-oil-cartridge")


def test_a_figure_keeps_its_source_and_who_confirmed_it() -> None:
    step = bound(SPIN_ON).step("plug-tight")
    assert step.amount == Figure(38.0, "N.m", Source("handbook", "owner's book, p. 216"), "A., 2026-03-02, book in hand")
    assert step.amount_path == "fastenings.engine_oil_drain.torque"
    assert step.words.figures["drain_plug.torque"] == step.amount


def test_roles_come_from_the_item_then_from_the_sheet_then_by_their_usual_key() -> None:
    roles = bind(CARTRIDGE, sheets.sheet(sheets.VAN), item="engine_oil_and_filter").roles
    assert roles["drain_plug"] == "sump_bolt"  # named by the item
    assert roles["drain_seal"] == "plug_ring"  # the seal that the fastening names
    assert roles["rings"] == "filter_o_rings"
    assert roles["oil"] == "engine_oil"  # usual key


def test_a_step_whose_condition_is_known_not_to_hold_is_left_out() -> None:
    car = bound(SPIN_ON, sheets.CAR, raised=False, undertray=False)
    assert {"raise", "stands", "lower", "tray-off", "range-lever", "key-far"} <= set(car.left_out)
    assert car.step("drain").holds is True


def test_a_condition_that_nobody_has_answered_stays_on_the_step() -> None:
    step = bound(SPIN_ON, sheets.VAN).step("key-far")
    assert step.holds is None
    assert step.condition is not None
    assert bound(SPIN_ON, sheets.OLD).step("range-lever").condition is None


def test_a_turn_stands_in_where_the_sheet_has_no_torque_and_the_other_way_round() -> None:
    text = sheets.CAR.replace('turn = { value = "0.75 turn", source = "stamped: on the filter" }', 'torque = "17 N·m"')
    step = bound(SPIN_ON, text).step("filter-tight")
    assert step.amount_path == "fastenings.oil_filter.torque"
    assert step.amount is not None
    assert step.amount.unit == "N.m"


def test_the_wait_before_the_reading_is_the_sheets_own_or_common_practice() -> None:
    own, practice = bound(SPIN_ON, sheets.CAR).step("settle"), bound(SPIN_ON, sheets.OLD).step("settle")
    assert (own.wait_min, practice.wait_min) == (8.0, 10.0)
    assert practice.wait is not None
    assert practice.wait.source == Source("practice")


def test_pours_come_from_the_plan() -> None:
    plan = pour_plan(sheets.sheet(sheets.CAR))
    played = bind(SPIN_ON, sheets.sheet(sheets.CAR), choices=Choices(pour=plan))
    assert played.step("pour-first").litres == plan.first_l
    unplanned = bind(SPIN_ON, sheets.sheet(sheets.CAR)).step("pour-first")
    assert (unplanned.litres, unplanned.amount) == (None, None)


def test_a_repeated_step_stands_once_for_each_word() -> None:
    played = bound(library_procedure("walk-round"), sheets.BARE)
    tyres = [step for step in played.steps if step.step.id == "tyres"]
    assert [step.id for step in tyres] == ["tyres-1", "tyres-2"]
    assert "both front tires" in render(tyres[0].words, Reader.of("us"))
    assert [step.record for step in tyres] == [("front left", "front right"), ("rear left", "rear right")]


def test_what_a_sheet_lacks_is_listed_with_where_it_is_found_the_worst_first() -> None:
    lacks = bound(CARTRIDGE).lacks
    assert lacks[0].path == "fastenings.sump_bolt.torque"
    assert lacks[0].grade == "damage"
    assert "torque" in render(lacks[0].what, Reader.of("uk"))
    assert lacks[0].where_to_find.key == "procedure.find_workshop"
    bare = bound(SPIN_ON, sheets.BARE).lacks
    assert {lack.path for lack in bare} >= {"circuits.engine_oil", "fastenings.engine_oil_drain", "slots.oil_filter"}


def test_nothing_is_lacking_for_a_whole_sheet() -> None:
    assert bound(SPIN_ON, sheets.CAR).lacks == ()


def test_a_step_of_several_moves_is_bound_as_its_moves_in_order_with_its_own_among_them() -> None:
    step = bound(SPIN_ON).step("plug-in")
    assert [(move.action, move.things, move.id) for move in step.moves] == [
        ("clean", ("drain_area",), "plug-in"),
        ("fit", ("drain_plug",), "plug-in"),
    ]
    assert (step.action, step.things) == ("fit", ("drain_plug",))
    assert {move.place for move in step.moves} == {"under"}


def test_the_wait_of_a_step_is_that_of_the_move_that_waits() -> None:
    step = bound(SPIN_ON).step("pour-first")
    assert [move.wait_min for move in step.moves] == [0.0, 5.0]
    assert step.wait_min == 5.0
    assert step.hands_free


def test_a_move_may_be_made_elsewhere_than_its_step() -> None:
    assert [move.place for move in bound(SPIN_ON).step("wipe").moves] == ["under", "bench"]
