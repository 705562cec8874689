"""Laws of viscosity: round trips, monotony, blends between their parts in any order, and arrays that answer as numbers do."""

from __future__ import annotations

import math

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.reference.tables import engine_grades, gear_grades
from twomarks.trade.blending import (
    blend_by_mass_astm_d7152,
    blend_by_mass_refutas,
    blend_by_volume_astm_d7152,
    volume_share_for_target,
)
from twomarks.trade.density import density15_of
from twomarks.trade.dilution import blend_with_fuel, fuel_from_viscosity
from twomarks.trade.gear_grading import gear_grades_of
from twomarks.trade.grades import EngineOilGrade, limits_of, parse_grade
from twomarks.trade.grading import grades_of, hot_bands_of, misses_of
from twomarks.trade.viscosity import ViscosityLine, dynamic_viscosity, walther_line
from twomarks.trade.viscosity_index import kv40_of_index, viscosity_index
from twomarks.trade.volume import density_at

KV = st.floats(2.0, 2000.0)
FALLS = st.floats(1.5, 20.0)
TEMPS = st.floats(0.0, 150.0)
PARTS = st.lists(st.tuples(KV, st.floats(0.0, 5.0)), min_size=1, max_size=5)
OILS = st.lists(st.tuples(st.floats(2.0, 90.0), FALLS, TEMPS), min_size=1, max_size=20)
WINTER = st.sampled_from([row.grade for row in engine_grades() if row.ccs_temp_c is not None])
HOT = st.sampled_from(sorted({row.grade for row in engine_grades() if row.kv100_max_mm2_s is not None}))
GRADES = st.builds(EngineOilGrade, WINTER, HOT)
MPA_S = st.floats(1000.0, 100_000.0)
CCS = {row.ccs_temp_c for row in engine_grades() if row.ccs_temp_c is not None}
MRV = {row.mrv_temp_c for row in engine_grades() if row.mrv_temp_c is not None}


def line_of(kv100: float, fall: float) -> ViscosityLine:
    return walther_line(kv_low_mm2_s=kv100 * fall, temp_low_c=40.0, kv_high_mm2_s=kv100, temp_high_c=100.0)


@given(KV, st.floats(1.01, 40.0), st.floats(-20.0, 60.0), st.floats(5.0, 120.0))
def test_a_line_returns_its_two_points_and_falls_between(high: float, factor: float, temp: float, rise: float):
    line = walther_line(kv_low_mm2_s=high * factor, temp_low_c=temp, kv_high_mm2_s=high, temp_high_c=temp + rise)
    assert math.isclose(line.kinematic_viscosity(temp_c=temp), high * factor, rel_tol=1e-9)
    assert math.isclose(line.kinematic_viscosity(temp_c=temp + rise), high, rel_tol=1e-9)
    middle = line.kinematic_viscosity(temp_c=temp + rise / 2)
    assert high < middle < high * factor
    assert math.isclose(line.temperature(kv_mm2_s=middle), temp + rise / 2, abs_tol=1e-6)


@given(st.floats(2.0, 90.0), FALLS, TEMPS, st.floats(0.1, 30.0))
def test_viscosity_and_temperature_are_each_others_reverse_and_both_fall(kv100: float, fall: float, temp: float, rise: float):
    line = line_of(kv100, fall)
    kv = line.kinematic_viscosity(temp_c=temp)
    assert math.isclose(line.temperature(kv_mm2_s=kv), temp, abs_tol=1e-6)
    warmer = line.kinematic_viscosity(temp_c=temp + rise)
    assert warmer < kv
    assert line.temperature(kv_mm2_s=warmer) > line.temperature(kv_mm2_s=kv)


@given(OILS)
def test_an_array_of_oils_and_temperatures_answers_as_its_numbers_do(oils: list[tuple[float, float, float]]):
    kv100, fall, temp = (np.array(column) for column in zip(*oils, strict=True))
    line = line_of(kv100, fall)
    kv = line.kinematic_viscosity(temp_c=temp)
    back = line.temperature(kv_mm2_s=kv)
    index = viscosity_index(kv40_mm2_s=kv100 * fall, kv100_mm2_s=kv100)
    dynamic = dynamic_viscosity(kv_mm2_s=kv, density_kg_m3=density_at(density15_kg_m3=860.0, temp_c=temp))
    grid = line.kinematic_viscosity(temp_c=temp[:, np.newaxis])
    assert grid.shape == (len(oils), len(oils))
    for at, (one100, onefall, onetemp) in enumerate(oils):
        one = line_of(one100, onefall)
        onekv = one.kinematic_viscosity(temp_c=onetemp)
        assert math.isclose(kv[at], onekv, rel_tol=1e-9)
        assert math.isclose(grid[at, at], onekv, rel_tol=1e-9)
        assert math.isclose(back[at], one.temperature(kv_mm2_s=onekv), abs_tol=1e-6)
        theirs = viscosity_index(kv40_mm2_s=one100 * onefall, kv100_mm2_s=one100)
        assert math.isclose(index[at], theirs, rel_tol=1e-9, abs_tol=1e-9)
        density = density_at(density15_kg_m3=860.0, temp_c=onetemp)
        assert math.isclose(dynamic[at], dynamic_viscosity(kv_mm2_s=onekv, density_kg_m3=density), rel_tol=1e-9)


