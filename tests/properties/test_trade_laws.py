"""Laws of the engineering: round trips, monotony, conservation, and bounds that hold for every input."""

from __future__ import annotations

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.reference.tables import categories, engine_grades
from twomarks.trade.categories import covers, parse_category
from twomarks.trade.chance import normal_quantile, normal_share_below
from twomarks.trade.extremes import return_level
from twomarks.trade.grades import EngineOilGrade, grades_of, limits_of, parse_grade
from twomarks.trade.label import read_label
from twomarks.trade.level import add_table, first_pour, pour_without_capacity
from twomarks.trade.torque import adapter_setting, wrench_suits
from twomarks.trade.viscosity import blend_viscosity_astm_d7152, viscosity_index, walther_line
from twomarks.trade.volume import volume_at, volume_correction_factor

KEYS = st.sampled_from(sorted(categories()))
GRADES = st.builds(
    EngineOilGrade,
    st.sampled_from([row.grade for row in engine_grades() if row.ccs_temp_c is not None]),
    st.sampled_from(sorted({row.grade for row in engine_grades() if row.kv100_max_mm2_s is not None})),
)
KV = st.floats(2.0, 2000.0)
SPANS = st.floats(0.4, 3.0)
REFILLS = st.floats(0.8, 20.0)
SIGMAS = st.floats(0.0, 2.0)


@given(KV, st.floats(1.01, 40.0), st.floats(-20.0, 60.0), st.floats(5.0, 120.0))
def test_a_line_returns_its_two_points_and_falls_between(high: float, factor: float, temp: float, rise: float):
    line = walther_line(kv_low_mm2_s=high * factor, temp_low_c=temp, kv_high_mm2_s=high, temp_high_c=temp + rise)
    assert math.isclose(line.kinematic_viscosity(temp_c=temp), high * factor, rel_tol=1e-9)
    assert math.isclose(line.kinematic_viscosity(temp_c=temp + rise), high, rel_tol=1e-9)
    middle = line.kinematic_viscosity(temp_c=temp + rise / 2)
    assert high < middle < high * factor
    assert math.isclose(line.temperature(kv_mm2_s=middle), temp + rise / 2, abs_tol=1e-6)


@given(st.floats(2.0, 90.0), st.floats(1.2, 20.0), st.floats(1.001, 1.5))
def test_a_thinner_oil_at_40_has_a_higher_index(kv100: float, factor: float, more: float):
    thin = viscosity_index(kv40_mm2_s=kv100 * factor, kv100_mm2_s=kv100)
    thick = viscosity_index(kv40_mm2_s=kv100 * factor * more, kv100_mm2_s=kv100)
    assert thin > thick


@given(st.lists(st.tuples(KV, st.floats(0.0, 5.0)), min_size=1, max_size=5), st.randoms(use_true_random=False))
def test_a_blend_lies_between_its_oils_in_any_order(oils: list[tuple[float, float]], order):
    assume(sum(share for _, share in oils) > 1e-6)
    blend = blend_viscosity_astm_d7152(kv_mm2_s=[kv for kv, _ in oils], volume_share=[share for _, share in oils])
    used = [kv for kv, share in oils if share > 0]
    assert min(used) * (1 - 1e-9) <= blend <= max(used) * (1 + 1e-9)
    order.shuffle(oils)
    again = blend_viscosity_astm_d7152(kv_mm2_s=[kv for kv, _ in oils], volume_share=[share for _, share in oils])
    assert math.isclose(blend, again, rel_tol=1e-9)


@given(st.floats(801.0, 1163.0), st.floats(-50.0, 150.0), st.floats(-50.0, 150.0), st.floats(0.1, 20.0))
def test_volume_comes_back_and_grows_with_warmth(density: float, here: float, there: float, volume: float):
    moved = volume_at(volume_l=volume, temp_c=here, to_temp_c=there, density15_kg_m3=density)
    assert math.isclose(volume_at(volume_l=moved, temp_c=there, to_temp_c=here, density15_kg_m3=density), volume, rel_tol=1e-12)
    if there > here + 0.01:
        assert moved > volume
    assert volume_correction_factor(density15_kg_m3=density, temp_c=here) > 0.85


@given(GRADES)
def test_a_grade_is_read_back_and_an_oil_inside_its_limits_earns_it(grade: EngineOilGrade):
    assert parse_grade(str(grade)) == grade
    assert parse_grade(f"sae {grade.winter.lower()}{grade.hot}") == grade
    cold, hot = limits_of(str(grade))
    kv100 = hot.kv100_max_mm2_s * 0.9999
    assume(kv100 >= cold.kv100_min_mm2_s)
    found = grades_of(
        kv100_mm2_s=kv100,
        hths_mpa_s=hot.hths_min_mpa_s,
        ccs_mpa_s={cold.ccs_temp_c: cold.ccs_max_mpa_s},
        mrv_mpa_s={cold.mrv_temp_c: cold.mrv_max_mpa_s},
    )
    assert found.grade == grade


@given(KEYS)
def test_a_category_is_read_back_and_covers_itself(key: str):
    assert parse_category(key).key == key
    assert parse_category(key.lower().replace("-", " ")).key == key
    assert covers(key, key).covered == "yes"


