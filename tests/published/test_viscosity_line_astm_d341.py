"""Viscosity over temperature against ASTM D341, and blends by the double logarithm.

Sources: a calculation sheet that cites the standard (status a2: secondary copy; it takes 0 C as 273 K); the rest by exact
evaluation of the same formula in an independent trial (status b).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks.trade.viscosity import blend_viscosity_astm_d7152, walther_line


def test_constants_of_the_printed_example():
    # status a2: 32 mm2/s at 40 C and 5.4 at 100 C
    line = walther_line(kv_low_mm2_s=32.0, temp_low_c=40.0, kv_high_mm2_s=5.4, temp_high_c=100.0, zero_k=273.0)
    assert agrees(line.a, "9.5259")
    assert agrees(line.b, "3.7449")
    assert agrees(line.kinematic_viscosity(temp_c=80.0), "8.5")


def test_constants_with_the_exact_freezing_point():
    # status b
    line = walther_line(kv_low_mm2_s=32.0, temp_low_c=40.0, kv_high_mm2_s=5.4, temp_high_c=100.0)
    assert agrees(line.a, "9.5308")
    assert agrees(line.b, "3.7466")
    assert agrees(line.kinematic_viscosity(temp_c=80.0), "8.5332")


@pytest.mark.parametrize(
    ("temp_c", "printed"),
    [(0.0, "1233.1"), (20.0, "240.98"), (60.0, "30.083"), (80.0, "15.180"), (120.0, "5.742"), (150.0, "3.442")],
)
def test_viscosities_along_a_line(temp_c: float, printed: str):
    # status b: 73.3 mm2/s at 40 C, 8.86 at 100 C
    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    assert agrees(line.kinematic_viscosity(temp_c=temp_c), printed)


@pytest.mark.parametrize(
    ("kv", "shares", "printed"),
    [
        ((5.0, 20.0), (0.6, 0.4), "8.0813"),
        ((32.0, 220.0), (0.5, 0.5), "75.876"),
        ((12.0, 1.5), (80.0, 20.0), "6.772"),
    ],
)
def test_blend_by_the_double_logarithm(kv: tuple[float, ...], shares: tuple[float, ...], printed: str):
    # inputs status a2, results status b; 126, the plain mean of 32 and 220, is wrong
    assert agrees(blend_viscosity_astm_d7152(kv_mm2_s=kv, volume_share=shares), printed)
