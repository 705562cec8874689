"""`twomarks reckon span` and `run-down`: what an owner measures once."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError, NoSolutionError

AT = "at=2 min: 0.21, 5 min: 0.36, 10 min: 0.48, 30 min: 0.52"


def test_the_volume_between_the_marks_is_measured_by_a_pour():
    once = answered("span", "poured=0.5 L", "before=1/4", "after=75 %")
    often = answered("span", "poured=0.5 L", "before=1/4", "after=3/4", "readings=4")
    assert once.results["between_marks_l"] == often.results["between_marks_l"] == pytest.approx(1.0)
    assert often.results["sigma_l"] < once.results["sigma_l"]
    assert "1 L lie between the marks" in told(once)


def test_how_oil_runs_down_gives_the_wait_that_is_enough():
    found = answered("run-down", "between-marks=1.1 L", AT).results
    assert found["settled_percent"] == pytest.approx(52.0, abs=1.0)
    assert 2.0 < found["tau_min"] < 10.0
    apart = answered("run-down", "between-marks=1.1 L", *(f"at={one.strip()}" for one in AT[3:].split(",")))
    assert apart.results == found


@pytest.mark.parametrize(
    ("name", "words", "error"),
    [
        ("span", ("poured=0.5 L", "before=3/4", "after=1/4"), InputError),
        ("span", ("poured=0.5 L", "before=1/4", "after=3/4", "readings=0"), InputError),
        ("span", ("poured=0.5 L", "before=low", "after=3/4"), InputError),
        ("run-down", ("between-marks=1.1 L", "at=2 min: 0.21"), InputError),
        ("run-down", ("between-marks=1.1 L", "at=2 min 0.21, 5 min: 0.3, 9 min: 0.4"), InputError),
        ("run-down", ("between-marks=1.1 L", "at=2 min: 0.6, 5 min: 0.5, 9 min: 0.4"), NoSolutionError),
    ],
)
def test_what_tells_nothing_is_refused(name: str, words: tuple[str, ...], error: type[Exception]):
    with pytest.raises(error):
        answered(name, *words)


def test_the_machine_gets_the_same_figures():
    assert answered_json("run-down", "between-marks=1.1 L", AT)["results"] == answered("run-down", "between-marks=1.1 L", AT).results
