"""Draining a part and filling up.

Source: the balance of volumes, c_n = c_new + (c_0 - c_new)(1 - f)^n, derived by hand (status d).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks.trade.coolant import drain_for_target, glycol_after_refills, refills_needed


@pytest.mark.parametrize(("times", "replaced", "share"), [(1, "60.0", "30.0"), (2, "84.0", "42.0"), (3, "93.6", "46.8")])
def test_three_refills_of_six_tenths(times: int, replaced: str, share: str):
    assert agrees(glycol_after_refills(start_percent=0.0, new_percent=100.0, drained_percent=60.0, times=times), replaced)
    assert agrees(glycol_after_refills(start_percent=0.0, new_percent=50.0, drained_percent=60.0, times=times), share)


def test_four_refills_replace_95_percent():
    # 3.27, rounded up
    assert refills_needed(start_percent=0.0, new_percent=100.0, drained_percent=60.0, target_percent=95.0) == 4


def test_what_to_drain_of_eight_litres_to_go_from_30_to_50_percent_with_concentrate():
    assert agrees(drain_for_target(volume_l=8.0, start_percent=30.0, target_percent=50.0), "2.2857")
