"""Engine oil grades against SAE J300 and gear oil grades against SAE J306.

Sources: J300 as of 2015-01-20, reproduced (status a2); rows 16 and 20 from the publisher's page on the edition of April 2013
(status a); the split of 40 from a reproduction of December 1999 (status a2). J306 of February 2019 from a reference chart
(status a2), 110 and 190 from the abstract of 2005 (status a). Vectors for the classifier follow from the table (status d).
"""

from __future__ import annotations

import pytest

from twomarks.reference.tables import engine_grades, gear_grades
from twomarks.trade.grades import grades_of, lowest_cranking_c, lowest_pumping_c

COLD = {"0W": -35.0, "5W": -30.0, "10W": -25.0, "15W": -20.0}


@pytest.mark.parametrize(
    ("grade", "ccs", "ccs_at", "mrv_at", "kv100"),
    [
        ("0W", 6200, -35, -40, 3.8),
        ("5W", 6600, -30, -35, 3.8),
        ("10W", 7000, -25, -30, 4.1),
        ("15W", 7000, -20, -25, 5.6),
        ("20W", 9500, -15, -20, 5.6),
        ("25W", 13000, -10, -15, 9.3),
    ],
)
def test_winter_rows(grade: str, ccs: float, ccs_at: float, mrv_at: float, kv100: float):
    row = next(row for row in engine_grades() if row.grade == grade)
    assert (row.ccs_max_mpa_s, row.ccs_temp_c, row.mrv_max_mpa_s, row.mrv_temp_c) == (ccs, ccs_at, 60000, mrv_at)
    assert row.kv100_min_mm2_s == kv100
    assert (lowest_cranking_c(grade), lowest_pumping_c(grade)) == (ccs_at, mrv_at)


def test_hot_rows():
    assert [
        (row.grade, row.kv100_min_mm2_s, row.kv100_max_mm2_s, row.hths_min_mpa_s) for row in engine_grades() if row.kv100_max_mm2_s
    ] == [
        ("8", 4.0, 6.1, 1.7),
        ("12", 5.0, 7.1, 2.0),
        ("16", 6.1, 8.2, 2.3),
        ("20", 6.9, 9.3, 2.6),
        ("30", 9.3, 12.5, 2.9),
        ("40", 12.5, 16.3, 3.5),
        ("40", 12.5, 16.3, 3.7),
        ("50", 16.3, 21.9, 3.7),
        ("60", 21.9, 26.1, 3.7),
    ]


@pytest.mark.parametrize(
    ("kv100", "hths", "winter", "hot"),
    [
        (6.95, 2.6, "", "20"),
        (6.95, 2.59, "", "16"),
        (7.05, 2.1, "", "12"),
        (8.2, 2.6, "", "20"),
        (9.3, 2.9, "", "30"),
        (9.29, 2.6, "", "20"),
        (12.5, 3.5, "5W", "40"),
        (12.5, 3.4, "5W", ""),
        (13.0, 3.6, "10W", "40"),
        (13.0, 3.6, "15W", ""),
        (13.0, 3.6, "", ""),
        (16.3, 3.7, "", "50"),
        (26.1, 5.0, "", ""),
    ],
)
def test_classifier(kv100: float, hths: float, winter: str, hot: str):
    at = COLD.get(winter)
    found = grades_of(
        kv100_mm2_s=kv100,
        hths_mpa_s=hths,
        ccs_mpa_s={at: 6000.0} if at is not None else None,
        mrv_mpa_s={at - 5: 30000.0} if at is not None else None,
    )
    assert (found.winter, found.hot) == (winter, hot)


def test_cranking_limit_is_met_at_the_limit_and_not_above_it():
    met = grades_of(kv100_mm2_s=9.5, hths_mpa_s=3.0, ccs_mpa_s={-35.0: 6200.0}, mrv_mpa_s={-40.0: 60000.0})
    above = grades_of(kv100_mm2_s=9.5, hths_mpa_s=3.0, ccs_mpa_s={-35.0: 6201.0}, mrv_mpa_s={-40.0: 60000.0})
    assert str(met.grade) == "0W-30"
    assert above.winter == ""
    assert [(miss.grade, miss.quantity, miss.found, miss.limit) for miss in above.missed] == [("0W", "ccs", 6201.0, 6200.0)]


def test_winter_grade_is_the_coldest_one_met():
    # status a2: passes 10W and 5W but fails 0W -> 5W, and can be labelled neither 0W nor 10W
    found = grades_of(
        kv100_mm2_s=10.0,
        hths_mpa_s=3.0,
        ccs_mpa_s={-35.0: 9000.0, -30.0: 6500.0, -25.0: 4000.0},
        mrv_mpa_s={-40.0: 50000.0, -35.0: 30000.0, -30.0: 15000.0},
    )
    assert str(found.grade) == "5W-30"


def test_thin_at_100_is_not_10w():
    found = grades_of(kv100_mm2_s=4.0, hths_mpa_s=1.8, ccs_mpa_s={-25.0: 5000.0}, mrv_mpa_s={-30.0: 30000.0})
    assert found.winter == ""
    assert [(miss.quantity, miss.limit) for miss in found.missed] == [("kv100", 4.1)]


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
