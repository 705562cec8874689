"""Whether a wrench suits, in words."""

from __future__ import annotations

import numpy as np
import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.torque import adapter_setting, tightening, wrench_setting, wrench_suits
from twomarks.words import Reader, render


@pytest.mark.parametrize(
    ("torque", "low", "high", "state"),
    [
        (38.0, 20.0, 110.0, "inside"),
        (38.0, 40.0, 210.0, "outside"),
        (38.0, 5.0, 25.0, "outside"),
        (25.0, 10.0, 210.0, "at the edge"),
        (20.0, 20.0, 100.0, "inside"),
        (100.0, 20.0, 100.0, "inside"),
    ],
)
def test_fit(torque: float, low: float, high: float, state: str):
    fit = wrench_suits(torque_nm=torque, wrench_low_nm=low, wrench_high_nm=high)
    assert fit.state == state
    assert "{" not in render(fit.reason, Reader(market="us"))


@pytest.mark.parametrize("torque", [0.0, -5.0, float("nan")])
def test_no_torque_is_refused(torque: float):
    with pytest.raises(OutOfRangeError):
        wrench_suits(torque_nm=torque, wrench_low_nm=5.0, wrench_high_nm=25.0)


def test_marks_that_do_not_rise_are_refused():
    with pytest.raises(OutOfRangeError):
        wrench_suits(torque_nm=10.0, wrench_low_nm=25.0, wrench_high_nm=5.0)


def test_an_adapter_folded_back_onto_the_grip_has_no_setting():
    with pytest.raises(OutOfRangeError):
        adapter_setting(torque_nm=80.0, wrench_length_m=0.4, adapter_length_m=0.4, angle_deg=180.0)


LBF_FT = 1.3558179483314004


def test_the_setting_is_told_in_the_scale_of_the_wrench():
    setting = wrench_setting(torque_nm=38.0, wrench_low_nm=10 * LBF_FT, wrench_high_nm=80 * LBF_FT, graduation_nm=LBF_FT, scale="lbf.ft")
    assert setting.state == "inside"
    assert setting.setting == pytest.approx(28.0)
    assert setting.off_percent == pytest.approx(100 * (28 * LBF_FT - 38) / 38)
    text = render(setting.reason, Reader(market="metric"))
    assert "28\u00a0lbf·ft" in text
    assert "0.1% less" in text


def test_the_marks_are_counted_from_the_lowest():
    setting = wrench_setting(torque_nm=38.0, wrench_low_nm=7.0, wrench_high_nm=107.0, graduation_nm=5.0, tolerance_percent=5.0)
    assert setting.setting == pytest.approx(37.0)


@pytest.mark.parametrize(
    ("graduation", "tolerance", "state"),
    [(2.0, None, "inside"), (10.0, None, "too coarse"), (10.0, 6.0, "inside"), (2.5, 1.0, "too coarse"), (1.0, 1.0, "inside")],
)
def test_marks_too_coarse_for_the_figure_are_refused(graduation: float, tolerance: float | None, state: str):
    setting = wrench_setting(
        torque_nm=38.0, wrench_low_nm=20.0, wrench_high_nm=110.0, graduation_nm=graduation, tolerance_percent=tolerance
    )
    assert setting.state == state
    assert setting.suits == (state == "inside")
    assert (setting.setting is None) == (state == "too coarse")
    assert "{" not in render(setting.reason, Reader(market="us"))


def test_half_marks_are_written_with_their_decimals():
    setting = wrench_setting(torque_nm=10.5, wrench_low_nm=5.0, wrench_high_nm=25.0, graduation_nm=0.5)
    assert setting.text == "10.5\u00a0N·m"


def test_a_torque_beyond_the_scale_has_no_setting():
    setting = wrench_setting(torque_nm=38.0, wrench_low_nm=40.0, wrench_high_nm=210.0, graduation_nm=1.0)
    assert (setting.state, setting.setting, setting.text) == ("outside", None, "")


@pytest.mark.parametrize(
    ("graduation", "tolerance"), [(0.0, None), (-1.0, None), (91.0, None), (float("nan"), None), (1.0, 0.0), (1.0, 60.0)]
)
def test_an_impossible_scale_is_refused(graduation: float, tolerance: float | None):
    with pytest.raises(OutOfRangeError):
        wrench_setting(torque_nm=38.0, wrench_low_nm=20.0, wrench_high_nm=110.0, graduation_nm=graduation, tolerance_percent=tolerance)


def test_a_scale_is_a_unit_of_torque():
    with pytest.raises(InputError):
        wrench_setting(torque_nm=38.0, wrench_low_nm=20.0, wrench_high_nm=110.0, graduation_nm=1.0, scale="bar")


def test_an_adapter_answers_for_an_array_as_for_its_numbers():
    torques, angles = np.array([20.0, 50.0, 80.0]), np.array([0.0, 45.0, 180.0])
    together = adapter_setting(torque_nm=torques, wrench_length_m=0.4, adapter_length_m=0.05, angle_deg=angles)
    one_by_one = [
        adapter_setting(torque_nm=float(t), wrench_length_m=0.4, adapter_length_m=0.05, angle_deg=float(a))
        for t, a in zip(torques, angles, strict=True)
    ]
    assert together == pytest.approx(one_by_one)
    with pytest.raises(OutOfRangeError) as refused:
        adapter_setting(torque_nm=np.array([20.0, -1.0, -2.0]), wrench_length_m=0.4, adapter_length_m=0.05)
    assert (refused.value.values["index"], refused.value.values["more"]) == (1, 1)


def test_torque_plus_angle_is_passed_through_with_a_new_fastener():
    done = tightening(torque_nm=40.0, angles_deg=(90.0, 45.0))
    assert done.new_fastener
    assert [step.key for step in done.steps] == [
        "torque.first_step", "torque.turn_further", "torque.turn_further", "torque.new_fastener", "torque.no_check_after",
    ]  # fmt: skip
    assert "45°" in render(done.steps[2], Reader(market="us"))


def test_torque_to_yield_always_takes_a_new_fastener():
    assert tightening(torque_nm=40.0, to_yield=True).steps[1].key == "torque.new_fastener_yield"
    assert not tightening(torque_nm=40.0).new_fastener
    with pytest.raises(OutOfRangeError):
        tightening(torque_nm=40.0, angles_deg=(0.0,))
