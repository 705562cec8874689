"""Laws of the engineering: round trips, monotony, conservation, and bounds that hold for every input."""

from __future__ import annotations

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.trade.torque import adapter_setting, wrench_suits


@given(st.floats(1.0, 400.0), st.floats(0.1, 1.5), st.floats(0.0, 0.5), st.floats(0.0, 180.0))
def test_an_adapter_that_lengthens_asks_for_less(torque: float, length: float, adapter: float, angle: float):
    assume(length + adapter * math.cos(math.radians(angle)) > 0.01)
    setting = adapter_setting(torque_nm=torque, wrench_length_m=length, adapter_length_m=adapter, angle_deg=angle)
    reach = length + adapter * math.cos(math.radians(angle))
    assert math.isclose(setting * reach, torque * length, rel_tol=1e-9)


@given(st.floats(0.5, 400.0), st.floats(0.0, 100.0), st.floats(1.0, 400.0))
def test_a_torque_beyond_the_marks_is_outside(torque: float, low: float, more: float):
    fit = wrench_suits(torque_nm=torque, wrench_low_nm=low, wrench_high_nm=low + more)
    assert (fit.state == "outside") == (not low <= torque <= low + more)
