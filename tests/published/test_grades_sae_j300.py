"""Engine oil grades against SAE J300.

Sources: J300 as of 2015-01-20, reproduced (status a2); rows 16 and 20 from the publisher's page on the edition of April 2013
(status a); the split of 40 from a reproduction of December 1999 (status a2). Vectors for the classifier follow from the table
(status d).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks.reference.tables import engine_grades
from twomarks.trade.grades import limits_of, lowest_cranking_c, lowest_pumping_c
from twomarks.trade.grading import grades_of, hot_bands_of, misses_of

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
    assert [(miss.grade, miss.quantity, miss.found, miss.limit, miss.unit) for miss in above.missed_by("0W")] == [
        ("0W", "ccs", 6201.0, 6200.0, "mPa.s")
    ]


def test_winter_grade_is_the_coldest_one_met():
    # status a2: passes 10W and 5W but fails 0W -> 5W, and can be labelled neither 0W nor 10W
    found = grades_of(
        kv100_mm2_s=10.0,
        hths_mpa_s=3.0,
        ccs_mpa_s={-35.0: 9000.0, -30.0: 6500.0, -25.0: 4000.0},
        mrv_mpa_s={-40.0: 50000.0, -35.0: 30000.0, -30.0: 15000.0},
    )
    assert str(found.grade) == "5W-30"
    assert [(miss.grade, miss.quantity) for miss in found.missed if miss.grade.endswith("W")] == [("0W", "ccs")]


def test_thin_at_100_is_not_10w():
    found = grades_of(kv100_mm2_s=4.0, hths_mpa_s=1.8, ccs_mpa_s={-25.0: 5000.0}, mrv_mpa_s={-30.0: 30000.0})
    assert found.winter == ""
    assert [(miss.quantity, miss.limit) for miss in found.missed_by("10W")] == [("kv100", 4.1)]


def test_the_raised_lower_limit_of_20_parts_it_from_the_charts_that_still_print_5_6():
    # trap: 6.9 since 2013 (status a); an oil of 5.6 to below 6.9 was a 20 before and is a 16 or a 12 now
    (row,) = limits_of("20")
    assert (row.kv100_min_mm2_s, row.seen.status) == (6.9, "a")
    assert grades_of(kv100_mm2_s=6.89, hths_mpa_s=2.6).hot == "16"
    assert grades_of(kv100_mm2_s=5.7, hths_mpa_s=2.6).hot == "12"
    assert [(miss.quantity, miss.limit, miss.bound) for miss in misses_of("20", kv100_mm2_s=6.89, hths_mpa_s=2.6)] == [
        ("kv100", 6.9, "at least")
    ]


@pytest.mark.parametrize(
    ("grade", "limit"), [("0W-40", 3.5), ("5W-40", 3.5), ("10W-40", 3.5), ("15W-40", 3.7), ("20W-40", 3.7), ("25W-40", 3.7), ("40", 3.7)]
)
def test_high_shear_limit_of_40_by_its_w_grade(grade: str, limit: float):
    # trap: older charts print 2.9 for 0W, 5W and 10W-40
    assert limits_of(grade)[-1].hths_min_mpa_s == limit


def test_bands_of_20_and_30_are_alike_in_width():
    # status a: (9.3 - 6.9)/6.9 = 0.35 and (12.5 - 9.3)/9.3 = 0.34 on the publisher's page
    for grade, printed in (("20", "0.35"), ("30", "0.34")):
        (row,) = limits_of(grade)
        assert agrees((row.kv100_max_mm2_s - row.kv100_min_mm2_s) / row.kv100_min_mm2_s, printed)


def test_16_and_20_overlap_and_no_band_above_them_does():
    # status a: "historical departure"; 8 and 12 overlap with them too (status a2)
    assert hot_bands_of(kv100_mm2_s=7.0) == ("12", "16", "20")
    assert hot_bands_of(kv100_mm2_s=8.19) == ("16", "20")
    assert hot_bands_of(kv100_mm2_s=8.2) == ("20",)
    assert hot_bands_of(kv100_mm2_s=3.99) == hot_bands_of(kv100_mm2_s=26.1) == ()


def test_cranking_or_pumping_alone_makes_no_w_grade():
    # status a: a multigrade meets cranking and pumping of its W grade, its band at 100 C, and high shear
    measured = {"kv100_mm2_s": 10.0, "hths_mpa_s": 3.0, "ccs_mpa_s": {-30.0: 6000.0}}
    assert misses_of("5W-30", **measured, mrv_mpa_s={-35.0: 60001.0})[0].quantity == "mrv"
    assert grades_of(**measured, mrv_mpa_s={-35.0: 60001.0}).winter == ""
    assert grades_of(**measured).not_measured == ("mrv",)
    assert grades_of(kv100_mm2_s=10.0, hths_mpa_s=3.0, mrv_mpa_s={-35.0: 30000.0}).winter == ""
