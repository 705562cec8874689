"""Sunrise and sunset at Greenwich at the solstices: almanac times, from memory, to the nearest two or three minutes."""

from __future__ import annotations

import datetime as dt

import pytest

from twomarks.planning.daylight import daylight


@pytest.mark.parametrize(
    ("day", "rise_min", "set_min"),
    [(dt.date(2026, 6, 21), 3 * 60 + 43, 20 * 60 + 21), (dt.date(2026, 12, 21), 8 * 60 + 4, 15 * 60 + 53)],
)
def test_the_solstices_at_greenwich(day: dt.date, rise_min: float, set_min: float) -> None:
    found = daylight(day, latitude_deg=51.48, longitude_deg=0.0)
    assert found == pytest.approx((rise_min, set_min), abs=3.0)


def test_beyond_the_polar_circle_the_sun_stays_up_or_down() -> None:
    assert daylight(dt.date(2026, 6, 21), latitude_deg=75.0, longitude_deg=20.0) is None
    assert daylight(dt.date(2026, 12, 21), latitude_deg=75.0, longitude_deg=20.0) is None
