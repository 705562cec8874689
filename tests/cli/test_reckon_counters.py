"""`twomarks reckon` idle-hours, hours, fuel, fuel-use."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError, OutOfRangeError


def test_idle_hours_beside_the_odometer():
    found = answered("idle-hours", "idle=100 h", "odometer=2000 mi", market="us")
    assert found.results["total_high_km"] == pytest.approx(5300 * 1.609344)
    assert len(found.sources) == 3
    assert "5300 mi" in told(found, market="us")
    assert "no measurement" in told(found)


def test_engine_hours_with_and_without_an_average():
    found = answered("hours", "engine=200 h")
    assert found.results["engine_low_km"] == pytest.approx(1980 * 1.609344)
    own = answered("hours", "engine=200 h", "speed=25 mph")
    assert own.results["engine_km"] == pytest.approx(5000 * 1.609344)
    assert "own average" in told(own)


def test_fuel_as_a_counter_with_its_spread():
    found = answered("fuel", "fuel=640 L", "use=8 L/100km")
    assert found.results["distance_km"] == pytest.approx(8000.0)
    assert found.results["distance_low_km"] == pytest.approx(8000 / 1.1)
    assert found.results["distance_high_km"] == pytest.approx(8000 / 0.9)
    assert "8000 km" in told(found)


def test_use_of_fuel_in_miles_per_gallon_too():
    found = answered("fuel-use", "fuel=10 us gal", "distance=300 mi")
    assert found.results["us_mpg"] == pytest.approx(30.0)
    assert found.results["imperial_mpg"] == pytest.approx(36.03, abs=0.01)
    assert "us_mpg" not in answered("fuel-use", "fuel=0 L", "distance=300 mi").results


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("idle-hours", ("idle=-1 h",)),
        ("hours", ("engine=100 h", "speed=0 km/h")),
        ("fuel", ("fuel=-5 L", "use=8 L/100km")),
        ("fuel", ("fuel=5 L", "use=0 L/100km")),
        ("fuel-use", ("fuel=5 L", "distance=0 km")),
    ],
)
def test_what_cannot_be_is_refused(name: str, words: tuple[str, ...]):
    with pytest.raises(OutOfRangeError):
        answered(name, *words)


def test_fuel_and_distance_that_do_not_belong_together_are_refused_by_name():
    with pytest.raises(InputError) as refused:
        answered("fuel-use", "fuel=500 L", "distance=1 km")
    assert refused.value.key == "counters.use"


def test_the_answer_as_data():
    assert answered_json("fuel", "fuel=640 L", "use=8 L/100km")["results"]["distance_km"] == pytest.approx(8000.0)
