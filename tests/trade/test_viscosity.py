"""What the viscosity functions refuse."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.viscosity import BLEND_CAUTION, blend_viscosity_astm_d7152, viscosity_index, walther_line
from twomarks.words import Reader, message_of, render, sentence


@pytest.mark.parametrize("points", [(8.86, 40.0, 73.3, 100.0), (73.3, 100.0, 8.86, 40.0), (10.0, 40.0, 10.0, 100.0)])
def test_points_that_do_not_fall_are_refused(points: tuple[float, float, float, float]):
    with pytest.raises(InputError) as told:
        walther_line(kv_low_mm2_s=points[0], temp_low_c=points[1], kv_high_mm2_s=points[2], temp_high_c=points[3])
    assert "thins" in render(message_of(told.value), Reader())


def test_swapped_temperatures_are_refused():
    with pytest.raises(InputError):
        viscosity_index(kv40_mm2_s=8.86, kv100_mm2_s=73.3)


def test_thinner_than_the_short_form_is_refused():
    with pytest.raises(OutOfRangeError):
        walther_line(kv_low_mm2_s=4.0, temp_low_c=40.0, kv_high_mm2_s=1.9, temp_high_c=100.0)


@pytest.mark.parametrize("temp", [-273.15, -300.0, -273.0])
def test_colder_than_the_line_reaches_is_refused(temp: float):
    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    with pytest.raises(OutOfRangeError):
        line.kinematic_viscosity(temp_c=temp)


@pytest.mark.parametrize(("kv", "shares"), [((10.0,), (1.0, 2.0)), ((10.0, 20.0), (0.0, 0.0)), ((10.0, 20.0), (2.0, -1.0)), ((), ())])
def test_shares_that_do_not_fit_are_refused(kv: tuple[float, ...], shares: tuple[float, ...]):
    with pytest.raises(InputError):
        blend_viscosity_astm_d7152(kv_mm2_s=kv, volume_share=shares)


def test_the_caution_of_a_blend_has_its_sentence():
    assert "additive" in sentence(BLEND_CAUTION)
