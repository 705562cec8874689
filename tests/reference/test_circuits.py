"""Coolant, brake fluid, battery, idling, gear oil: every row is read, and the rows are in order."""

from __future__ import annotations

from itertools import pairwise

import pytest

from twomarks.reference.circuits import (
    battery_at_rest,
    battery_cranking,
    battery_freezing,
    brake_fluids,
    gear_oil_classes,
    glycol,
    idle_hours,
)


@pytest.mark.parametrize("kind", ["ethylene", "propylene"])
def test_more_glycol_freezes_later_up_to_the_limit(kind: str):
    rows = glycol(kind)
    assert (rows[0].volume_percent, rows[-1].volume_percent) == (0, 60)
    assert all(a.volume_percent < b.volume_percent and a.freeze_c > b.freeze_c for a, b in pairwise(rows))


def test_there_is_no_third_glycol():
    assert glycol("glycerol") == ()


def test_water_lowers_the_boiling_point_of_every_class():
    assert set(brake_fluids()) == {"DOT 3", "DOT 4", "DOT 5", "DOT 5.1"}
    assert all(row.wet_min_c < row.dry_min_c for row in brake_fluids().values())
    assert [name for name, row in brake_fluids().items() if row.base == "silicone"] == ["DOT 5"]


def test_charge_voltage_and_acid_rise_together():
    assert all(
        a.charge_percent < b.charge_percent and a.rest_voltage_v < b.rest_voltage_v and a.specific_gravity < b.specific_gravity
        for a, b in pairwise(battery_at_rest())
    )


def test_stronger_acid_freezes_later_in_every_source():
    assert len(battery_freezing()) == 2
    for rows in battery_freezing().values():
        assert all(a.specific_gravity < b.specific_gravity and a.freeze_c > b.freeze_c for a, b in pairwise(rows))


def test_cold_takes_power_and_asks_for_more():
    assert all(
        a.temp_f < b.temp_f and a.power_percent < b.power_percent and a.needed_percent > b.needed_percent
        for a, b in pairwise(battery_cranking())
    )


def test_the_sources_of_the_idle_hour_span_25_to_33_miles():
    assert min(row.low_mi_per_idle_hour for row in idle_hours()) == 25
    assert max(row.high_mi_per_idle_hour for row in idle_hours()) == 33


def test_the_designations_in_use():
    assert {name for name, row in gear_oil_classes().items() if row.in_use} == {"GL-1", "GL-4", "GL-5", "MT-1"}
