"""The level against common practice and derived figures; no source prints them (status c for the practice, d for what follows).

Drain-back with half a litre upstairs and 3 minutes: 0.26 L at 2, 0.09 L at 5, 0.02 L at 10 minutes. Sloping ground: distance
times the tangent. Oil of 6 L from 20 to 90 C gains some 5 % (0.0007 for each degree, from memory).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks.trade.level import Reading, Stick, drain_back_l, oil_volume_l, slope_rise_mm
from twomarks.trade.oil_use import LevelCheck, TopUp, oil_use


@pytest.mark.parametrize(("minutes", "printed"), [(2.0, "0.26"), (5.0, "0.09"), (10.0, "0.02")])
def test_what_has_not_run_down(minutes: float, printed: str):
    assert agrees(drain_back_l(minutes_min=minutes), printed)


@pytest.mark.parametrize(("slope", "printed"), [(1.0, "2.6"), (2.0, "5.2"), (3.0, "7.9"), (5.0, "13")])
def test_sloping_ground_at_150_mm(slope: float, printed: str):
    assert agrees(slope_rise_mm(distance_mm=150.0, slope_deg=slope), printed)


def test_hot_and_settled_reads_three_tenths_of_a_litre_high():
    stick = Stick(full_l=6.0, between_marks_l=1.0)
    hot = oil_volume_l(stick, Reading(fraction=1.0, oil_temp_c=90.0))
    assert 6.0 - hot == pytest.approx(0.31, abs=0.02)


def test_the_sum_that_is_done_by_hand():
    # status d: ((f0 - f1) span + added) / km x 1000, each reading 0.1 L or so, over 5000 km some 0.03 L/1000 km
    found = oil_use([LevelCheck(10_000.0, 5.0, 0.1), LevelCheck(15_000.0, 4.8, 0.1)], [TopUp(12_000.0, 0.5, 0.0)])
    assert found.use_l_per_1000km == pytest.approx((0.2 + 0.5) / 5.0, abs=1e-6)
    assert agrees(found.use_sigma, "0.03")
