"""What grading refuses, and how it says what fails."""

from __future__ import annotations

import math

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.gear_grades import gear_limits_of
from twomarks.trade.gear_grading import gear_grades_of, gear_limits_in
from twomarks.trade.grades import limits_of, lowest_cranking_c, lowest_pumping_c
from twomarks.trade.grading import grades_of, hot_bands_of, limits_in, misses_of
from twomarks.words import Reader, message_of, render


def said(message) -> str:
    return render(message, Reader()).replace("\u00a0", " ").replace("\u202f", " ")


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_figures_that_cannot_be_are_refused(bad: float):
    for ask in (
        lambda: grades_of(kv100_mm2_s=bad),
        lambda: grades_of(kv100_mm2_s=10.0, hths_mpa_s=bad),
        lambda: grades_of(kv100_mm2_s=10.0, ccs_mpa_s={-30.0: bad}),
        lambda: misses_of("5W-30", kv100_mm2_s=10.0, mrv_mpa_s={-35.0: bad}),
        lambda: hot_bands_of(kv100_mm2_s=bad),
        lambda: gear_grades_of(kv100_mm2_s=bad),
    ):
        with pytest.raises(OutOfRangeError):
            ask()


@pytest.mark.parametrize("bad", [-101.0, 51.0, math.nan])
def test_a_cold_figure_of_gear_oil_that_cannot_be_is_refused(bad: float):
    with pytest.raises(OutOfRangeError):
        gear_grades_of(kv100_mm2_s=14.0, bf150_temp_c=bad)


def test_a_figure_at_a_temperature_at_which_nothing_is_tested_is_refused():
    with pytest.raises(InputError) as told:
        grades_of(kv100_mm2_s=10.0, ccs_mpa_s={-31.0: 5000.0})
    assert told.value.key == "grade.test_temperature"
    assert "-31 °C" in said(message_of(told.value)).replace("\u2212", "-")
    with pytest.raises(InputError):
        grades_of(kv100_mm2_s=10.0, mrv_mpa_s={-10.0: 5000.0})


def test_every_failing_limit_of_a_grade_is_named_at_once():
    found = misses_of("5W-40", kv100_mm2_s=12.4, hths_mpa_s=3.4, ccs_mpa_s={-30.0: 6601.0}, mrv_mpa_s={-35.0: 60001.0})
    assert [(miss.grade, miss.quantity, miss.found, miss.limit) for miss in found] == [
        ("5W", "ccs", 6601.0, 6600.0),
        ("5W", "mrv", 60001.0, 60000.0),
        ("40", "kv100", 12.4, 12.5),
        ("40", "hths", 3.4, 3.5),
    ]
    assert [said(miss.said).replace("\u2212", "-") for miss in found] == [
        "5W: cranking viscosity at -30 °C is 6601 mPa·s, at most 6600 mPa·s is asked for.",
        "5W: pumping viscosity without yield stress at -35 °C is 60 001 mPa·s, at most 60 000 mPa·s is asked for.",
        "40: viscosity at 100 °C is 12.4 mm²/s, at least 12.5 mm²/s is asked for.",
        "40: high-shear viscosity at 150 °C is 3.4 mPa·s, at least 3.5 mPa·s is asked for.",
    ]


def test_limits_are_said_with_their_side():
    cold, hot = limits_of("10W-30")
    assert [said(limit.said) for limit in limits_in(hot)] == [
        "viscosity at 100 °C: at least 9.3 mm²/s",
        "viscosity at 100 °C: below 12.5 mm²/s",
        "high-shear viscosity at 150 °C: at least 2.9 mPa·s",
    ]
    assert [limit.quantity for limit in limits_in(cold)] == ["ccs", "mrv", "kv100"]
    cold, _ = gear_limits_of("75W-90")
    assert said(gear_limits_in(cold)[0].said).replace("\u2212", "-") == "temperature for 150 000 mPa·s: at most -40 °C"


def test_what_was_not_measured_is_named():
    assert grades_of(kv100_mm2_s=10.0).not_measured == ("hths", "ccs", "mrv")
    assert grades_of(kv100_mm2_s=10.0, hths_mpa_s=3.0, ccs_mpa_s={-30.0: 6000.0}, mrv_mpa_s={-40.0: 50000.0}).not_measured == ("mrv",)


@pytest.mark.parametrize("ask", [lowest_cranking_c, lowest_pumping_c])
def test_what_is_no_w_grade_has_no_test_temperature(ask):
    with pytest.raises(InputError):
        ask("30")


def test_misses_are_asked_for_by_grades_that_exist():
    found = grades_of(kv100_mm2_s=10.0, hths_mpa_s=2.8)
    assert [(miss.quantity, miss.limit) for miss in found.missed_by("30", "20")] == [("kv100", 9.3), ("hths", 2.9)]
    with pytest.raises(InputError):
        found.missed_by("35")


def test_no_figure_earns_no_grade():
    assert grades_of(kv100_mm2_s=3.0).grade is None
    assert gear_grades_of(kv100_mm2_s=3.0).grade is None
