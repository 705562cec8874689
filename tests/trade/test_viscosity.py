"""What the viscosity functions refuse, and what goes with their answers."""

from __future__ import annotations

import math

import numpy as np
import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.blending import (
    blend_by_mass_astm_d7152,
    blend_by_mass_refutas,
    blend_by_volume_astm_d7152,
    blending_number_refutas,
    volume_share_for_target,
)
from twomarks.trade.dilution import blend_with_fuel, fuel_from_viscosity
from twomarks.trade.viscosity import dynamic_viscosity, line_cautions, walther_line
from twomarks.trade.viscosity_index import kv40_of_index, viscosity_index
from twomarks.trade.volume import density_at
from twomarks.words import Reader, message_of, render

LINE = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
NO_NUMBERS = [math.nan, math.inf, -math.inf]


@pytest.mark.parametrize("points", [(8.86, 40.0, 73.3, 100.0), (73.3, 100.0, 8.86, 40.0), (10.0, 40.0, 10.0, 100.0)])
def test_points_that_do_not_fall_are_refused(points: tuple[float, float, float, float]):
    with pytest.raises(InputError) as told:
        walther_line(kv_low_mm2_s=points[0], temp_low_c=points[1], kv_high_mm2_s=points[2], temp_high_c=points[3])
    said = render(message_of(told.value), Reader())
    assert "thins" in said
    assert f"at {points[1]:.0f} °C" in said


def test_swapped_temperatures_are_refused():
    with pytest.raises(InputError) as told:
        viscosity_index(kv40_mm2_s=8.86, kv100_mm2_s=73.3)
    assert told.value.key == "viscosity.points"


def test_thinner_than_the_short_form_is_refused():
    with pytest.raises(OutOfRangeError):
        walther_line(kv_low_mm2_s=4.0, temp_low_c=40.0, kv_high_mm2_s=1.9, temp_high_c=100.0)


@pytest.mark.parametrize("temp", [-273.15, -300.0, -273.0, *NO_NUMBERS])
def test_colder_than_the_line_reaches_is_refused(temp: float):
    with pytest.raises(OutOfRangeError) as told:
        LINE.kinematic_viscosity(temp_c=temp)
    assert told.value.values["quantity"] == "temperature"
    with pytest.raises(OutOfRangeError) as told:
        LINE.kinematic_viscosity(temp_c=np.array([20.0, temp, temp]))
    assert (told.value.values["index"], told.value.values["more"]) == (1, 1)


