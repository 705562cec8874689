"""Whether a wrench suits, in words."""

from __future__ import annotations

import pytest

from twomarks.errors import OutOfRangeError
from twomarks.trade.torque import adapter_setting, wrench_suits
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
