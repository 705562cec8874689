"""Viscosity index against ASTM D2270.

Sources: the examples of the standard as reproduced by a laboratory supplier (status a: excerpt read); the table of L and H and
grids by the Python library chemicals 1.5.2 (status b: computed).
"""

from __future__ import annotations

import hashlib

import pytest

from tests.published.printed import agrees
from twomarks.errors import OutOfRangeError
from twomarks.reference.tables import rows, viscosity_index_basis
from twomarks.trade.viscosity import viscosity_index


@pytest.mark.parametrize(
    ("kv40", "kv100", "printed"),
    [
        (73.30, 8.86, "92"),  # status a
        (22.83, 5.05, "156"),  # status a
        (53.47, 7.80, "111"),  # viscosity at 40 C status a, the rest from memory
        (42.22, 7.36, "140"),  # status b
        (2000.0, 80.0, "98"),  # status b; the equations above 70 mm2/s
    ],
)
def test_index_is_what_is_printed(kv40: float, kv100: float, printed: str):
    assert agrees(viscosity_index(kv40_mm2_s=kv40, kv100_mm2_s=kv100), printed)


def test_index_of_the_second_example_before_rounding():
    # The standard prints H to four digits (28.97, 156.37); the table gives 28.975.
    assert viscosity_index(kv40_mm2_s=22.83, kv100_mm2_s=5.05) == pytest.approx(156.37, abs=0.1)


@pytest.mark.parametrize(
    ("kv100", "low", "high"),
    [(2.0, 7.994, 6.394), (4.0, 25.32, 19.56), (10.0, 147.7, 82.87), (20.0, 493.2, 229.5), (70.0, 4905.0, 1558.0)],
)
def test_table_holds_the_printed_rows(kv100: float, low: float, high: float):
    # status b: the table inside chemicals 1.5.2
    assert (kv100, low, high) in viscosity_index_basis()


def test_table_is_unchanged_since_it_was_copied():
    text = "\n".join(f"{row['kv100_mm2_s']},{row['l_mm2_s']},{row['h_mm2_s']}" for row in rows("viscosity_index_lh"))
    assert hashlib.sha256(text.encode()).hexdigest() == "bfdf187928c45fd7fb1532b344ade5b69cda47cecd495cef8a66940f370652ce"


def test_table_and_equations_meet_at_70():
    # status d: the equations give L 4903.87 and H 1557.66 at 70, within 0.03 % of the table
    _, low, high = viscosity_index_basis()[-1]
    y = 70.0
    assert (0.8353 * y + 14.67) * y - 216.0 == pytest.approx(low, rel=3e-4)
    assert (0.1684 * y + 11.85) * y - 97.0 == pytest.approx(high, rel=3e-4)


def test_below_2_it_is_not_defined():
    with pytest.raises(OutOfRangeError) as told:
        viscosity_index(kv40_mm2_s=3.0, kv100_mm2_s=1.99)
    assert told.value.values["low"] == 2.0


@pytest.mark.reference
def test_grid_equals_the_reference_library():
    chemicals = pytest.importorskip("chemicals")
    for tenth in range(20, 1200, 7):
        kv100 = tenth / 10 + 0.013
        for factor in (1.5, 3.0, 6.0, 9.0, 14.0):
            theirs = chemicals.viscosity_index(kv100 * factor * 1e-6, kv100 * 1e-6)
            assert viscosity_index(kv40_mm2_s=kv100 * factor, kv100_mm2_s=kv100) == pytest.approx(theirs, rel=1e-9, abs=1e-6)


@pytest.mark.reference
def test_table_equals_the_reference_library():
    viscosity = pytest.importorskip("chemicals.viscosity")
    theirs = tuple(zip(viscosity.VI_nus, viscosity.VI_Ls, viscosity.VI_Hs, strict=True))
    assert viscosity_index_basis() == theirs
