"""Laws of labels and service categories: order and case do not matter, and the relation of categories has no circle."""

from __future__ import annotations

import graphlib

from hypothesis import given
from hypothesis import strategies as st

from twomarks.reference.oil_categories import categories, category_steps
from twomarks.reference.tables import engine_grades
from twomarks.trade.categories import covers
from twomarks.trade.category_names import parse_category
from twomarks.trade.grades import EngineOilGrade
from twomarks.trade.label import read_label, same_approval

KEYS = st.sampled_from(sorted(categories()))
GRADES = st.builds(
    EngineOilGrade,
    st.sampled_from([row.grade for row in engine_grades() if row.ccs_temp_c is not None]),
    st.sampled_from(sorted({row.grade for row in engine_grades() if row.kv100_max_mm2_s is not None})),
)
CLAIMS = st.sampled_from(["meets EX 9-9", "suitable for EX 8-8", "recommended for ACEA C9", "exceeds the requirements of EX 7"])
STRANGE = st.sampled_from(["EX 31", "sparkling", "batch 12 of 40"])
YEARS = st.sampled_from(["", "-21", "-2016", " (2008)"])
SULPHUR = st.none() | st.floats(0.0, 50_000.0)


def test_the_relation_of_categories_is_acyclic():
    graph: dict[str, set[str]] = {}
    for step in category_steps().values():
        if step.answer != "no":
            graph.setdefault(step.have, set()).add(step.asked)
    assert list(graphlib.TopologicalSorter(graph).static_order())


@given(KEYS)
def test_a_category_is_read_back_and_covers_itself(key: str):
    assert parse_category(key).key == key
    assert parse_category(key.lower().replace("-", " ")).key == key
    assert covers(key, key).covered == "yes"


@given(KEYS, KEYS, SULPHUR)
def test_no_two_categories_cover_each_other_and_every_answer_has_reason_and_source(one: str, other: str, sulphur: float | None):
    answers = [covers(a, b, fuel_sulphur_ppm=sulphur) for a, b in ((one, other), (other, one))]
    assert all(answer.steps and answer.status and answer.sources for answer in answers)
    assert all(answer.settles for answer in answers if answer.covered == "not shown")
    if one != other:
        assert not all(answer.covered == "yes" for answer in answers)
        assert all(answer.status != "c" for answer in answers if answer.covered != "not shown")


@given(KEYS, KEYS, st.floats(0.0, 50_000.0))
def test_sulphur_never_makes_a_category_serve(one: str, other: str, sulphur: float):
    rank = {"no": 0, "not shown": 1, "yes": 2}
    assert rank[covers(one, other, fuel_sulphur_ppm=sulphur).covered] <= rank[covers(one, other).covered]


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


@given(
    GRADES,
    st.lists(st.tuples(KEYS.filter(lambda key: key.startswith("ACEA")), YEARS), max_size=3),
    st.lists(CLAIMS, max_size=2, unique=True),
    st.lists(STRANGE, max_size=2, unique=True),
    st.randoms(use_true_random=False),
)
def test_claims_and_strange_words_change_nothing_wherever_they_stand(grade, dated, claims, strange, order):
    parts = [f"SAE {grade}", *(f"{key}{year}" for key, year in dated), *claims, *strange, "approval EX 229-5", "limited slip"]
    plain = read_label("; ".join(parts))
    order.shuffle(parts)
    label = read_label("; ".join(parts))
    assert (label.grade, label.approvals, label.fluid) == (plain.grade, ("EX 229-5",), plain.fluid)
    for name in ("categories", "claims", "not_understood", "marks"):
        assert set(getattr(label, name)) == set(getattr(plain, name))
    assert set(strange) <= set(label.not_understood)
    assert len(label.claims) >= len(claims)


@given(st.lists(st.sampled_from(["SP", "SN", "SN PLUS", "CK-4", "CJ-4", "CI-4"]), min_size=1, max_size=4, unique=True), st.data())
def test_a_slash_list_is_the_categories_of_its_parts(names: list[str], data):
    mark = data.draw(st.sampled_from(["/", " / ", ", ", " & ", "+"]))
    read = read_label(f"API {mark.join(names)}")
    assert {category.name for category in read.categories} == set(names)
    assert read.not_understood == ()


@given(st.text("ABEX 0123456789-", min_size=1, max_size=12), st.text("ABEX 0123456789-", min_size=1, max_size=12))
def test_approvals_are_alike_both_ways_and_to_themselves(one: str, other: str):
    assert same_approval(one, one)
    assert same_approval(one, other) == same_approval(other, one)
