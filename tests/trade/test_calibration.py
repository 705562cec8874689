"""What can be measured once: the volume between the marks, and how oil runs down."""

from __future__ import annotations

import math

import pytest

from twomarks.errors import InputError, NoSolutionError
from twomarks.trade.calibration import run_down, span_measured
from twomarks.trade.level import Reading, Stick, reading_of

TIMES = (2.0, 5.0, 10.0, 30.0)


def test_half_a_litre_that_lifts_the_level_by_half_means_a_litre():
    found = span_measured(poured_l=0.5, before_fraction=0.25, after_fraction=0.75)
    assert found.between_marks_l == pytest.approx(1.0)
    assert found.sigma_l == pytest.approx(math.hypot(math.sqrt(2.0) * 0.1 / 0.5, 0.02))


def test_repeated_readings_make_the_span_surer():
    once, often = (span_measured(poured_l=0.5, before_fraction=0.25, after_fraction=0.75, stick_sigma=0.1 / math.sqrt(n)) for n in (1, 4))
    assert often.sigma_l < 0.6 * once.sigma_l


@pytest.mark.parametrize(("upstairs_l", "tau_min"), [(0.5, 3.0), (0.3, 10.0), (1.0, 4.5)])
def test_readings_of_the_model_give_the_model_back(upstairs_l: float, tau_min: float):
    stick = Stick(full_l=4.7, between_marks_l=1.1)
    fractions = [
        reading_of(stick, Reading(0.0, minutes_min=minutes, upstairs_l=upstairs_l, tau_min=tau_min), volume_l=4.5) for minutes in TIMES
    ]
    found = run_down(minutes_min=TIMES, fractions=fractions, between_marks_l=1.1)
    assert (found.upstairs_l, found.tau_min) == pytest.approx((upstairs_l, tau_min), rel=1e-3)
    assert found.misfit_l < 1e-6


@pytest.mark.parametrize(
    ("wrong", "error"),
    [
        ({"minutes_min": (2.0, 5.0), "fractions": (0.2, 0.4)}, InputError),
        ({"minutes_min": (2.0, 2.0, 5.0), "fractions": (0.2, 0.2, 0.4)}, InputError),
        ({"fractions": (0.2, 0.3, 0.4)}, InputError),
        ({"minutes_min": (-2.0, 5.0, 10.0, 30.0)}, InputError),
        ({"fractions": (0.6, 0.5, 0.4, 0.3)}, NoSolutionError),
    ],
)
def test_readings_that_tell_nothing_are_refused(wrong: dict, error: type[Exception]):
    with pytest.raises(error):
        run_down(**{"minutes_min": TIMES, "fractions": (0.2, 0.4, 0.5, 0.55), "between_marks_l": 1.1, **wrong})


@pytest.mark.parametrize("wrong", [{"poured_l": 0.0}, {"after_fraction": 0.25}, {"after_fraction": 9.0}, {"stick_sigma": -0.1}])
def test_a_pour_that_tells_nothing_is_refused(wrong: dict):
    with pytest.raises(InputError):
        span_measured(**{"poured_l": 0.5, "before_fraction": 0.25, "after_fraction": 0.75, **wrong})
