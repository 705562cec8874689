"""`twomarks reckon` torque, wrench, adapter, thread."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from tests.cli.asked import answered, answered_json, told
from twomarks.cli.reckon import reckon
from twomarks.errors import DocumentError, InputError, OutOfRangeError


def test_a_torque_is_told_in_every_unit():
    found = answered("torque", "torque=18 lbf ft")
    values = {row["unit"]: row["value"] for row in found.results["in_units"]}
    assert values["N·m"] == pytest.approx(24.4047, abs=1e-4)
    assert values["lbf·in"] == pytest.approx(216.0)
    assert "24.4 N·m" in told(found)
    assert "handbook" in told(found)


def test_a_scale_in_another_unit_gets_its_nearest_mark():
    found = answered("torque", "torque=38 N m", "graduation=1 lbf ft")
    assert (found.results["setting"], found.results["setting_unit"]) == (pytest.approx(28.0), "lbf·ft")
    assert "28 lbf·ft" in told(found)


def test_torque_plus_angle_is_passed_through_with_a_new_fastener():
    found = answered("torque", "torque=40 N m", "angle=90 deg", "angle=45 deg", "to-yield=yes")
    assert (found.results["angles_deg"], found.results["new_fastener"]) == ([90.0, 45.0], True)
    assert "always a new fastener" in told(found)


def test_a_wrench_inside_its_range():
    found = answered("wrench", "torque=38 N m", "low=10 lbf ft", "high=80 lbf ft", "graduation=1 lbf ft")
    assert (found.exit_code, found.results["state"], found.results["suits"]) == (0, "inside", True)
    assert found.results["tolerance_nm"] == pytest.approx(1.52)


@pytest.mark.parametrize(
    ("words", "state"),
    [
        (("torque=38 N m", "low=40 N m", "high=210 N m"), "outside"),
        (("torque=38 N m", "low=5 N m", "high=25 N m", "graduation=1 N m"), "outside"),
        (("torque=38 N m", "low=20 N m", "high=110 N m", "graduation=10 N m"), "too coarse"),
        (("torque=38 N m", "low=20 N m", "high=110 N m", "graduation=2.5 N m", "tolerance=1 %"), "too coarse"),
    ],
)
def test_a_wrench_that_does_not_suit_ends_with_1(words: tuple[str, ...], state: str):
    found = answered("wrench", *words)
    assert (found.exit_code, found.results["state"], found.results["suits"]) == (1, state, False)
    assert CliRunner().invoke(reckon, ["wrench", *words], standalone_mode=False).return_value == 1


def test_the_lowest_fifth_is_told_beside_the_setting():
    found = answered("wrench", "torque=25 N m", "low=10 N m", "high=210 N m", "graduation=1 N m")
    assert (found.exit_code, found.results["state"]) == (0, "at the edge")
    assert "lowest fifth" in told(found)
    assert "25 N·m" in told(found)


def test_an_adapter_in_line_and_square():
    found = answered("adapter", "torque=50 lbf ft", "wrench=16 in", "adapter=2 in")
    assert found.results["setting_nm"] == pytest.approx(60.2586, abs=1e-4)
    assert "44.4 lbf·ft" in told(found)
    square = answered("adapter", "torque=50 N m", "wrench=40 cm", "adapter=5 cm", "angle=90 deg", "graduation=5 N m")
    assert square.results["mark"] == pytest.approx(50.0)
    assert "changes nothing" in told(square)


@pytest.mark.parametrize("torque", ["38 N m", "120 N m"])
def test_a_drain_plug_is_not_checked(torque: str):
    found = answered("thread", "thread=M16x1.5", f"torque={torque}", "kind=clamping", "part=drain plug", "material=steel", "class=8.8")
    assert found.results["check"] == "not checked"
    assert "Not checked: sealing, the maker's figure only." in told(found)


@pytest.mark.parametrize(("torque", "state"), [("40 N m", "within"), ("60 N m", "above the limit"), ("5 N m", "unusual")])
def test_a_clamping_bolt_in_steel_is_checked(torque: str, state: str):
    found = answered("thread", "thread=M10", f"torque={torque}", "kind=clamping", "material=steel", "class=8.8", "part=caliper bolt")
    assert (found.results["check"], found.exit_code) == (state, 0)
    assert "too low" not in told(found)


def test_a_thread_without_a_torque_is_only_described():
    found = answered("thread", "thread=M10")
    assert "check" not in found.results
    assert (found.results["across_flats_iso_mm"], found.results["across_flats_older_mm"]) == (16.0, 17.0)
    assert "try before you pull" in told(found)
    socket = answered("thread", "thread=M20x1.5 LH", "drive=hex socket 17 mm")
    assert "across_flats_iso_mm" not in socket.results
    assert "clockwise" in told(socket)
    assert "17 mm" in told(socket)


def test_an_inch_thread_is_kept_as_text():
    found = answered("thread", "thread=1/2-20 UNF", "torque=60 N m", "kind=clamping", "material=steel", "class=8.8")
    assert (found.results["series"], found.results["diameter_mm"], found.results["check"]) == ("inch", None, "not checked")
    assert found.sources


@pytest.mark.parametrize(
    ("name", "words", "error"),
    [
        ("torque", ("torque=0 N m",), OutOfRangeError),
        ("torque", ("torque=38",), InputError),
        ("wrench", ("torque=38 N m", "low=110 N m", "high=20 N m"), OutOfRangeError),
        ("wrench", ("torque=38 N m",), DocumentError),
        ("adapter", ("torque=80 N m", "wrench=40 cm", "adapter=50 cm", "angle=180 deg"), OutOfRangeError),
        ("adapter", ("torque=80 bar", "wrench=40 cm", "adapter=5 cm"), InputError),
        ("thread", ("thread=washer",), InputError),
        ("thread", ("thread=M10", "kind=loose"), InputError),
        ("thread", ("thread=M10", "drive=teeth"), InputError),
    ],
)
def test_what_cannot_be_is_refused(name: str, words: tuple[str, ...], error: type[InputError]):
    with pytest.raises(error):
        answered(name, *words)


def test_the_answer_as_data():
    found = answered_json("wrench", "torque=38 N m", "low=20 N m", "high=110 N m", "graduation=1 N m")
    assert found["results"]["setting_nm"] == pytest.approx(38.0)
    assert [source["key"] for source in found["sources"]] == ["iso_6789"]


def test_a_torque_is_not_said_again_in_its_own_unit():
    text = told(answered("torque", "torque=38 N m"))
    assert text.count("N·m") == 1
    assert "28 lbf·ft" in text
