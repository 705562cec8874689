"""Laws of expansion and of draining: round trips, both bases, one body for a number and for an array."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from twomarks.errors import OutOfRangeError
from twomarks.trade.drain_hole import Hole, discharge_coefficient, head_after_m, hole_velocity_m_s, orifice_drain_s, viscous_drain_s
from twomarks.trade.draining import SumpDrain, drain_curve, left_after
from twomarks.trade.film import film_left_l
from twomarks.trade.volume import density_at, pan_volume, volume_at, volume_correction_factor, volume_correction_factor_60f

DENSITIES = st.floats(802.0, 1160.0)
TEMPS = st.floats(-50.0, 150.0)
VOLUMES = st.floats(0.1, 40.0)
KV = st.floats(1.0, 20_000.0)
HEADS = st.floats(0.01, 0.5)
DIAMETERS = st.floats(6.0, 40.0)
LENGTHS = st.floats(0.0, 30.0)
SURFACES = st.floats(0.01, 0.3)
HOLES = st.builds(Hole, DIAMETERS, LENGTHS)
SUMPS = st.builds(SumpDrain, st.floats(1.0, 20.0), st.floats(0.03, 0.3), HOLES, st.floats(0.0, 3.0), st.floats(0.1, 0.6))


@given(DENSITIES, TEMPS, TEMPS, VOLUMES)
def test_a_volume_comes_back_and_its_mass_stays(density: float, here: float, there: float, volume: float):
    moved = volume_at(volume_l=volume, temp_c=here, to_temp_c=there, density15_kg_m3=density)
    back = volume_at(volume_l=moved, temp_c=there, to_temp_c=here, density15_kg_m3=density)
    assert math.isclose(back, volume, rel_tol=1e-12)
    masses = [part * density_at(density15_kg_m3=density, temp_c=at) for part, at in ((volume, here), (moved, there))]
    assert math.isclose(*masses, rel_tol=1e-12)


@given(DENSITIES, st.floats(-49.0, 149.0))
def test_both_bases_agree(density15: float, temp_c: float):
    to_60f = volume_correction_factor(density15_kg_m3=density15, temp_c=(60.0 - 32.0) / 1.8)
    density60f = density15 * to_60f
    by_f = volume_correction_factor_60f(density60f_kg_m3=density60f, temp_f=temp_c * 1.8 + 32.0)
    by_c = volume_correction_factor(density15_kg_m3=density15, temp_c=temp_c) / to_60f
    assert math.isclose(by_f, by_c, abs_tol=5e-5)


@given(st.lists(st.tuples(DENSITIES, TEMPS, TEMPS, VOLUMES), min_size=1, max_size=30))
def test_an_array_answers_as_its_numbers_do(rows: list[tuple[float, float, float, float]]):
    density, here, there, volume = (np.array(column) for column in zip(*rows, strict=True))
    together = volume_at(volume_l=volume, temp_c=here, to_temp_c=there, density15_kg_m3=density)
    apart = [volume_at(volume_l=row[3], temp_c=row[1], to_temp_c=row[2], density15_kg_m3=row[0]) for row in rows]
    assert np.allclose(together, apart, rtol=1e-13)


@given(HOLES, KV, HEADS, SURFACES, st.floats(0.001, 0.999))
def test_a_sump_runs_down_to_the_height_that_its_time_says(hole: Hole, kv: float, head: float, surface: float, share: float):
    low = head * share
    seconds = viscous_drain_s(hole, surface_m2=surface, head_m=head, head_left_m=low, kv_mm2_s=kv)
    assert math.isclose(head_after_m(hole, surface_m2=surface, head_m=head, time_s=seconds, kv_mm2_s=kv), low, rel_tol=1e-9)


@given(HOLES, KV, HEADS, SURFACES, st.floats(0.01, 0.99), st.floats(1.01, 50.0))
def test_a_thicker_oil_takes_longer_and_never_less_than_a_thin_one(
    hole: Hole, kv: float, head: float, surface: float, share: float, factor: float
):
    ends = {"surface_m2": surface, "head_m": head, "head_left_m": head * share}
    seconds = viscous_drain_s(hole, kv_mm2_s=kv, **ends)
    assert seconds < viscous_drain_s(hole, kv_mm2_s=factor * kv, **ends)
    hole_m2 = math.pi / 4.0 * (hole.diameter_mm / 1000.0) ** 2
    assert seconds > orifice_drain_s(hole_m2=hole_m2, **ends)


@given(st.floats(1e-3, 1e7), st.floats(0.0, 5.0), st.floats(1.01, 100.0))
def test_the_coefficient_rises_with_the_reynolds_number_up_to_that_of_a_thin_liquid(reynolds: float, ratio: float, factor: float):
    slow, fast = (discharge_coefficient(reynolds=one, length_ratio=ratio) for one in (reynolds, reynolds * factor))
    assert 0.0 < slow < fast < 0.62


@given(st.lists(st.tuples(KV, HEADS, DIAMETERS, LENGTHS), min_size=1, max_size=20), SURFACES, st.floats(0.0, 4000.0))
def test_arrays_of_holes_answer_as_their_numbers_do(rows: list[tuple[float, ...]], surface: float, seconds: float):
    kv, head, diameter, length = (np.array(column) for column in zip(*rows, strict=True))
    holes = Hole(diameter, length)
    speeds = hole_velocity_m_s(holes, head_m=head, kv_mm2_s=kv)
    heads = head_after_m(holes, surface_m2=surface, head_m=head, time_s=seconds, kv_mm2_s=kv)
    for at, (one_kv, one_head, one_diameter, one_length) in enumerate(rows):
        hole = Hole(one_diameter, one_length)
        assert math.isclose(speeds[at], hole_velocity_m_s(hole, head_m=one_head, kv_mm2_s=one_kv), rel_tol=1e-12)
        one = head_after_m(hole, surface_m2=surface, head_m=one_head, time_s=seconds, kv_mm2_s=one_kv)
        assert math.isclose(heads[at], one, rel_tol=1e-9, abs_tol=1e-15)


@given(SUMPS, KV, st.lists(st.floats(0.0, 120.0), min_size=2, max_size=6, unique=True), st.floats(1.0, 60.0))
def test_what_is_out_and_what_is_left_is_always_the_same_oil(sump: SumpDrain, kv: float, times: list[float], wait: float):
    rows = drain_curve(sump, kv_mm2_s=kv, density_kg_m3=850.0, times_min=sorted(times), next_min=wait)
    wholes = [row.out_l + row.sump_l + row.walls_l for row in rows]
    assert all(math.isclose(whole, wholes[0], rel_tol=1e-9) for whole in wholes)
    outs, nexts = [row.out_l for row in rows], [row.next_l for row in rows]
    assert outs == sorted(outs)
    assert all(brings >= -1e-12 for brings in nexts)
    later = drain_curve(sump, kv_mm2_s=kv, density_kg_m3=850.0, times_min=[rows[0].time_min + wait])[0]
    assert math.isclose(later.out_l, rows[0].out_l + rows[0].next_l, rel_tol=1e-9, abs_tol=1e-12)


@given(SUMPS, KV, st.lists(st.floats(0.0, 120.0), min_size=1, max_size=30))
def test_a_curve_over_an_array_of_times_is_that_of_its_times(sump: SumpDrain, kv: float, times: list[float]):
    together = left_after(sump, time_min=np.array(times), kv_mm2_s=kv, density_kg_m3=850.0).whole_l
    apart = [left_after(sump, time_min=time, kv_mm2_s=kv, density_kg_m3=850.0).whole_l for time in times]
    assert np.allclose(together, apart, rtol=1e-9, atol=1e-12)


@given(st.floats(2.0, 12.0), st.floats(0.0, 1.0), st.floats(21.0, 120.0), DENSITIES, st.floats(0.0, 1.0), st.floats(0.1, 1.5))
def test_the_pan_holds_what_comes_out_hot(refill: float, sigma: float, temp: float, density: float, level: float, span: float):
    found = pan_volume(
        refill_l=refill, refill_sigma_l=sigma, oil_temp_c=temp, density15_kg_m3=density, level_fraction=level, between_marks_l=span
    )
    assert found.cold_l < found.hot_l <= found.room_l
    cooled = volume_at(volume_l=found.hot_l, temp_c=temp, to_temp_c=20.0, density15_kg_m3=density)
    assert math.isclose(cooled, refill - (1.0 - level) * span, rel_tol=1e-9)


@given(st.integers(0, 9), st.sampled_from([float("nan"), -1.0, 0.0]))
def test_an_array_with_one_wrong_value_names_its_place(at: int, wrong: float):
    kv = np.full(10, 50.0)
    kv[at] = wrong
    with pytest.raises(OutOfRangeError) as refused:
        hole_velocity_m_s(Hole(14.0, 15.0), head_m=0.1, kv_mm2_s=kv)
    assert (refused.value.values["index"], refused.value.values["more"]) == (at, None)
    with pytest.raises(OutOfRangeError) as refused:
        film_left_l(walls_m2=1.0, dynamic_viscosity_mpa_s=kv, density_kg_m3=850.0, wall_height_m=0.3, time_s=60.0)
    assert refused.value.values["index"] == at
