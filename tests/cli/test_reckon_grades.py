"""`twomarks reckon grade` and `grade-limits`: both ways, engine and gear, with every failing limit by name."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError

SOUND = ("kv100=10 cst", "hths=3.0 cP", "ccs=6500 cP", "ccs-at=-30 C", "mrv=30000 cP", "mrv-at=-35 C")


def test_an_oil_whose_every_figure_is_there_earns_its_grade():
    found = answered("grade", *SOUND)
    assert found.results["grade"] == "5W-30"
    assert found.results["not_measured"] == []
    assert "An oil with these figures is of grade 5W-30." in told(found)
    assert "no yield stress" in told(found)


def test_what_was_not_measured_leaves_the_grade_open():
    found = answered("grade", "kv100=10 cst")
    assert (found.results["grade"], found.results["not_measured"]) == ("30", ["hths", "ccs", "mrv"])
    assert "As far as it was measured" in told(found)
    assert "Not measured, and taken as kept: high-shear viscosity" in told(found)


def test_the_colder_grade_that_was_missed_is_told_with_its_limit():
    found = answered("grade", *SOUND, "ccs=6201 cP", "ccs-at=-35 C")
    assert found.results["grade"] == "5W-30"
    assert "0W: cranking viscosity at −35 °C is 6201 mPa·s, at most 6200 mPa·s is asked for." in told(found)


def test_a_grade_is_held_against_the_figures_with_every_limit_failed():
    found = answered("grade", "kv100=12.4 cst", "hths=3.4 cP", "ccs=6601 cP", "ccs-at=-22 F", "grade=5w40")
    assert (found.results["asked"], found.results["kept"]) == ("5W-40", False)
    assert [(row["grade"], row["quantity"], row["found"], row["limit"], row["unit"]) for row in found.results["failed"]] == [
        ("5W", "ccs", 6601.0, 6600.0, "mPa.s"),
        ("40", "kv100", 12.4, 12.5, "mm2/s"),
        ("40", "hths", 3.4, 3.5, "mPa.s"),
    ]
    assert "do not keep the limits of 5W-40" in told(found)
    assert answered("grade", *SOUND, "grade=5W-30").results["kept"] is True


def test_high_shear_decides_over_40_and_the_miss_is_told():
    found = answered("grade", "kv100=13 cst", "hths=3.6 cP", "ccs=6900 cP", "ccs-at=-20 C", "mrv=20000 cP", "mrv-at=-25 C")
    assert found.results["hot"] is None
    assert "40: high-shear viscosity at 150 °C is 3.6 mPa·s, at least 3.7 mPa·s is asked for." in told(found)


def test_an_oil_thinner_or_thicker_than_every_grade_has_none():
    for kv in ("3.7 cst", "26.1 cst"):
        found = answered("grade", f"kv100={kv}")
        assert found.results["grade"] is None
        assert "has no engine oil grade" in told(found)
        assert "viscosity at 100 °C is" in told(found)


def test_gear_oil_by_figures_and_what_it_was_called_before():
    found = answered("grade", "of=gear", "kv100=19.5 cst", "cold=-41 C")
    assert (found.results["grade"], found.results["hot_before_2005"]) == ("75W-110", "90")
    assert "before 2005 it would be called 90, not 110" in told(found)
    held = answered("grade", "of=gear", "kv100=19.5 cst", "cold=-41 C", "grade=75W-90")
    assert [(row["quantity"], row["found"], row["limit"], row["bound"]) for row in held.results["failed"]] == [
        ("kv100", 19.5, 18.5, "below")
    ]


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (("of=gear", "kv100=14 cst", "hths=3 cP"), "reckon_grades.other_kind"),
        (("kv100=14 cst", "cold=-40 C"), "reckon_grades.other_kind"),
        (("kv100=10 cst", "ccs=6000 cP"), "reckon_grades.temperatures"),
        (("kv100=10 cst", "ccs=6000 cP", "ccs-at=-30 C", "ccs=3000 cP", "ccs-at=-30 C"), "reckon_grades.temperatures"),
        (("kv100=10 cst", "mrv-at=-30 C"), "reckon_grades.temperatures"),
        (("kv100=10 cst", "ccs=6000 cP", "ccs-at=-31 C"), "grade.test_temperature"),
        (("kv100=10 cst", "grade=75W-90"), "oil.grade_unknown"),
        (("kv100=-1 cst",), "range.outside"),
    ],
)
def test_figures_that_do_not_fit_are_refused(words: tuple[str, ...], key: str):
    with pytest.raises(InputError) as refused:
        answered("grade", *words)
    assert refused.value.key == key


def test_limits_of_an_engine_grade_with_its_test_temperatures():
    found = answered("grade-limits", "grade=sae 10w40")
    assert found.results["scale"] == "engine"
    assert (found.results["cranking_test_c"], found.results["pumping_test_c"]) == (-25.0, -30.0)
    assert [row["limit"] for row in found.results["limits"]] == [7000.0, 60000.0, 4.1, 12.5, 16.3, 3.5]
    assert "below 16.3 mm²/s" in told(found)
    assert "no permission" in told(found)
    assert "permission" not in told(answered("grade-limits", "grade=16"))


def test_limits_of_a_gear_grade_and_its_old_meaning():
    found = answered("grade-limits", "grade=80W-140")
    assert found.results["scale"] == "gear"
    assert (found.results["before_2005_low_mm2_s"], found.results["before_2005_high_mm2_s"]) == (24.0, 41.0)
    assert "from 24 mm²/s to below 41 mm²/s" in told(found)
    assert "before_2005_low_mm2_s" not in answered("grade-limits", "grade=75W-85").results


def test_what_is_no_grade_is_refused_with_an_example():
    with pytest.raises(InputError) as refused:
        answered("grade-limits", "grade=7W-33")
    assert refused.value.key == "oil.grade_unknown"


def test_the_whole_answer_as_json():
    assert answered_json("grade", *SOUND)["results"]["grade"] == "5W-30"
    assert answered_json("grade-limits", "grade=30")["results"]["limits"][0] == {
        "grade": "30",
        "quantity": "kv100",
        "temp_c": None,
        "bound": "at least",
        "limit": 9.3,
        "unit": "mm2/s",
    }