@given(st.floats(2.0, 90.0), st.floats(1.2, 20.0), st.floats(1.001, 1.5))
def test_a_thinner_oil_at_40_has_a_higher_index(kv100: float, factor: float, more: float):
    thin = viscosity_index(kv40_mm2_s=kv100 * factor, kv100_mm2_s=kv100)
    thick = viscosity_index(kv40_mm2_s=kv100 * factor * more, kv100_mm2_s=kv100)
    assert thin > thick


@given(st.floats(2.0, 300.0), st.floats(-300.0, 500.0))
def test_an_index_leads_back_to_the_viscosity_it_came_from(kv100: float, index: float):
    kv40 = kv40_of_index(index=index, kv100_mm2_s=kv100)
    assert kv40 > kv100
    assert math.isclose(viscosity_index(kv40_mm2_s=kv40, kv100_mm2_s=kv100), index, abs_tol=1e-6)
    array = kv40_of_index(index=np.array([index, 100.0]), kv100_mm2_s=kv100)
    assert math.isclose(array[0], kv40, rel_tol=1e-9)


@given(PARTS, st.randoms(use_true_random=False))
def test_a_blend_lies_between_its_oils_in_any_order(oils: list[tuple[float, float]], order):
    assume(sum(share for _, share in oils) > 1e-6)
    used = [kv for kv, share in oils if share > 0]
    shuffled = list(oils)
    order.shuffle(shuffled)
    for blend in (
        lambda parts: blend_by_volume_astm_d7152(kv_mm2_s=[kv for kv, _ in parts], volume_l=[share for _, share in parts]),
        lambda parts: blend_by_mass_refutas(kv_mm2_s=[kv for kv, _ in parts], mass_kg=[share for _, share in parts]),
        lambda parts: blend_by_mass_astm_d7152(
            kv_mm2_s=[kv for kv, _ in parts],
            mass_kg=[share for _, share in parts],
            density_kg_m3=[850.0 + kv / 100.0 for kv, _ in parts],
        ),
    ):
        found = blend(oils).kv_mm2_s
        assert min(used) * (1 - 1e-9) <= found <= max(used) * (1 + 1e-9)
        assert math.isclose(found, blend(shuffled).kv_mm2_s, rel_tol=1e-9)
        twice = blend([(np.array([kv, kv]), np.array([share, 2 * share])) for kv, share in oils]).kv_mm2_s
        assert np.allclose(twice, found, rtol=1e-9)


@given(PARTS)
def test_equal_densities_make_a_blend_by_mass_one_by_volume(oils: list[tuple[float, float]]):
    assume(sum(share for _, share in oils) > 1e-6)
    kvs, shares = [kv for kv, _ in oils], [share for _, share in oils]
    by_mass = blend_by_mass_astm_d7152(kv_mm2_s=kvs, mass_kg=shares, density_kg_m3=[870.0] * len(oils))
    by_volume = blend_by_volume_astm_d7152(kv_mm2_s=kvs, volume_l=shares)
    assert math.isclose(by_mass.kv_mm2_s, by_volume.kv_mm2_s, rel_tol=1e-9)


@given(st.floats(2.0, 90.0), FALLS, st.floats(2.0, 90.0), FALLS, st.floats(0.0, 1.0), TEMPS)
def test_a_blend_of_two_lines_is_a_line(one: float, onefall: float, other: float, otherfall: float, share: float, temp: float):
    lines = [line_of(one, onefall), line_of(other, otherfall)]
    straight = [share * first + (1 - share) * second for first, second in ((lines[0].a, lines[1].a), (lines[0].b, lines[1].b))]
    parts = [line.kinematic_viscosity(temp_c=temp) for line in lines]
    assume(min(parts) > 0.31)
    blend = blend_by_volume_astm_d7152(kv_mm2_s=parts, volume_l=(share, 1 - share))
    assert math.isclose(blend.kv_mm2_s, ViscosityLine(*straight).kinematic_viscosity(temp_c=temp), rel_tol=1e-9)


@given(KV, KV, st.floats(0.0, 1.0))
def test_the_share_for_a_target_makes_a_blend_of_that_target(first: float, second: float, share: float):
    assume(abs(first - second) > 0.01)
    target = blend_by_volume_astm_d7152(kv_mm2_s=(first, second), volume_l=(share, 1 - share)).kv_mm2_s
    target = min(max(target, min(first, second)), max(first, second))
    found = volume_share_for_target(kv_first_mm2_s=first, kv_second_mm2_s=second, kv_target_mm2_s=target).first
    assert 0.0 <= found <= 1.0
    again = blend_by_volume_astm_d7152(kv_mm2_s=(first, second), volume_l=(found, 1 - found)).kv_mm2_s
    assert math.isclose(again, target, rel_tol=1e-9)
    array = volume_share_for_target(kv_first_mm2_s=np.array([first]), kv_second_mm2_s=second, kv_target_mm2_s=target).first
    assert math.isclose(array[0], found, abs_tol=1e-6)


