"""A formula that is written once serves a number and an array, and a refusal names the first offending place."""

from __future__ import annotations

import math
import subprocess
import sys

import numpy as np
import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.arrays import choose, interpolate, is_array, maths_of, require, require_within
from twomarks.words import Reader, message_of, render


def test_numbers_stay_on_math_and_arrays_go_to_numpy() -> None:
    assert maths_of(1.0, 2) is math
    assert maths_of(1.0, np.zeros(2)) is np
    assert not is_array(np.float64(1.0))


def test_the_engineering_loads_no_numpy_by_itself() -> None:
    code = "import sys, twomarks.trade.arrays, twomarks.trade.viscosity; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], env={"PYTHONPATH": ":".join(sys.path)}, check=False).returncode == 0


def test_a_choice_and_a_table_answer_alike_for_numbers_and_arrays() -> None:
    xs, ys = (0.0, 1.0, 3.0), (0.0, 10.0, 20.0)
    at = np.array([0.0, 0.5, 1.0, 2.0, 3.0])
    assert interpolate(at, xs, ys).tolist() == [interpolate(float(x), xs, ys) for x in at] == [0.0, 5.0, 10.0, 15.0, 20.0]
    assert choose(at > 1.0, at, -at).tolist() == [choose(float(x) > 1.0, float(x), -float(x)) for x in at]


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -0.1, 10.1])
def test_what_lies_outside_or_is_no_number_is_refused(bad: float) -> None:
    with pytest.raises(OutOfRangeError) as number:
        require_within(bad, quantity="share", low=0.0, high=10.0)
    assert "index" not in number.value.values
    with pytest.raises(OutOfRangeError) as array:
        require_within(np.array([[1.0, 2.0], [bad, bad]]), quantity="share", low=0.0, high=10.0)
    assert array.value.values["index"] == (1, 0)
    assert array.value.values["more"] == 1
    assert "at index" in render(message_of(array.value), Reader())


@pytest.mark.parametrize("limit", [{"above": 1.0}, {"below": 1.0}])
def test_an_open_limit_does_not_belong_to_the_range(limit: dict[str, float]) -> None:
    for value in (1.0, np.array([1.0])):
        with pytest.raises(OutOfRangeError):
            require_within(value, quantity="share", **limit)


def test_values_within_are_let_through() -> None:
    require_within(np.array([]), quantity="share", low=0.0)
    require_within(np.linspace(0.0, 1.0, 5), quantity="share", low=0.0, high=1.0)
    require_within(0.5, quantity="share", above=0.0, below=1.0)


def test_a_pair_that_cannot_be_is_shown_at_its_first_place() -> None:
    kv40, kv100 = np.array([50.0, 8.0, 7.0]), np.array([8.0, 9.0, 9.0])
    with pytest.raises(InputError) as caught:
        require(kv40 > kv100, "viscosity.points", found=kv100, kv40=kv40, unit="mm2/s")
    assert caught.value.values == {"found": 9.0, "kv40": 8.0, "unit": "mm2/s", "index": 1, "more": 1}
    with pytest.raises(InputError):
        require(False, "viscosity.points", found=1.0)
    require(True, "viscosity.points")
