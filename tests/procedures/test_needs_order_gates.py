"""What a bound procedure needs, which step must precede which, and where the card stops."""

from __future__ import annotations

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import bound, step_of
from twomarks.procedures.gates import gates_of
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.order import may_swap, order_of

SPIN_ON, CARTRIDGE = library_procedure("engine-oil-spin-on"), library_procedure("engine-oil-cartridge")


def test_tools_carry_the_size_and_the_torques_they_must_reach() -> None:
    tools = {tool.key: tool for tool in needs_of(bound(CARTRIDGE)).tools}
    assert tools["plug_socket"].drive is not None
    assert tools["plug_socket"].drive.value == "hex 13 mm"
    assert tools["cap_socket"].drive is not None
    assert [figure.value for figure in tools["torque_wrench"].torques] == [25.0]
    car = {tool.key: tool for tool in needs_of(bound(SPIN_ON)).tools}
    assert [figure.value for figure in car["torque_wrench"].torques] == [38.0]


def test_stands_are_not_asked_for_where_nothing_is_raised() -> None:
    keys = {tool.key for tool in needs_of(bound(SPIN_ON, raised=False, undertray=False)).tools}
    assert not {"jack", "axle_stands"} & keys


def test_parts_carry_number_and_count() -> None:
    parts = {part.slot: part for part in needs_of(bound(CARTRIDGE)).parts}
    assert parts["filter_o_rings"].count == 3
    assert [number.value for number in parts["oil_filter"].numbers] == ["E-77"]
    assert set(parts) == {"plug_ring", "filter_o_rings", "oil_filter"}


def test_fluids_waste_and_pan_follow_the_refill() -> None:
    needs = needs_of(bound(SPIN_ON))
    assert [(fluid.circuit, fluid.volume_l) for fluid in needs.fluids] == [("engine_oil", 4.3)]
    assert needs.pan_l == pytest.approx(4.3 * 1.2)
    assert [waste.stream for waste in needs.waste] == ["engine oil", "filter", "rags"]


def test_an_unknown_refill_makes_no_number() -> None:
    needs = needs_of(bound(SPIN_ON, sheets.BARE))
    assert (needs.pan_l, needs.fluids[0].volume_l, needs.waste[0].volume_l) == (None, None, None)


def test_work_during_a_wait_takes_no_time_of_its_own() -> None:
    needs = needs_of(bound(SPIN_ON))
    assert 0 < needs.active_min < needs.elapsed_min
    serial = needs.active_min + sum(step.wait_min for step in bound(SPIN_ON).steps)
    assert needs.elapsed_min < serial


def test_the_walk_round_needs_a_lamp_and_about_ten_minutes() -> None:
    needs = needs_of(bound(library_procedure("walk-round"), sheets.BARE))
    assert [tool.key for tool in needs.tools] == ["lamp"]
    assert (needs.parts, needs.fluids, needs.waste, needs.pan_l) == ((), (), (), None)
    assert 9 <= needs.active_min <= 11
    assert needs.elapsed_min == needs.active_min


@pytest.mark.parametrize(
    ("first", "then"),
    [("chock", "raise"), ("stands", "plug-loose"), ("seal-new", "plug-tight"), ("plug-tight", "pour-first"), ("old-seal", "filter-on"),
     ("pour-first", "first-start"), ("filler-shut", "first-start"), ("first-start", "leak-running"), ("settle", "read-after")],
)  # fmt: skip
def test_what_must_come_first_is_known(first: str, then: str) -> None:
    assert step_of(SPIN_ON, first) in order_of(bound(SPIN_ON))[step_of(SPIN_ON, then)]


def test_steps_that_share_nothing_may_be_swapped() -> None:
    order = order_of(bound(SPIN_ON))
    assert may_swap(order, "ring-oil", "plug-tight")
    assert not may_swap(order, "plug-in", "plug-tight")


def test_the_order_is_that_of_the_steps() -> None:
    played = bound(SPIN_ON)
    place = {step.id: number for number, step in enumerate(played.steps)}
    for step, before in order_of(played).items():
        assert all(place[one] < place[step] for one in before)


def test_gates_stand_where_something_cannot_be_taken_back() -> None:
    gates = {gate.name: gate for gate in gates_of(bound(SPIN_ON))}
    assert {name: gate.before for name, gate in gates.items()} == {
        "before under": "tray-off",
        "before first undo": "plug-loose",
        "before first pour": "pour-first",
        "before first start": "first-start",
        "before first drive": "reset",
        "end": "",
    }
    assert "gate.ask_shaken" in {question.key for question in gates["before under"].questions}
    assert "gate.ask_rings" not in {question.key for question in gates["before first pour"].questions}
    cartridge = {gate.name: gate for gate in gates_of(bound(CARTRIDGE))}
    assert "gate.ask_rings" in {question.key for question in cartridge["before first pour"].questions}
    assert cartridge["before first undo"].before == "cap-loose"


def test_gates_come_in_the_order_of_the_steps_and_the_walk_round_has_none() -> None:
    played = bound(CARTRIDGE)
    place = {step.id: number for number, step in enumerate(played.steps)}
    places = [place.get(gate.before, len(place)) for gate in gates_of(played)]
    assert places == sorted(places)
    assert gates_of(bound(library_procedure("walk-round"), sheets.BARE)) == ()