def test_the_first_offending_oil_of_an_array_is_named():
    with pytest.raises(InputError) as told:
        walther_line(kv_low_mm2_s=np.array([73.3, 8.0, 7.0]), temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    assert (told.value.values["index"], told.value.values["more"], told.value.values["kv_low"]) == (1, 1, 8.0)
    said = render(message_of(told.value), Reader())
    assert "at index 1 and 1 more" in said
    with pytest.raises(InputError) as told:
        viscosity_index(kv40_mm2_s=np.array([73.3, 80.0, 3.0]), kv100_mm2_s=8.86)
    assert told.value.values["index"] == 2


@pytest.mark.parametrize("kv", [0.3, 0.0, -1.0, *NO_NUMBERS])
def test_a_viscosity_without_a_logarithm_is_refused(kv: float):
    for ask in (
        lambda: LINE.temperature(kv_mm2_s=kv),
        lambda: LINE.temperature(kv_mm2_s=np.array([2.0, kv])),
        lambda: blend_by_volume_astm_d7152(kv_mm2_s=(10.0, kv), volume_l=(1.0, 1.0)),
        lambda: volume_share_for_target(kv_first_mm2_s=10.0, kv_second_mm2_s=5.0, kv_target_mm2_s=kv),
    ):
        with pytest.raises(OutOfRangeError):
            ask()


@pytest.mark.parametrize("kv", [0.2, -1.0, *NO_NUMBERS])
def test_a_viscosity_without_a_blending_number_is_refused(kv: float):
    for ask in (
        lambda: blending_number_refutas(kv_mm2_s=kv),
        lambda: blend_by_mass_refutas(kv_mm2_s=(10.0, kv), mass_kg=(1.0, 1.0)),
        lambda: blend_with_fuel(kv_oil_mm2_s=10.0, kv_fuel_mm2_s=kv, fuel_percent=3.0),
        lambda: fuel_from_viscosity(kv_fresh_mm2_s=10.0, kv_used_mm2_s=kv),
    ):
        with pytest.raises(OutOfRangeError):
            ask()


@pytest.mark.parametrize(
    ("kv", "shares", "key"),
    [
        ((10.0,), (1.0, 2.0), "viscosity.oils"),
        ((), (), "viscosity.oils"),
        ((10.0, 20.0), (0.0, 0.0), "viscosity.nothing_to_blend"),
        ((10.0, 20.0), (2.0, -1.0), "range.outside"),
        ((10.0, 20.0), (2.0, math.nan), "range.outside"),
        ((10.0, 20.0), (np.array([1.0, 0.0]), np.array([0.0, 0.0])), "viscosity.nothing_to_blend"),
    ],
)
def test_shares_that_do_not_fit_are_refused(kv: tuple[float, ...], shares: tuple[float, ...], key: str):
    for blend in (
        lambda: blend_by_volume_astm_d7152(kv_mm2_s=kv, volume_l=shares),
        lambda: blend_by_mass_refutas(kv_mm2_s=kv, mass_kg=shares),
        lambda: blend_by_mass_astm_d7152(kv_mm2_s=kv, mass_kg=shares, density_kg_m3=[860.0] * len(shares)),
    ):
        with pytest.raises(InputError) as told:
            blend()
        assert told.value.key == key
        if key != "viscosity.oils":
            assert told.value.values.get("index", 1) == 1
        assert "{" not in render(message_of(told.value), Reader())


def test_a_blend_by_mass_needs_a_density_for_each_oil():
    with pytest.raises(InputError) as told:
        blend_by_mass_astm_d7152(kv_mm2_s=(10.0, 20.0), mass_kg=(1.0, 1.0), density_kg_m3=(860.0,))
    assert told.value.key == "viscosity.oils"
    with pytest.raises(OutOfRangeError) as refused:
        blend_by_mass_astm_d7152(kv_mm2_s=(10.0, 20.0), mass_kg=(1.0, 1.0), density_kg_m3=(860.0, 0.0))
    assert (refused.value.values["quantity"], refused.value.values["index"]) == ("density", 1)


def test_a_target_outside_both_oils_is_refused_by_name():
    for target in (4.9, 20.1):
        with pytest.raises(InputError) as told:
            volume_share_for_target(kv_first_mm2_s=5.0, kv_second_mm2_s=20.0, kv_target_mm2_s=target)
        assert told.value.key == "viscosity.target"
        assert "lies outside 5 and 20 mm²/s" in render(message_of(told.value), Reader())
    with pytest.raises(InputError) as told:
        volume_share_for_target(kv_first_mm2_s=5.0, kv_second_mm2_s=20.0, kv_target_mm2_s=np.array([8.0, 21.0, 3.0]))
    assert (told.value.values["index"], told.value.values["more"]) == (1, 1)
    with pytest.raises(InputError) as told:
        volume_share_for_target(kv_first_mm2_s=5.0, kv_second_mm2_s=5.0, kv_target_mm2_s=5.0)
    assert told.value.key == "viscosity.oils_alike"


def test_fuel_as_thick_as_the_oil_is_refused():
    for ask in (
        lambda: blend_with_fuel(kv_oil_mm2_s=2.0, kv_fuel_mm2_s=3.0, fuel_percent=3.0),
        lambda: fuel_from_viscosity(kv_fresh_mm2_s=10.0, kv_used_mm2_s=3.0, kv_fuel_mm2_s=3.0),
    ):
        with pytest.raises(InputError) as told:
            ask()
        assert told.value.key == "viscosity.fuel_thicker"
    with pytest.raises(OutOfRangeError):
        blend_with_fuel(kv_oil_mm2_s=12.0, fuel_percent=100.5)


@pytest.mark.parametrize("index", [-300.1, 500.1, *NO_NUMBERS])
def test_an_index_that_no_oil_has_is_refused(index: float):
    with pytest.raises(OutOfRangeError) as told:
        kv40_of_index(index=index, kv100_mm2_s=8.86)
    assert told.value.values["quantity"] == "viscosity index"


def test_what_an_estimate_of_fuel_shows_and_does_not():
    alike = fuel_from_viscosity(kv_fresh_mm2_s=12.0, kv_used_mm2_s=11.7)
    thicker = fuel_from_viscosity(kv_fresh_mm2_s=12.0, kv_used_mm2_s=13.5)
    thin = fuel_from_viscosity(kv_fresh_mm2_s=12.0, kv_used_mm2_s=9.3)
    assert alike.low_percent == 0.0 < alike.fuel_percent < alike.high_percent
    assert (thicker.low_percent, thicker.fuel_percent) == (0.0, 0.0)
    assert 0.0 < thin.low_percent < thin.fuel_percent < thin.high_percent < 15.0
    assert [message.key for message in thin.cautions] == ["viscosity.fuel_other_causes", "viscosity.fuel_spread"]
    gone = fuel_from_viscosity(kv_fresh_mm2_s=12.0, kv_used_mm2_s=1.11)
    assert gone.high_percent == 100.0


def test_dynamic_viscosity_takes_the_density_at_the_same_temperature():
    kv = LINE.kinematic_viscosity(temp_c=90.0)
    density = density_at(density15_kg_m3=860.0, temp_c=90.0)
    assert dynamic_viscosity(kv_mm2_s=kv, density_kg_m3=density) == pytest.approx(kv * 860.0 * 0.94445 / 1000.0, rel=1e-5)
    assert dynamic_viscosity(kv_mm2_s=1.0, density_kg_m3=1000.0) == 1.0
    with pytest.raises(OutOfRangeError):
        dynamic_viscosity(kv_mm2_s=10.0, density_kg_m3=-1.0)


def test_cautions_of_the_line_belong_to_the_cold_and_the_thin():
    assert line_cautions(temp_c=0.0, kv_mm2_s=2.0) == ()
    assert [message.key for message in line_cautions(temp_c=-1.0, kv_mm2_s=2000.0)] == ["viscosity.caution_cold"]
    assert [message.key for message in line_cautions(temp_c=200.0, kv_mm2_s=1.9)] == ["viscosity.caution_thin"]


def test_a_thin_part_of_a_blend_is_said():
    keys = [message.key for message in blend_by_volume_astm_d7152(kv_mm2_s=(12.0, 1.5), volume_l=(4.0, 1.0)).cautions]
    assert keys == ["viscosity.blend_caution", "viscosity.blend_thin"]


def test_an_empty_array_has_an_empty_answer():
    none = np.array([])
    assert LINE.kinematic_viscosity(temp_c=none).size == 0
    assert viscosity_index(kv40_mm2_s=none, kv100_mm2_s=none).size == 0


def test_a_target_at_one_of_the_oils_is_all_of_it_and_nothing_beyond():
    for kv in (217.0, np.array([217.0, np.nextafter(217.0, 218.0)])):
        share = volume_share_for_target(kv_first_mm2_s=217.0, kv_second_mm2_s=218.0, kv_target_mm2_s=kv).first
        assert np.all((share >= 0.999999) & (share <= 1.0))
