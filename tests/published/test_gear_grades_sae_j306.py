"""Gear oil grades against SAE J306.

Sources: the edition of February 2019 from a reference chart (status a2); rows 110 and 190, and what 90 and 140 were before,
from the abstract of 2005 (status a). Engine and gear grades are different scales (status a2, encyclopedia copies).
"""

from __future__ import annotations

import pytest

from twomarks.errors import InputError
from twomarks.reference.tables import engine_grades, gear_grades, gear_grades_before_2005
from twomarks.trade.gear_grades import gear_limits_before_2005, gear_limits_of, parse_gear_grade
from twomarks.trade.gear_grading import gear_grades_of
from twomarks.trade.grades import parse_grade


def test_gear_rows():
    assert [(row.grade, row.bf150_temp_c) for row in gear_grades() if row.bf150_temp_c is not None] == [
        ("70W", -55),
        ("75W", -40),
        ("80W", -26),
        ("85W", -12),
    ]
    hot = {row.grade: (row.kv100_min_mm2_s, row.kv100_max_mm2_s) for row in gear_grades() if row.bf150_temp_c is None}
    assert hot == {
        "65": (3.8, 5.0),
        "70": (5.0, 6.5),
        "75": (6.5, 8.5),
        "80": (8.5, 11.0),
        "85": (11.0, 13.5),
        "90": (13.5, 18.5),
        "110": (18.5, 24.0),
        "140": (24.0, 32.5),
        "190": (32.5, 41.0),
        "250": (41.0, None),
    }


def test_before_2005_a_90_and_a_140_reached_further():
    # status a
    assert {row.grade: (row.kv100_min_mm2_s, row.kv100_max_mm2_s) for row in gear_grades_before_2005()} == {
        "90": (13.5, 24.0),
        "140": (24.0, 41.0),
    }
    assert gear_limits_before_2005("85") is None
    for no_hot_grade in ("80W", "91", "30"):
        with pytest.raises(InputError):
            gear_limits_before_2005(no_hot_grade)
    old = gear_limits_before_2005("90")
    assert old is not None
    assert (old.seen.source, old.seen.status) == ("sae_j306_2005", "a")


def test_an_oil_of_19_5_is_a_110_now_and_was_a_90():
    # status a
    found = gear_grades_of(kv100_mm2_s=19.5)
    assert (found.hot, found.hot_before_2005) == ("110", "90")


@pytest.mark.parametrize(
    ("kv100", "cold", "grade"),
    [
        (13.5, -40.0, "75W-90"),
        (13.5, -39.9, "80W-90"),
        (18.49, -26.0, "80W-90"),
        (18.5, -26.0, "80W-110"),
        (8.49, -55.0, "70W-75"),
        (8.49, -26.0, "75"),  # 80W asks for 8.5 at 100 C
        (41.0, -12.0, "85W-250"),
        (13.49, -11.9, "85"),
        (3.79, -60.0, "None"),
    ],
)
def test_classifier_at_its_limits(kv100: float, cold: float, grade: str):
    # status d: follows from the table
    assert str(gear_grades_of(kv100_mm2_s=kv100, bf150_temp_c=cold).grade) == grade


def test_every_limit_that_is_failed_is_named():
    found = gear_grades_of(kv100_mm2_s=8.49, bf150_temp_c=-25.0)
    assert [(miss.quantity, miss.found, miss.limit, miss.unit) for miss in found.missed if miss.grade == "80W"] == [
        ("bf150", -25.0, -26.0, "C"),
        ("kv100", 8.49, 8.5, "mm2/s"),
    ]
    assert gear_grades_of(kv100_mm2_s=14.0).not_measured == ("bf150",)


def test_engine_and_gear_grades_are_different_scales():
    assert not {row.grade for row in engine_grades()} & {row.grade for row in gear_grades()}
    with pytest.raises(InputError):
        parse_grade("75W-90")
    with pytest.raises(InputError):
        parse_gear_grade("5W-30")
    assert [row.grade for row in gear_limits_of("75w90")] == ["75W", "90"]
