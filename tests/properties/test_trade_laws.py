"""Laws of the engineering: round trips, monotony, conservation, and bounds that hold for every input."""

from __future__ import annotations

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.reference.oil_categories import categories
from twomarks.reference.tables import engine_grades
from twomarks.trade.categories import covers, parse_category
from twomarks.trade.grades import EngineOilGrade
from twomarks.trade.label import read_label
from twomarks.trade.torque import adapter_setting, wrench_suits

KEYS = st.sampled_from(sorted(categories()))
GRADES = st.builds(
    EngineOilGrade,
    st.sampled_from([row.grade for row in engine_grades() if row.ccs_temp_c is not None]),
    st.sampled_from(sorted({row.grade for row in engine_grades() if row.kv100_max_mm2_s is not None})),
)
KV = st.floats(2.0, 2000.0)


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
