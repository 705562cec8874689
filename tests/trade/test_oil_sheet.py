"""A data sheet bears out a label or contradicts it: grade, class, and what the exhaust can bear."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.label import read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict

LABEL = "5W-30, ACEA C3"
BLOCK = CallBlock(("5W-30",), ("ACEA C3",), (), -25.0)


def verdict(label: str = LABEL, block: CallBlock = BLOCK, *, after_treatment: tuple[str, ...] = (), **sheet: float) -> OilVerdict:
    offer = OilOnOffer("example", read_label(label), **sheet)
    return oil_verdict(call=OilCall((block,)), offer=offer, after_treatment=after_treatment, coldest_start_c=-20.0)


def keys(found: OilVerdict) -> list[str]:
    return [reason.key for reason in found.reasons]


@pytest.mark.parametrize(
    ("sheet", "state", "key"),
    [
        ({"ccs_mpa_s": 6600.0, "ccs_temp_c": -30.0}, "meets", "oil.ccs_holds"),
        ({"ccs_mpa_s": 6601.0, "ccs_temp_c": -30.0}, "does not meet", "oil.ccs_above"),
        ({"ccs_mpa_s": 6000.0, "ccs_temp_c": -35.0}, "meets", "oil.ccs_holds"),
        ({"ccs_mpa_s": 9000.0, "ccs_temp_c": -35.0}, "meets", "oil.ccs_elsewhere"),
        ({"ccs_mpa_s": 6000.0, "ccs_temp_c": -25.0}, "meets", "oil.ccs_elsewhere"),
        ({"ccs_mpa_s": 7000.0, "ccs_temp_c": -25.0}, "does not meet", "oil.ccs_above"),
        ({"ccs_mpa_s": 6000.0}, "meets", "oil.ccs_without_temperature"),
        ({"mrv_mpa_s": 60_000.0, "mrv_temp_c": -35.0}, "meets", "oil.mrv_holds"),
        ({"mrv_mpa_s": 60_001.0, "mrv_temp_c": -35.0}, "does not meet", "oil.mrv_above"),
        ({"kv100_mm2_s": 9.3}, "meets", "oil.sheet_fits"),
        ({"kv100_mm2_s": 12.5}, "does not meet", "oil.sheet_contradicts"),
        ({"kv100_mm2_s": 9.29}, "does not meet", "oil.sheet_contradicts"),
        ({"kv100_mm2_s": 3.7}, "does not meet", "oil.sheet_below_winter"),
        ({"hths_mpa_s": 3.5}, "meets", "oil.film_holds"),
        ({"hths_mpa_s": 3.4}, "does not meet", "oil.class_film_below"),
        ({"hths_mpa_s": 2.8}, "does not meet", "oil.film_thin"),
        ({"ash_percent": 0.8}, "meets", "oil.asked_ash_holds"),
        ({"ash_percent": 0.81}, "does not meet", "oil.asked_ash_above"),
        ({"tbn_mgkoh_g": 5.0}, "meets", "oil.class_base_below_remembered"),
    ],
)
def test_a_figure_of_the_sheet_against_its_limit(sheet: dict[str, float], state: str, key: str):
    found = verdict(**sheet)
    assert found.state == state
    assert key in keys(found)


def test_grade_40_has_two_high_shear_limits():
    block = CallBlock(("5W-40", "15W-40"), (), (), -25.0)
    assert verdict("5W-40", block, hths_mpa_s=3.5).state == "meets"
    assert verdict("15W-40", block, hths_mpa_s=3.6).state == "does not meet"


@pytest.mark.parametrize(
    ("label", "sheet", "key"),
    [
        ("5W-30, ACEA A5/B5", {"hths_mpa_s": 3.6}, "oil.class_film_above"),
        ("5W-30, ACEA A5/B5", {"tbn_mgkoh_g": 7.9}, "oil.class_base_below"),
        ("5W-30, ACEA A3/B4", {"ash_percent": 1.7}, "oil.class_ash_above"),
        ("10W-40, ACEA E4", {"tbn_mgkoh_g": 11.0}, "oil.class_base_below"),
        ("5W-30, API FA-4", {"hths_mpa_s": 3.3}, "oil.class_film_above"),
    ],
)
def test_a_class_that_its_own_sheet_contradicts_is_none(label: str, sheet: dict[str, float], key: str):
    block = CallBlock(("5W-30", "10W-40"), (), (), -25.0)
    found = verdict(label, block, **sheet)
    assert found.state == "does not meet"
    assert key in keys(found)


def test_a_remembered_limit_contradicts_nothing():
    found = verdict("10W-40, ACEA E9", CallBlock(("10W-40",), (), (), -25.0), ash_percent=1.4)
    assert found.state == "meets"
    assert "oil.class_ash_above_remembered" in keys(found)


def test_of_several_classes_asked_for_the_widest_limit_counts():
    block = CallBlock(("5W-30",), ("ACEA C3", "ACEA A3/B4"), (), -25.0)
    found = verdict("5W-30, ACEA A3/B4", block, ash_percent=1.2)
    assert (found.state, next(one.limit for one in found.margins if one.name == "ash_most")) == ("meets", 1.6)


@pytest.mark.parametrize(("ash", "state"), [(0.5, "meets"), (0.8, "meets"), (0.9, "not shown"), (1.3, "not shown")])
def test_ash_before_a_particle_filter_where_no_class_is_asked_for(ash: float, state: str):
    block = CallBlock(("5W-30",), (), (), -25.0)
    assert verdict("5W-30", block, after_treatment=("dpf",), ash_percent=ash).state == state
    assert verdict("5W-30", block, ash_percent=ash).state == "meets"


@pytest.mark.parametrize(
    ("sheet", "quantity"),
    [
        ({"kv100_mm2_s": -1.0}, "viscosity (100 C)"),
        ({"hths_mpa_s": float("nan")}, "high-shear viscosity"),
        ({"density15_kg_m3": 8.4}, "density (15 C)"),
        ({"ash_percent": -0.1}, "sulphated ash"),
        ({"ccs_mpa_s": 6000.0, "ccs_temp_c": 30.0}, "cranking test temperature"),
    ],
)
def test_an_impossible_figure_is_refused_by_name(sheet: dict[str, float], quantity: str):
    with pytest.raises(OutOfRangeError) as refused:
        verdict(**sheet)
    assert refused.value.values["quantity"] == quantity


def test_an_oil_thicker_when_hot_is_refused():
    with pytest.raises(InputError, match=r"oil\.sheet_crossed"):
        verdict(kv40_mm2_s=10.0, kv100_mm2_s=10.0)