@given(KEYS, KEYS)
def test_no_two_categories_cover_each_other_and_every_answer_has_a_reason(one: str, other: str):
    answers = (covers(one, other), covers(other, one))
    assert all(answer.steps and answer.status for answer in answers)
    if one != other:
        assert not all(answer.covered == "yes" for answer in answers)
    assert all(answer.status != "c" for answer in answers if answer.covered == "yes" and one != other)


@given(st.text(max_size=120))
def test_any_label_is_read_without_a_fault(text: str):
    label = read_label(text)
    assert not label.approvals or "appro" in text.casefold() or "licen" in text.casefold() or "homolog" in text.casefold()


@given(GRADES, st.lists(KEYS, max_size=4, unique=True), st.randoms(use_true_random=False))
def test_a_label_says_the_same_in_any_order_and_case(grade: EngineOilGrade, keys: list[str], order):
    parts = [f"SAE {grade}", *keys, "approval EX 229-5"]
    order.shuffle(parts)
    for text in (", ".join(parts), "; ".join(parts).lower(), "\n".join(parts).upper()):
        label = read_label(text)
        assert label.grade == grade
        assert {category.key for category in label.categories} == set(keys)
        assert [approval.upper() for approval in label.approvals] == ["EX 229-5"]
        assert label.not_understood == ()


@given(st.floats(1e-6, 1 - 1e-6))
def test_quantile_and_share_undo_each_other(share: float):
    assert math.isclose(normal_share_below(value=normal_quantile(share=share)), share, rel_tol=1e-6)


@given(REFILLS, SPANS, SIGMAS, st.floats(0.001, 0.2), st.floats(0.001, 0.2))
def test_a_single_pour_keeps_both_chances_and_two_pours_read_first(refill: float, span: float, sigma: float, over: float, short: float):
    assume(span < refill)
    plan = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma, p_over=over, p_short=short)
    if plan.kind == "one pour":
        assert plan.least_l <= plan.first_l <= plan.most_l
        assert plan.chance_over <= over + 1e-9
        assert plan.chance_short <= short + 1e-9
    else:
        assert plan.needs_reading_before_start
        assert plan.first_l is None or plan.chance_over <= over + 1e-9
    assert plan.reasons


@given(REFILLS, SPANS, SIGMAS, SIGMAS)
def test_a_less_certain_capacity_never_widens_the_bounds(refill: float, span: float, sigma: float, more: float):
    assume(span < refill)
    sure = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma)
    unsure = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma + more)
    if sure.most_l is not None and unsure.most_l is not None:
        assert unsure.most_l <= sure.most_l
        assert unsure.least_l >= sure.least_l
    assert not (sure.kind != "one pour" and unsure.kind == "one pour")


@given(SPANS, st.integers(2, 40))
def test_the_table_never_overfills_never_adds_more_than_half_and_never_asks_for_both(span: float, steps: int):
    rows = add_table(between_marks_l=span, steps=steps)
    adds = [row.add_l for row in rows]
    assert adds == sorted(adds, reverse=True)
    for row in rows:
        assert row.add_l <= 0.5 * span + 1e-9
        if row.reading_fraction <= 1.0:
            assert row.add_l >= 0.0
            assert row.reading_fraction + row.add_l / span <= 1.0 + 1e-9
        else:
            assert row.reading_fraction + row.add_l / span <= 0.9 + 1e-9
        assert row.start == (row.reading_fraction < 1.5)


@given(st.one_of(st.none(), st.floats(0.3, 20.0)), st.one_of(st.none(), SPANS))
def test_no_capacity_is_made_up(out: float | None, span: float | None):
    plan = pour_without_capacity(measured_out_l=out, between_marks_l=span)
    assert plan.needs_reading_before_start
    assert (plan.least_l, plan.most_l) == (None, None)
    if plan.first_l is not None:
        assert plan.first_l <= out - span / 2 + 1e-9


@given(st.floats(1.0, 400.0), st.floats(0.1, 1.5), st.floats(0.0, 0.5), st.floats(0.0, 180.0))
def test_an_adapter_that_lengthens_asks_for_less(torque: float, length: float, adapter: float, angle: float):
    assume(length + adapter * math.cos(math.radians(angle)) > 0.01)
    setting = adapter_setting(torque_nm=torque, wrench_length_m=length, adapter_length_m=adapter, angle_deg=angle)
    reach = length + adapter * math.cos(math.radians(angle))
    assert math.isclose(setting * reach, torque * length, rel_tol=1e-9)


@given(st.floats(0.5, 400.0), st.floats(0.0, 100.0), st.floats(1.0, 400.0))
def test_a_torque_beyond_the_marks_is_outside(torque: float, low: float, more: float):
    fit = wrench_suits(torque_nm=torque, wrench_low_nm=low, wrench_high_nm=low + more)
    assert (fit.state == "outside") == (not low <= torque <= low + more)


@given(st.lists(st.floats(5.0, 40.0), min_size=15, max_size=25, unique=True), st.floats(-20.0, 20.0))
def test_a_return_level_moves_with_its_record_and_lies_in_its_interval(maxima: list[float], shift: float):
    assume(max(maxima) - min(maxima) > 1.0)
    level = return_level(maxima, once_in_years=10)
    moved = return_level([value + shift for value in maxima], once_in_years=10)
    assert level.low <= level.value <= level.high
    assert math.isclose(moved.value, level.value + shift, abs_tol=0.05 * (max(maxima) - min(maxima)))
