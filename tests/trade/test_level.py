"""Readings and litres: what warmth, oil not yet run down and sloping ground do, and how sure the answer is."""

from __future__ import annotations

import numpy as np
import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.level import Reading, Stick, level_volume, oil_volume_l, reading_of

STICK = Stick(full_l=4.7, between_marks_l=1.1)
PLACED = Stick(full_l=4.7, between_marks_l=1.1, marks_apart_mm=25.0, off_middle_mm=150.0)


def test_a_settled_cold_reading_is_the_plain_sum():
    assert oil_volume_l(STICK, Reading(1.0)) == pytest.approx(4.7)
    assert oil_volume_l(STICK, Reading(0.5)) == pytest.approx(4.7 - 0.55)
    assert oil_volume_l(STICK, Reading(1.25)) == pytest.approx(4.7 + 0.275)


def test_marks_meant_for_warm_oil_stand_low_when_cold():
    warm = Stick(full_l=4.7, between_marks_l=1.1, marks_temp_c=80.0)
    assert oil_volume_l(warm, Reading(1.0, oil_temp_c=80.0)) == pytest.approx(4.7)
    assert reading_of(warm, Reading(0.0), volume_l=4.7) < 0.9


def test_a_hasty_reading_means_more_oil_than_it_shows():
    hasty, settled = (oil_volume_l(STICK, Reading(0.5, minutes_min=minutes)) for minutes in (2.0, 60.0))
    assert hasty - settled == pytest.approx(0.257, abs=0.001)


def test_ground_that_lifts_the_oil_at_the_stick_means_less_oil():
    assert oil_volume_l(PLACED, Reading(0.5, slope_deg=2.0)) == pytest.approx(4.15 - 5.24 / 25.0 * 1.1, abs=0.001)


def test_on_sloping_ground_the_place_of_the_stick_must_be_known():
    with pytest.raises(InputError, match=r"level\.slope_needs"):
        oil_volume_l(STICK, Reading(0.5, slope_deg=2.0))


def test_the_uncertainty_is_made_up_of_its_parts():
    found = level_volume(PLACED, Reading(0.25, oil_temp_c=70.0, minutes_min=3.0, slope_deg=1.0), span_sigma_l=0.1)
    assert [part.name for part in found.parts] == ["stick", "span", "not_run_down", "warmth", "slope"]
    assert found.sigma_l**2 == pytest.approx(sum(part.sigma_l**2 for part in found.parts))
    bare = 4.7 - 0.75 * 1.1
    assert found.volume_l == pytest.approx(bare + sum(part.correction_l for part in found.parts))
    assert found.missing_l == pytest.approx(4.7 - found.volume_l)
    assert {part.name: part.sigma_l for part in found.parts}["stick"] == pytest.approx(0.11)


def test_a_longer_wait_makes_it_surer():
    short, long = (level_volume(STICK, Reading(0.5, minutes_min=minutes)).sigma_l for minutes in (1.0, 30.0))
    assert long < short


def test_a_batch_of_readings_answers_at_once():
    fractions = np.linspace(0.0, 1.5, 7)
    together = oil_volume_l(STICK, Reading(fractions, oil_temp_c=60.0, minutes_min=5.0))
    assert together == pytest.approx([oil_volume_l(STICK, Reading(float(one), oil_temp_c=60.0, minutes_min=5.0)) for one in fractions])


@pytest.mark.parametrize(
    ("stick", "reading"),
    [
        (Stick(0.0, 1.1), Reading(0.5)),
        (Stick(4.7, 4.7), Reading(0.5)),
        (Stick(4.7, -1.0), Reading(0.5)),
        (STICK, Reading(float("nan"))),
        (STICK, Reading(9.0)),
        (STICK, Reading(0.5, oil_temp_c=200.0)),
        (STICK, Reading(0.5, minutes_min=-1.0)),
        (PLACED, Reading(0.5, slope_deg=45.0)),
        (Stick(1.2, 1.1), Reading(-1.5)),
    ],
)
def test_what_cannot_be_is_refused(stick: Stick, reading: Reading):
    with pytest.raises(InputError):
        oil_volume_l(stick, reading)


def test_an_array_names_the_first_place_that_cannot_be():
    with pytest.raises(OutOfRangeError) as refused:
        oil_volume_l(STICK, Reading(np.array([0.5, 9.0, 1.0, 8.0])))
    assert (refused.value.values["index"], refused.value.values["more"]) == (1, 1)
