"""Torque wrench with an adapter, and the deviation of a wrench.

Sources: two independent public pages for the adapter (status a2), whose figures are 80 N.m, 40 cm, 5 cm -> 71.1 and 50 lbf.ft,
16 in, 2 in -> 44.44; a tool's manual that reviews ISO 6789:2003 for the deviation and the torques of the check, 20, 60 and 100 % of
the range; a tool maker's articles on ISO 6789-1:2017, whose range starts at the lowest marked value (all status a2).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks import units
from twomarks.trade.torque import adapter_setting, wrench_suits, wrench_tolerance


def test_first_printed_setting():
    assert agrees(adapter_setting(torque_nm=80.0, wrench_length_m=0.40, adapter_length_m=0.05), "71.1")


def test_second_printed_setting():
    torque = units.quantity("50 lbf.ft").core
    setting = adapter_setting(torque_nm=torque, wrench_length_m=16 * 0.0254, adapter_length_m=2 * 0.0254)
    assert agrees(units.in_unit(setting, unit="N.m", to="lbf.ft"), "44.44")


def test_square_to_the_wrench_nothing_is_corrected():
    assert adapter_setting(torque_nm=80.0, wrench_length_m=0.4, adapter_length_m=0.05, angle_deg=90.0) == pytest.approx(80.0)


def test_folded_back_the_wrench_is_shorter():
    assert adapter_setting(torque_nm=80.0, wrench_length_m=0.4, adapter_length_m=0.05, angle_deg=180.0) == pytest.approx(80 * 0.4 / 0.35)


@pytest.mark.parametrize(("torque", "share"), [(10.0, 0.06), (10.1, 0.04), (38.0, 0.04), (5.0, 0.06)])
def test_deviation_of_a_wrench(torque: float, share: float):
    assert wrench_tolerance(torque_nm=torque) == pytest.approx(share * torque)


@pytest.mark.parametrize(
    ("torque", "state"), [(19.9, "outside"), (20.0, "at the edge"), (21.9, "at the edge"), (22.1, "inside"), (110.0, "inside")]
)
def test_a_range_starts_at_the_lowest_mark_and_is_first_checked_at_a_fifth(torque: float, state: str):
    assert wrench_suits(torque_nm=torque, wrench_low_nm=20.0, wrench_high_nm=110.0).state == state


def test_every_torque_of_the_check_lies_inside_a_range():
    for share in (0.2, 0.6, 1.0):
        assert wrench_suits(torque_nm=share * 110.0, wrench_low_nm=10.0, wrench_high_nm=110.0).state == "inside"
