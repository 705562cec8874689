"""Laws of coolant, tyres and batteries."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.errors import NoSolutionError
from twomarks.trade.battery import acid_freezing, battery_charge, cranking_need, cranking_power
from twomarks.trade.coolant import (
    GLYCOLS,
    coolant_state,
    drain_for_target,
    freeze_point,
    glycol_after_refills,
    glycol_for,
    refills_needed,
)
from twomarks.trade.gear_oil import gear_oil_label
from twomarks.trade.tyres import air_pressure, tyre_pressure

glycols = st.sampled_from(GLYCOLS)
mixtures = st.floats(0.0, 60.0)
shares = st.floats(0.0, 100.0)
temperatures = st.floats(-40.0, 80.0)


@given(glycols, mixtures)
def test_a_freezing_point_and_back_is_the_share(glycol: str, share: float):
    assert glycol_for(glycol=glycol, freeze_c=freeze_point(glycol=glycol, volume_percent=share)) == pytest.approx(share, abs=1e-9)


@given(glycols, mixtures, mixtures)
def test_more_glycol_never_freezes_sooner(glycol: str, first: float, second: float):
    low, high = sorted((first, second))
    assert freeze_point(glycol=glycol, volume_percent=high) <= freeze_point(glycol=glycol, volume_percent=low)


@given(shares, shares, st.floats(1.0, 100.0), st.integers(0, 20))
def test_refills_stay_between_what_was_and_what_is_filled_in(start: float, new: float, drained: float, times: int):
    after = glycol_after_refills(start_percent=start, new_percent=new, drained_percent=drained, times=times)
    assert min(start, new) - 1e-9 <= after <= max(start, new) + 1e-9


@given(shares, shares, st.floats(5.0, 99.0), shares)
def test_the_refills_needed_reach_the_target_and_one_less_does_not(start: float, new: float, drained: float, target: float):
    try:
        times = refills_needed(start_percent=start, new_percent=new, drained_percent=drained, target_percent=target)
    except NoSolutionError:
        return
    way = 1.0 if target >= start else -1.0

    def short(number: int) -> float:
        return way * (target - glycol_after_refills(start_percent=start, new_percent=new, drained_percent=drained, times=number))

    assert short(times) <= 1e-6
    assert times == 0 or short(times - 1) > -1e-6


@given(st.floats(1.0, 30.0), shares, mixtures, shares)
def test_what_is_drained_and_filled_in_gives_the_target(volume: float, start: float, target: float, new: float):
    assume(min(start, new) <= target <= max(start, new))
    assume(abs(new - start) > 1.0)
    drained = drain_for_target(volume_l=volume, start_percent=start, target_percent=target, new_percent=new)
    assert -1e-9 <= drained <= volume * (1 + 1e-9)
    assert ((volume - drained) * start + drained * new) / volume == pytest.approx(target, abs=1e-6)


@given(glycols, mixtures, st.floats(-80.0, 20.0), st.floats(-80.0, 20.0))
def test_a_colder_night_is_never_judged_milder(glycol: str, share: float, first: float, second: float):
    order = ("not enough", "in doubt", "enough")
    cold, mild = (order.index(coolant_state(glycol=glycol, volume_percent=share, coldest_c=at).state) for at in sorted((first, second)))
    assert cold <= mild


@given(st.floats(1.0, 10.0), temperatures, temperatures)
def test_a_tyre_and_back_reads_the_same(pressure: float, first: float, second: float):
    there = tyre_pressure(pressure_bar=pressure, temp_c=first, to_temp_c=second)
    assume(there <= 15.0)
    assert tyre_pressure(pressure_bar=there, temp_c=second, to_temp_c=first) == pytest.approx(pressure)


@given(st.floats(1.0, 10.0), temperatures, temperatures)
def test_a_warmer_tyre_reads_more(pressure: float, first: float, second: float):
    low, high = sorted((first, second))
    assert tyre_pressure(pressure_bar=pressure, temp_c=low, to_temp_c=high) >= pressure - 1e-12


@given(st.floats(-500.0, 11000.0), st.floats(-500.0, 11000.0))
def test_air_thins_with_height(first: float, second: float):
    low, high = sorted((first, second))
    assert air_pressure(height_m=high) <= air_pressure(height_m=low)


@given(st.floats(9.0, 13.5), st.floats(9.0, 13.5), st.floats(-30.0, 50.0))
def test_a_higher_voltage_is_never_less_charge(first: float, second: float, temperature: float):
    low, high = sorted((first, second))
    assert battery_charge(voltage_v=low, temp_c=temperature) <= battery_charge(voltage_v=high, temp_c=temperature) + 1e-9


@given(shares, shares)
def test_more_charge_never_freezes_sooner(first: float, second: float):
    low, high = sorted((first, second))
    for less, more in zip(acid_freezing(charge_percent=low), acid_freezing(charge_percent=high), strict=True):
        assert more <= less + 1e-9


@given(st.floats(-17.7, 26.6), st.floats(-17.7, 26.6))
def test_colder_gives_less_and_asks_more(first: float, second: float):
    low, high = sorted((first, second))
    assert cranking_power(temp_c=low) <= cranking_power(temp_c=high) + 1e-9
    assert cranking_need(temp_c=low) >= cranking_need(temp_c=high) - 1e-9


@given(st.permutations(["GL-4", "75W-90", "LS", "MT-1", "5 L"]))
def test_a_label_means_the_same_in_any_order(words: list[str]):
    label = gear_oil_label(text=", ".join(words))
    assert (set(label.classes), label.limited_slip) == ({"GL-4", "MT-1"}, True)
