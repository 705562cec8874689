"""Idle hours, engine hours and fuel as distance.

Sources: a police fleet magazine (33 miles per idle hour; 200 hours, half of them idling: 2000 miles shown, 5300 of wear; 100 hours
were about 990 miles), a fleet newsletter of August 2018 (30 miles; 2291 hours as 68 730 miles), a fleet magazine (25 to 30 miles):
all status a, excerpts. Fuel economy: exact arithmetic (status b).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks import units
from twomarks.trade.counters import distance_by_fuel, distance_by_hours, fuel_use, idle_distance


def miles(distance_km: float) -> float:
    return units.in_unit(distance_km, unit="km", to="mi")


def test_one_idle_hour_by_all_three_sources():
    hour = idle_distance(idle_h=1.0)
    assert (miles(hour.low_km), miles(hour.usual_km), miles(hour.high_km)) == (
        pytest.approx(25.0),
        pytest.approx(30.0),
        pytest.approx(33.0),
    )
    # 40 to 53 km
    assert (round(hour.low_km), round(hour.high_km)) == (40, 53)


def test_two_hundred_hours_half_idling():
    assert round(2000 + miles(idle_distance(idle_h=100.0).high_km)) == 5300


def test_a_hundred_urban_hours():
    assert round(miles(distance_by_hours(engine_h=100.0).low_km)) == 990


def test_engine_hours_counted_as_service():
    assert round(miles(distance_by_hours(engine_h=2291.0).high_km)) == 68730


@pytest.mark.parametrize(("gallon", "product"), [("1 US gal", "235.2145833"), ("1 imp gal", "282.4809363")])
def test_miles_per_gallon_times_litres_per_100_km(gallon: str, product: str):
    assert agrees(fuel_use(fuel_l=units.quantity(gallon).core, distance_km=units.quantity("1 mi").core), product)


def test_distance_by_fuel_is_the_use_read_backwards():
    assert distance_by_fuel(fuel_l=800.0, use_l_per_100km=8.0).usual_km == pytest.approx(10000.0)
