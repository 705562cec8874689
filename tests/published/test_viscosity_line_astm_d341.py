"""Viscosity over temperature against ASTM D341.

Sources: a calculation sheet that cites the standard (status a2: secondary copy; it takes 0 C as 273 K); the rest by exact
evaluation of the same formula in an independent trial (status b).
"""

from __future__ import annotations

import math
import random

import numpy as np
import pytest

from tests.published.printed import agrees
from twomarks.trade.viscosity import double_logarithm, line_cautions, walther_line

POINTS = 1000


def test_constants_of_the_printed_example():
    # status a2: 32 mm2/s at 40 C and 5.4 at 100 C
    line = walther_line(kv_low_mm2_s=32.0, temp_low_c=40.0, kv_high_mm2_s=5.4, temp_high_c=100.0, zero_k=273.0)
    assert agrees(line.a, "9.5259")
    assert agrees(line.b, "3.7449")
    assert agrees(line.kinematic_viscosity(temp_c=80.0), "8.5")
    assert agrees(line.kinematic_viscosity(temp_c=80.0), "8.533")  # status b


def test_constants_with_the_exact_freezing_point():
    # status b
    line = walther_line(kv_low_mm2_s=32.0, temp_low_c=40.0, kv_high_mm2_s=5.4, temp_high_c=100.0)
    assert agrees(line.a, "9.5308")
    assert agrees(line.b, "3.7466")
    assert agrees(line.kinematic_viscosity(temp_c=80.0), "8.5332")


def test_constants_of_the_second_line():
    # status b: 73.3 mm2/s at 40 C, 8.86 at 100 C
    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    assert agrees(line.a, "9.458393")
    assert agrees(line.b, "3.680946")


@pytest.mark.parametrize(
    ("temp_c", "printed"),
    [(0.0, "1233.1"), (20.0, "240.98"), (60.0, "30.083"), (80.0, "15.180"), (120.0, "5.742"), (150.0, "3.442")],
)
def test_viscosities_along_a_line(temp_c: float, printed: str):
    # status b: 73.3 mm2/s at 40 C, 8.86 at 100 C
    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    assert agrees(line.kinematic_viscosity(temp_c=temp_c), printed)


@pytest.mark.parametrize(("kv", "printed"), [(0.5, "1.28204"), (1.0, "1.72220")])
def test_below_2_mm2_s_the_short_form_drifts_and_the_answer_says_so(kv: float, printed: str):
    # constants of the whole form from memory, its evaluation status b
    short = 10.0**10.0 ** double_logarithm(kv)
    assert not math.isclose(short, float(printed), rel_tol=0.01)
    assert [message.key for message in line_cautions(temp_c=150.0, kv_mm2_s=kv)] == ["viscosity.caution_thin"]


@pytest.mark.parametrize(("kv", "printed"), [(2.0, "2.70156"), (3.0, "3.70011"), (10.0, "10.70000")])
def test_the_short_form_is_within_a_thousandth_of_the_whole_one_from_2_mm2_s(kv: float, printed: str):
    # constants of the whole form from memory, its evaluation status b
    short = 10.0**10.0 ** double_logarithm(kv)
    assert short == pytest.approx(float(printed), rel=1e-3)


@pytest.mark.reference
def test_a_grid_equals_the_same_line_by_another_way():
    # status b: linear algebra of NumPy on natural logarithms, 1000 random oils at 1000 random temperatures, to 1e-8
    draw = random.Random(341)
    kv100 = np.array([draw.uniform(2.0, 40.0) for _ in range(POINTS)])
    kv40 = kv100 * np.array([draw.uniform(1.8, 20.0) for _ in range(POINTS)])
    temp = np.array([draw.uniform(0.0, 150.0) for _ in range(POINTS)])
    line = walther_line(kv_low_mm2_s=kv40, temp_low_c=40.0, kv_high_mm2_s=kv100, temp_high_c=100.0)
    ours = line.kinematic_viscosity(temp_c=temp)
    for at in range(POINTS):
        points = np.array([[1.0, math.log(313.15)], [1.0, math.log(373.15)]])
        a, b = np.linalg.solve(points, np.log(np.log(np.array([kv40[at], kv100[at]]) + 0.7)))
        theirs = math.exp(math.exp(a + b * math.log(temp[at] + 273.15))) - 0.7
        assert ours[at] == pytest.approx(theirs, rel=1e-8)
