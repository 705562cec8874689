"""Battery and tyres: words, arrays, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.battery import acid_freezing, battery_charge, battery_state, cranking_need, cranking_power, rest_voltage_at_80f
from twomarks.trade.counters import distance_by_fuel, distance_by_hours, fuel_use, idle_distance
from twomarks.trade.tyres import SEA_LEVEL_BAR, air_pressure, tyre_pressure
from twomarks.words import Reader, render


@pytest.mark.parametrize(
    ("voltage", "rest", "state"),
    [
        (12.65, 24.0, "charged"), (12.45, 8.0, "charged"), (12.40, None, "charge it"), (12.20, 10.0, "low"), (11.80, 10.0, "flat"),
        (10.5, 10.0, "flat"), (12.65, 2.0, "not rested"), (12.9, 10.0, "not rested"),
    ],
)  # fmt: skip
def test_states(voltage: float, rest: float | None, state: str):
    found = battery_state(voltage_v=voltage, rest_h=rest)
    assert found.state == state
    assert 0.0 <= found.charge_percent <= 100.0
    assert all("{" not in render(reason, Reader.of("us")) for reason in found.reasons)


def test_what_is_said_beside_the_state():
    def keys(**given: float) -> set[str]:
        return {reason.key.removeprefix("battery.") for reason in battery_state(**given).reasons}  # type: ignore[arg-type]

    assert "rest_not_known" in keys(voltage_v=12.5)
    assert "surface" in keys(voltage_v=12.9, rest_h=24.0)
    assert "cell" in keys(voltage_v=10.5, rest_h=24.0)
    assert "may_be_frozen" in keys(voltage_v=12.0, temp_c=-25.0, rest_h=24.0)
    assert "may_be_frozen" not in keys(voltage_v=12.6, temp_c=-25.0, rest_h=24.0)


def test_cold_makes_the_same_voltage_mean_less():
    assert battery_charge(voltage_v=12.5, temp_c=-10.0) < battery_charge(voltage_v=12.5, temp_c=25.0)


def test_beyond_the_table_the_charge_stays_at_its_ends():
    assert battery_charge(voltage_v=13.2) == 100.0
    assert battery_charge(voltage_v=10.0) == 0.0


def test_arrays_of_batteries():
    volts = np.array([10.0, 11.9, 12.3, 12.65, 13.0])
    assert battery_charge(voltage_v=volts, temp_c=10.0) == pytest.approx([battery_charge(voltage_v=float(v), temp_c=10.0) for v in volts])
    warmest, coldest = acid_freezing(charge_percent=np.linspace(0.0, 100.0, 21))
    assert (warmest >= coldest).all()
    assert (np.diff(warmest) < 0.0).all()
    with pytest.raises(OutOfRangeError) as refused:
        battery_charge(voltage_v=np.array([12.0, 24.5]))
    assert refused.value.values["index"] == 1


@pytest.mark.parametrize("voltage", [6.3, 14.2, 24.6, float("nan")])
def test_a_voltage_that_is_no_battery_of_12_v_at_rest_is_refused(voltage: float):
    with pytest.raises(OutOfRangeError):
        battery_state(voltage_v=voltage)


@pytest.mark.parametrize("temperature", [-30.0, 40.0, float("nan")])
def test_cranking_is_told_only_where_the_pages_speak(temperature: float):
    for told in (cranking_power, cranking_need):
        with pytest.raises(OutOfRangeError):
            told(temp_c=temperature)
    assert rest_voltage_at_80f(voltage_v=12.0, temp_c=-30.0) < 12.0


def test_tyres_of_an_array():
    temperatures = np.array([-20.0, 20.0, 60.0])
    found = tyre_pressure(pressure_bar=2.3, temp_c=20.0, to_temp_c=temperatures)
    assert found == pytest.approx([tyre_pressure(pressure_bar=2.3, temp_c=20.0, to_temp_c=float(t)) for t in temperatures])
    assert found[1] == pytest.approx(2.3)


def test_thinner_air_reads_more_on_the_same_tyre():
    at_2000_m = air_pressure(height_m=2000.0)
    read = tyre_pressure(pressure_bar=2.3, temp_c=20.0, to_temp_c=20.0, air_bar=SEA_LEVEL_BAR, to_air_bar=at_2000_m)
    assert read == pytest.approx(2.3 + SEA_LEVEL_BAR - at_2000_m)


@pytest.mark.parametrize(
    "changed", [{"pressure_bar": -0.1}, {"temp_c": -300.0}, {"to_temp_c": 200.0}, {"air_bar": 0.0}, {"to_air_bar": float("nan")}]
)
def test_impossible_tyres_are_refused(changed: dict[str, float]):
    with pytest.raises(OutOfRangeError):
        tyre_pressure(**{"pressure_bar": 2.3, "temp_c": 20.0, "to_temp_c": 0.0} | changed)


def test_a_tyre_that_would_read_less_than_nothing_is_refused_by_name():
    with pytest.raises(InputError) as refused:
        tyre_pressure(pressure_bar=np.array([2.0, 0.1]), temp_c=20.0, to_temp_c=-40.0)
    assert (refused.value.key, refused.value.values["index"]) == ("tyres.empty", 1)


@pytest.mark.parametrize("height", [-1000.0, 20000.0, float("nan")])
def test_heights_beyond_the_lowest_layer_are_refused(height: float):
    with pytest.raises(OutOfRangeError):
        air_pressure(height_m=height)


def test_an_average_of_its_own_replaces_the_fleets():
    assert distance_by_hours(engine_h=100.0, average_speed_kmh=40.0).usual_km == 4000.0


def test_a_spread_holds_the_usual_figure():
    for spread in (idle_distance(idle_h=10.0), distance_by_hours(engine_h=10.0), distance_by_fuel(fuel_l=50.0, use_l_per_100km=8.0)):
        assert spread.low_km < spread.usual_km < spread.high_km
        assert spread.sources


def test_counters_refuse_what_cannot_be():
    for refused in (
        lambda: idle_distance(idle_h=-1.0),
        lambda: distance_by_hours(engine_h=float("nan")),
        lambda: distance_by_hours(engine_h=1.0, average_speed_kmh=0.0),
        lambda: distance_by_fuel(fuel_l=-1.0, use_l_per_100km=8.0),
        lambda: distance_by_fuel(fuel_l=1.0, use_l_per_100km=0.0),
        lambda: fuel_use(fuel_l=1.0, distance_km=0.0),
    ):
        with pytest.raises(OutOfRangeError):
            refused()
    with pytest.raises(InputError):
        fuel_use(fuel_l=100.0, distance_km=1.0)
