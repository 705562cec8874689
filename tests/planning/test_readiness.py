"""Readiness by made-up needs and shelves: what is there, what is lacking, and what nobody has said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.planning.readiness import Readiness, ReadinessItem, readiness
from twomarks.procedures.needs import NeededFluid, NeededPart, NeededTool, NeededWaste, Needs
from twomarks.words import Figure, Reader, Wording, keys, render

SHELF = """format = "twomarks/shelf/1"
id = "5d4f0a51-3a52-4e3d-8a2e-6c1d8a7b0f33"
name = "Invented shelf"
source = "label"
[parts.washer]
name = "Washer"
numbers = ["ET-90.16.22"]
[tools.socket_17]
name = "Socket"
kind = "socket"
drive = "hex socket 17 mm"
[tools.wrench_small]
name = "Small wrench"
low = "5 N·m"
high = "25 N·m"
[tools.wrench_large]
name = "Large wrench"
low = "20 N·m"
high = "110 N·m"
[tools.funnel]
name = "Funnel"
[pans.tub]
name = "Tub"
holds = "8 L"
[cans.old]
name = "Old oil"
holds = "10 L"
stream = "engine oil"
"""


@pytest.fixture(scope="module")
def shelf() -> ShelfList:
    return load_as(ShelfList, SHELF, where="test")


EMPTY = Needs(tools=(), parts=(), fluids=(), waste=(), pan_l=None, active_min=30.0, elapsed_min=60.0)


def tool(key: str, *, drive: str = "", torques: tuple[float, ...] = ()) -> NeededTool:
    figures = tuple(Figure(torque, "N.m") for torque in torques)
    return NeededTool(
        key=key, name=Wording(key), drive=Figure(drive) if drive else None, torque=figures[-1] if figures else None, torques=figures
    )


def ask(needs: Needs, shelf: ShelfList | None, **given: object) -> Readiness:
    answer = readiness(needs, shelf=shelf, **{"stock": {}, **given})  # type: ignore[arg-type]
    for item in answer.items:
        assert item.reason.key in keys()
        assert "{" not in render(item.reason, Reader())
    return answer


def only(needs: Needs, shelf: ShelfList | None, **given: object) -> ReadinessItem:
    (item,) = ask(needs, shelf, **given).items
    return item


def test_a_job_that_needs_nothing_is_ready() -> None:
    assert ask(EMPTY, None).state == "ready"


def test_a_tool_nobody_spoke_of_is_not_known_and_never_ready() -> None:
    answer = ask(replace(EMPTY, tools=(tool("pick"),)), None)
    assert (answer.state, answer.items[0].question) == ("not known", "tool:pick")


@pytest.mark.parametrize(("word", "state"), [("have", "ready"), ("have not", "not ready"), ("do not know", "not known")])
def test_an_answer_settles_a_tool(word: str, state: str) -> None:
    assert ask(replace(EMPTY, tools=(tool("pick"),)), None, answers={"tool:pick": word}).state == state


def test_a_tool_on_the_shelf_list_is_there_unless_the_answer_says_otherwise(shelf: ShelfList) -> None:
    needs = replace(EMPTY, tools=(tool("funnel"),))
    assert only(needs, shelf).state == "have"
    assert only(needs, shelf, answers={"tool:funnel": "have not"}).state == "have not"


def test_a_socket_is_there_by_its_size_only(shelf: ShelfList) -> None:
    assert only(replace(EMPTY, tools=(tool("plug_socket", drive="hex socket 17 mm"),)), shelf).state == "have"
    other = only(replace(EMPTY, tools=(tool("plug_socket", drive="hex 19 mm"),)), shelf)
    assert other.state == "not known"
    assert "hex 19 mm" in render(other.reason, Reader())


@pytest.mark.parametrize(
    ("torques", "state", "named"),
    [
        ((38.0,), "have", "Large wrench"),
        ((10.0,), "have", "Small wrench"),
        ((10.0, 38.0, 150.0), "have not", "Large wrench"),
        ((3.0,), "have not", "Small wrench"),
    ],
)
def test_every_torque_needs_a_wrench_that_reaches_it(shelf: ShelfList, torques: tuple[float, ...], state: str, named: str) -> None:
    item = only(replace(EMPTY, tools=(tool("torque_wrench", torques=torques),)), shelf)
    assert item.state == state
    assert named in render(item.reason, Reader())


def test_no_answer_makes_a_wrench_reach_further(shelf: ShelfList) -> None:
    needs = replace(EMPTY, tools=(tool("torque_wrench", torques=(150.0,)),))
    assert only(needs, shelf, answers={"tool:torque_wrench": "have"}).state == "have not"


def test_a_torque_that_is_not_known_leaves_the_wrench_not_known(shelf: ShelfList) -> None:
    item = only(replace(EMPTY, tools=(tool("torque_wrench"),)), shelf)
    assert (item.state, item.reason.key) == ("not known", "ready.torque_unknown")


def test_stands_are_asked_for_even_when_they_are_listed(shelf: ShelfList) -> None:
    listed = load_as(ShelfList, SHELF + '[tools.axle_stands]\nname = "Stands"\n', where="test")
    item = only(replace(EMPTY, tools=(tool("axle_stands"),)), listed)
    assert (item.state, item.reason.key) == ("not known", "ready.stands_unseen")
    assert only(replace(EMPTY, tools=(tool("axle_stands"),)), shelf, answers={"tool:axle_stands": "have"}).state == "have"


@pytest.mark.parametrize(("pan_l", "state"), [(8.0, "have"), (8.01, "have not"), (None, "not known")])
def test_the_pan_must_hold_what_is_asked_of_it(shelf: ShelfList, pan_l: float | None, state: str) -> None:
    item = only(replace(EMPTY, pan_l=pan_l, tools=(tool("drain_pan"),)), shelf)
    assert (item.state, item.kind) == (state, "pan")


def test_without_a_shelf_list_the_pan_is_asked_for_with_its_size() -> None:
    item = only(replace(EMPTY, pan_l=5.2), None)
    assert item.state == "not known"
    assert "5.2" in render(item.reason, Reader())


@pytest.mark.parametrize(("inside_ml", "state"), [(0, "have"), (5200, "have"), (5300, "have not")])
def test_a_waste_can_is_filled_to_95_percent_at_most(shelf: ShelfList, inside_ml: int, state: str) -> None:
    needs = replace(EMPTY, waste=(NeededWaste(stream="engine oil", volume_l=4.3),))
    assert only(needs, shelf, cans={"old": inside_ml}).state == state


def test_waste_of_another_kind_finds_no_room_in_the_oil_can(shelf: ShelfList) -> None:
    assert only(replace(EMPTY, waste=(NeededWaste(stream="coolant", volume_l=1.0),)), shelf).state == "not known"


def test_an_unknown_amount_of_a_fluid_is_not_known_though_a_can_is_there(shelf: ShelfList) -> None:
    assert only(replace(EMPTY, waste=(NeededWaste(stream="engine oil"),)), shelf).state == "not known"


def part(*numbers: str, count: int = 1) -> Needs:
    figures = tuple(Figure(number) for number in numbers)
    return replace(EMPTY, parts=(NeededPart(slot="washer", role="seal", name=Wording("washer"), numbers=figures, count=count),))


def test_parts_are_counted_by_number_apart_from_spaces_and_hyphens(shelf: ShelfList) -> None:
    assert only(part("et 90-16-22"), shelf, stock={"washer": 1}).state == "have"
    assert only(part("et 90-16-22", count=2), shelf, stock={"washer": 1}).state == "have not"
    assert only(part("OTHER 1"), shelf, stock={"washer": 5}).state == "have not"


def test_a_part_without_a_number_is_not_known(shelf: ShelfList) -> None:
    assert only(part(), shelf, stock={"washer": 5}).state == "not known"
    assert only(part(), shelf, answers={"part:washer": "have"}).state == "have"


def fluid(volume_l: float | None) -> Needs:
    return replace(EMPTY, fluids=(NeededFluid(circuit="engine_oil", name=Wording("oil"), volume_l=volume_l),))


def test_a_fluid_must_be_chosen_known_and_there(shelf: ShelfList) -> None:
    assert only(fluid(4.3), shelf, stock={"x": 4300}, product="x").state == "have"
    short = only(fluid(4.3), shelf, stock={"x": 4000}, product="x")
    assert short.state == "have not"
    assert "0.3" in render(short.reason, Reader())
    assert only(fluid(4.3), shelf, stock={"x": 9000}).state == "not known"
    assert only(fluid(None), shelf, stock={"x": 9000}, product="x").state == "not known"


def test_what_is_lacking_comes_first_and_decides(shelf: ShelfList) -> None:
    needs = replace(part("OTHER 1"), tools=(tool("pick"), tool("funnel")))
    answer = ask(needs, shelf)
    assert answer.state == "not ready"
    assert [item.state for item in answer.items] == ["have not", "not known", "have"]
