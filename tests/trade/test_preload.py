"""Which fastenings are checked at all, and what is said of them."""

from __future__ import annotations

import re

import pytest

from twomarks.errors import OutOfRangeError
from twomarks.trade.preload import PreloadCheck, preload_check
from twomarks.trade.threads import read_thread
from twomarks.words import Reader, render


def checked(torque: float, thread: str = "M10", **changed: object) -> PreloadCheck:
    said = {"kind": "clamping", "material": "steel", "property_class": "8.8", "part": "caliper bolt"} | changed
    return preload_check(torque_nm=torque, thread=read_thread(text=thread), **said)  # type: ignore[arg-type]


def words(check: PreloadCheck) -> str:
    return render(check.reason, Reader.of("metric")).replace("\u00a0", " ")


@pytest.mark.parametrize("torque", [38.0, 120.0])
@pytest.mark.parametrize("kind", ["sealing", "unknown", "clamping"])
def test_a_drain_plug_is_not_checked_whatever_the_torque(torque: float, kind: str):
    check = checked(torque, "M16x1.5", kind=kind, part="drain plug")
    assert check.state == "not checked"
    assert words(check) == "Not checked: sealing, the maker's figure only."


@pytest.mark.parametrize(
    "part",
    [
        "drain plug", "fill plug", "level plug", "filler cap", "oil filter", "filter housing", "bleed screw", "union nut", "spark plug",
        "glow plugs", "engine_oil_drain", "brake hose", "Bleeder", "sump bolt", "rocker cover",
    ],
)  # fmt: skip
def test_what_seals_is_not_checked_even_when_declared_clamping(part: str):
    assert words(checked(30.0, part=part)) == "Not checked: sealing, the maker's figure only."


@pytest.mark.parametrize("material", ["light alloy", "aluminium", "brass", "plastic", "cast iron", "stainless steel"])
def test_only_steel_is_checked(material: str):
    check = checked(30.0, material=material)
    assert check.state == "not checked"
    assert material in words(check)


@pytest.mark.parametrize(
    ("changed", "what"),
    [
        ({"kind": "unknown"}, "clamps or seals is not known"),
        ({"material": " "}, "screws into is not known"),
        ({"property_class": ""}, "class on the head is not known"),
        ({"property_class": "A2-70"}, "A2-70 is not in the tables"),
        ({"by_angle": True}, "by angle or to yield"),
    ],
)
def test_what_is_not_known_is_not_checked(changed: dict[str, object], what: str):
    check = checked(30.0, **changed)
    assert check.state == "not checked"
    assert what in words(check)


@pytest.mark.parametrize("thread", ["1/2-20 UNF", "M20", "M24x2"])
def test_a_thread_outside_the_tables_is_not_checked(thread: str):
    assert checked(30.0, thread).state == "not checked"


@pytest.mark.parametrize(
    ("torque", "state"),
    [
        (30.0, "within"),
        (53.8, "within"),
        (54.0, "above the limit"),
        (200.0, "above the limit"),
        (10.0, "unusual"),
        (4.5, "unusual"),
    ],
)
def test_states_of_a_bolt_m10(torque: float, state: str):
    assert checked(torque).state == state


def test_an_oiled_bolt_has_the_lower_limit():
    assert checked(50.0).state == "within"
    assert checked(50.0, is_oiled=True).state == "above the limit"


@pytest.mark.parametrize("torque", [3.0, 30.0, 100.0])
@pytest.mark.parametrize("oiled", [False, True])
def test_no_other_figure_is_ever_told_and_nothing_is_too_low(torque: float, oiled: bool):
    text = words(checked(torque, is_oiled=oiled))
    numbers = set(re.findall(r"\d+(?:\.\d+)?", text.replace("M10", "")))
    assert numbers <= {f"{torque:g}", "8.8"}
    assert "too low" not in text
    assert "handbook" in text


@pytest.mark.parametrize("torque", [0.0, -3.0, float("nan")])
def test_no_torque_is_refused(torque: float):
    with pytest.raises(OutOfRangeError):
        checked(torque)
