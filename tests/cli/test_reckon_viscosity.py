"""`twomarks reckon` on viscosity, density and blends: right and wrong input, units, and what goes with the answer."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError, OutOfRangeError

OIL = ("kv40=73.3 mm2/s", "kv100=8.86 cSt")


def test_the_index_is_reported_whole_and_kept_exact():
    found = answered("viscosity-index", *OIL)
    assert found.results["viscosity_index"] == pytest.approx(92.4296, abs=1e-4)
    assert "Viscosity index 92, from 73.3 mm²/s at 40 °C and 8.86 mm²/s at 100 °C." in told(found)


def test_an_index_leads_back():
    found = answered("viscosity-from-index", "kv100=8.86 cst", "index=92.4296")
    assert found.results["kv40_mm2_s"] == pytest.approx(73.3, abs=0.001)


def test_viscosity_at_several_temperatures_and_units():
    found = answered("viscosity-at", *OIL, "temp=80 C", "temp=32 F")
    assert [(row["temp_c"], round(row["kinematic_viscosity_mm2_s"], 1)) for row in found.results["at_temperatures"]] == [
        (80.0, 15.2),
        (pytest.approx(0.0, abs=1e-9), 1233.1),
    ]
    assert "dynamic" not in told(found)
    assert found.cautions == ()


def test_a_density_brings_the_dynamic_viscosity():
    found = answered("viscosity-at", *OIL, "temp=90 C", "density=0.86 g/cm3")
    (row,) = found.results["at_temperatures"]
    assert row["density_kg_m3"] == pytest.approx(812.2, abs=0.1)
    assert row["dynamic_viscosity_mpa_s"] == pytest.approx(row["kinematic_viscosity_mm2_s"] * row["density_kg_m3"] / 1000.0)
    assert "dynamic 9.28 mPa·s" in told(found)
    assert "api_mpms_11_1" in found.sources


def test_in_the_cold_the_line_says_that_oils_are_measured_there():
    assert "cranking and pumping" in told(answered("viscosity-at", *OIL, "temp=-30 C"))


def test_the_temperature_of_a_viscosity():
    found = answered("temperature-at", *OIL, "kv=15.18 cst")
    assert found.results["temp_c"] == pytest.approx(80.0, abs=0.01)


def test_density_from_15_and_from_another_temperature():
    hot = answered("density-at", "density=860 kg/m3", "temp=90 C").results
    back = answered("density-at", f"density={hot['density_kg_m3']} kg/m3", "from=90 C", "temp=15 C").results
    assert hot["density_kg_m3"] == pytest.approx(860.0 * 0.94445, abs=0.01)
    assert back["density_kg_m3"] == pytest.approx(860.0, abs=1e-6)


@pytest.mark.parametrize(
    ("words", "kv", "method"),
    [
        (("volume=500 mL", "volume=0.5 L"), 75.876, "double logarithm"),
        ((), 75.876, "double logarithm"),
        (("mass=1 kg", "mass=1 kg"), 75.935, "blending number"),
        (("mass=1 kg", "mass=1 kg", "density=870 kg/m3", "density=870 kg/m3"), 75.876, "double logarithm"),
    ],
)
def test_blends_by_volume_and_by_mass(words: tuple[str, ...], kv: float, method: str):
    found = answered("blend", "kv=32 cst", "kv=220 cst", *words)
    assert found.results["kinematic_viscosity_mm2_s"] == pytest.approx(kv, abs=0.001)
    assert found.results["method"] == method
    assert "additive packages" in told(found)


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (("kv=32 cst", "kv=220 cst", "volume=1 L"), "viscosity.oils"),
        (("kv=32 cst", "volume=1 L", "mass=1 kg"), "reckon_blending.volume_or_mass"),
        (("kv=32 cst", "volume=1 L", "density=860 kg/m3"), "reckon_blending.density_needs_mass"),
        (("kv=32 cst", "volume=-1 L"), "range.outside"),
        (("kv=32 cst", "volume=0 L"), "viscosity.nothing_to_blend"),
    ],
)
def test_a_blend_that_cannot_be_is_refused(words: tuple[str, ...], key: str):
    with pytest.raises(InputError) as refused:
        answered("blend", *words)
    assert refused.value.key == key


def test_the_share_for_a_target_and_its_volumes():
    found = answered("blend-share", "first=5 cst", "second=20 cst", "target=8.0813 cst", "volume=5 L").results
    assert found["first_percent"] == pytest.approx(60.0, abs=0.01)
    assert found["first_l"] == pytest.approx(3.0, abs=0.001)
    assert found["first_l"] + found["second_l"] == pytest.approx(5.0)


def test_a_target_outside_both_oils_is_refused():
    with pytest.raises(InputError) as refused:
        answered("blend-share", "first=5 cst", "second=20 cst", "target=30 cst")
    assert refused.value.key == "viscosity.target"
    with pytest.raises(InputError) as refused:
        answered("blend-share", "first=5 cst", "second=20 cst", "target=8 cst", "volume=-5 L")
    assert refused.value.key == "reckon_blending.volume_positive"


def test_fuel_thins_an_oil_into_the_next_band():
    found = answered("fuel-dilution", "fresh=12 cst", "fuel=10 %")
    assert found.results["with_fuel"] == [
        {"fuel_percent": 10.0, "kinematic_viscosity_mm2_s": pytest.approx(8.416, abs=0.001), "bands": ["20"]}
    ]
    assert "from 30 to 20" in told(found)
    assert len(answered("fuel-dilution", "fresh=12 cst").results["with_fuel"]) == 3


def test_fuel_is_read_from_a_fallen_viscosity_with_its_doubt():
    found = answered("fuel-dilution", "fresh=12 cst", "used=9 cst")
    assert found.results["shown"] is True
    assert found.results["fuel_low_percent"] < found.results["fuel_percent"] < found.results["fuel_high_percent"]
    assert "gas chromatography" in told(found)
    assert "working value for diesel" in told(found)
    assert "working value" not in told(answered("fuel-dilution", "fresh=12 cst", "used=9 cst", "fuel-kv=1.2 cst"))


@pytest.mark.parametrize(("used", "words"), [("11.8 cst", "two samples of a sound oil"), ("12.5 cst", "has not thinned")])
def test_a_fall_that_shows_nothing_is_said(used: str, words: str):
    found = answered("fuel-dilution", "fresh=12 cst", f"used={used}")
    assert found.results["shown"] is False
    assert words in told(found)


def test_fuel_and_used_oil_together_are_refused():
    with pytest.raises(InputError) as refused:
        answered("fuel-dilution", "fresh=12 cst", "used=9 cst", "fuel=3 %")
    assert refused.value.key == "reckon_blending.fuel_or_used"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("viscosity-index", ("kv40=8.86 cst", "kv100=73.3 cst")),
        ("viscosity-at", ("kv40=8.86 cst", "kv100=73.3 cst", "temp=50 C")),
        ("fuel-dilution", ("fresh=1 cst", "fuel=3 %")),
    ],
)
def test_impossible_pairs_are_refused(name: str, words: tuple[str, ...]):
    with pytest.raises(InputError) as refused:
        answered(name, *words)
    assert refused.value.key in ("viscosity.points", "viscosity.fuel_thicker")


def test_what_lies_outside_its_range_is_refused():
    for name, words in (
        ("viscosity-index", ("kv40=3 cst", "kv100=1.9 cst")),
        ("viscosity-at", (*OIL, "temp=-280 C")),
        ("density-at", ("density=700 kg/m3", "temp=90 C")),
        ("viscosity-from-index", ("kv100=8.86 cst", "index=600")),
    ):
        with pytest.raises(OutOfRangeError):
            answered(name, *words)


def test_the_whole_answer_as_json():
    found = answered_json("viscosity-index", *OIL)
    assert found["results"]["viscosity_index"] == pytest.approx(92.4296, abs=1e-4)
    assert [source["key"] for source in found["sources"]] == ["astm_d2270", "chemicals_library"]
    rows = answered_json("viscosity-at", *OIL, "temp=80 C", "density=860 kg/m3")["results"]["at_temperatures"]
    assert set(rows[0]) == {"temp_c", "kinematic_viscosity_mm2_s", "density_kg_m3", "dynamic_viscosity_mpa_s"}