@given(st.floats(3.0, 30.0), st.floats(0.0, 40.0), st.floats(0.8, 2.5), st.floats(0.0, 10.0))
def test_fuel_thins_and_is_found_again_within_its_bounds(kv: float, fuel: float, kv_fuel: float, spread: float):
    thinned = blend_with_fuel(kv_oil_mm2_s=kv, fuel_percent=fuel, kv_fuel_mm2_s=kv_fuel).kv_mm2_s
    more = blend_with_fuel(kv_oil_mm2_s=kv, fuel_percent=fuel + 1.0, kv_fuel_mm2_s=kv_fuel).kv_mm2_s
    assert kv_fuel < more < thinned <= kv * (1 + 1e-12)
    found = fuel_from_viscosity(kv_fresh_mm2_s=kv, kv_used_mm2_s=thinned, kv_fuel_mm2_s=kv_fuel, spread_percent=spread)
    assert math.isclose(found.fuel_percent, fuel, abs_tol=1e-6)
    assert 0.0 <= found.low_percent <= found.fuel_percent <= found.high_percent <= 100.0
    arrays = fuel_from_viscosity(kv_fresh_mm2_s=np.array([kv, kv]), kv_used_mm2_s=thinned, kv_fuel_mm2_s=kv_fuel, spread_percent=spread)
    for one, several in ((found.low_percent, arrays.low_percent), (found.high_percent, arrays.high_percent)):
        assert np.allclose(several, one, atol=1e-9)


@given(GRADES)
def test_a_grade_is_read_back_and_an_oil_inside_its_limits_earns_it(grade: EngineOilGrade):
    assert parse_grade(str(grade)) == grade
    assert parse_grade(f"sae {grade.winter.lower()}{grade.hot}") == grade
    cold, hot = limits_of(str(grade))
    kv100 = hot.kv100_max_mm2_s * 0.9999
    assume(kv100 >= cold.kv100_min_mm2_s)
    measured = {
        "kv100_mm2_s": kv100,
        "hths_mpa_s": hot.hths_min_mpa_s,
        "ccs_mpa_s": {cold.ccs_temp_c: cold.ccs_max_mpa_s},
        "mrv_mpa_s": {cold.mrv_temp_c: cold.mrv_max_mpa_s},
    }
    found = grades_of(**measured)
    assert found.grade == grade
    assert found.not_measured == ()
    assert misses_of(str(grade), **measured) == ()


@given(
    st.floats(2.0, 30.0),
    st.floats(1.0, 5.0) | st.none(),
    st.dictionaries(st.sampled_from(sorted(CCS)), MPA_S),
    st.dictionaries(st.sampled_from(sorted(MRV)), MPA_S),
)
def test_no_grade_that_is_given_is_among_those_whose_limits_are_failed(kv100: float, hths: float | None, ccs, mrv):
    found = grades_of(kv100_mm2_s=kv100, hths_mpa_s=hths, ccs_mpa_s=ccs, mrv_mpa_s=mrv)
    failed = {miss.grade for miss in found.missed}
    assert not {found.winter, found.hot} & failed
    if not found.hot:
        assert {row.grade for row in engine_grades() if row.ccs_temp_c is None} <= failed
    if found.hot:
        assert found.hot in hot_bands_of(kv100_mm2_s=kv100)
        assert misses_of(str(found.grade), kv100_mm2_s=kv100, hths_mpa_s=hths, ccs_mpa_s=ccs, mrv_mpa_s=mrv) == ()
    for miss in found.missed:
        assert {"at least": miss.found < miss.limit, "at most": miss.found > miss.limit, "below": miss.found >= miss.limit}[miss.bound]


@given(st.floats(0.5, 100.0), st.floats(-60.0, 10.0))
def test_every_gear_oil_from_3_8_up_has_one_hot_grade(kv100: float, cold: float):
    found = gear_grades_of(kv100_mm2_s=kv100, bf150_temp_c=cold)
    assert bool(found.hot) == (kv100 >= 3.8)
    if found.winter:
        assert cold <= next(row.bf150_temp_c for row in gear_grades() if row.grade == found.winter)


@given(st.floats(801.0, 1163.0), st.floats(-50.0, 150.0))
def test_density_comes_back_to_15(density15: float, temp: float):
    there = density_at(density15_kg_m3=density15, temp_c=temp)
    assert math.isclose(density15_of(density_kg_m3=there, temp_c=temp), density15, rel_tol=1e-9)
