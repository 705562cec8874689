"""Expansion of lubricating oil against API MPMS 11.1 / ASTM D1250-04.

Sources: the constants from a chemical supplier's page and public code (status a2); the table by exact evaluation in an
independent trial (status b); the printed example of the standard was not seen.
"""

from __future__ import annotations

import math

import pytest

from tests.published.printed import agrees
from twomarks.errors import OutOfRangeError
from twomarks.trade.volume import K1_PER_C, K1_PER_F, volume_at, volume_correction_factor, volume_correction_factor_60f

TEMPS_C = (0, 20, 40, 60, 80, 90, 100, 120)
BY_DENSITY = {
    850: ("1.01104", "0.99630", "0.98144", "0.96646", "0.95137", "0.94379", "0.93619", "0.92094"),
    860: ("1.01091", "0.99635", "0.98165", "0.96685", "0.95194", "0.94445", "0.93695", "0.92187"),
    880: ("1.01067", "0.99643", "0.98207", "0.96761", "0.95305", "0.94573", "0.93840", "0.92367"),
    900: ("1.01043", "0.99651", "0.98247", "0.96833", "0.95410", "0.94695", "0.93978", "0.92539"),
}
TEMPS_F = (104, 140, 194, 212)
BY_DENSITY_60F = {850: ("0.98185", "0.96687", "0.94421", "0.93662"), 880: ("0.98247", "0.96801", "0.94614", "0.93881")}


@pytest.mark.parametrize("density", BY_DENSITY)
def test_factor_from_15_c(density: int):
    for temp_c, printed in zip(TEMPS_C, BY_DENSITY[density], strict=True):
        assert agrees(volume_correction_factor(density15_kg_m3=density, temp_c=temp_c), printed)


@pytest.mark.parametrize("density", BY_DENSITY_60F)
def test_factor_from_60_f(density: int):
    for temp_f, printed in zip(TEMPS_F, BY_DENSITY_60F[density], strict=True):
        assert agrees(volume_correction_factor_60f(density60f_kg_m3=density, temp_f=temp_f), printed)


def test_both_bases_agree():
    # status d: 0.34878 per F is 0.627804 per C; the density at 60 F is that at 15 C, 1 F warmer
    assert agrees(1.8 * K1_PER_F, f"{K1_PER_C}")
    density60f = 860.0 * volume_correction_factor(density15_kg_m3=860.0, temp_c=(60 - 32) / 1.8)
    for temp_f in (-20.0, 60.0, 104.0, 194.0, 248.0):
        from_60f = volume_correction_factor_60f(density60f_kg_m3=density60f, temp_f=temp_f)
        from_15c = volume_correction_factor(density15_kg_m3=860.0, temp_c=(temp_f - 32) / 1.8)
        assert from_15c / volume_correction_factor(density15_kg_m3=860.0, temp_c=(60 - 32) / 1.8) == pytest.approx(from_60f, abs=2e-5)


def test_four_litres_poured_cool_and_read_hot():
    # status d: 4.000 L at 20 C, density 860 at 15 C, take up 4.220 L at 90 C
    assert agrees(volume_at(volume_l=4.0, temp_c=20.0, to_temp_c=90.0, density15_kg_m3=860.0), "4.220")


def test_the_constant_per_f_with_a_difference_in_c_is_wrong_by_1_8():
    # status a2: a public text takes 0.34878 with a difference in C; the growth then comes out 1.8 times too small
    right = volume_correction_factor(density15_kg_m3=860.0, temp_c=90.0)
    mixed_up = math.exp(-(K1_PER_F / 860.0 * 75.0) * (1.0 + 0.8 * K1_PER_F / 860.0 * 75.0))
    assert math.log(right) / math.log(mixed_up) == pytest.approx(1.8, abs=0.05)
    assert agrees(right, "0.94445")
    assert not agrees(mixed_up, "0.94445")


def test_growth_for_each_degree():
    # status d: 7.300e-4 for each degree at 15 C, density 860
    growth = 1.0 - volume_correction_factor(density15_kg_m3=860.0, temp_c=15.001)
    assert agrees(growth / 0.001, "0.000730")


@pytest.mark.reference
def test_factors_agree_with_the_formula_in_plain_numpy_on_a_grid():
    # status b: exact evaluation apart from this code, both bases, to a fifth decimal as the standard rounds
    numpy = pytest.importorskip("numpy")
    chance = numpy.random.default_rng(11)
    density, temp_c = chance.uniform(801.0, 1163.0, 500), chance.uniform(-50.0, 150.0, 500)
    growth = 0.6278 / density * (temp_c - 15.0)
    expected = numpy.exp(-growth - 0.8 * growth**2)
    found = volume_correction_factor(density15_kg_m3=density, temp_c=temp_c)
    assert numpy.max(numpy.abs(found - expected)) < 1e-12
    by_f = volume_correction_factor_60f(density60f_kg_m3=density, temp_f=temp_c * 1.8 + 32.0)
    growth = 0.34878 / density * (temp_c * 1.8 + 32.0 - 60.0)
    assert numpy.max(numpy.abs(by_f - numpy.exp(-growth - 0.8 * growth**2))) < 1e-12


def test_at_the_base_nothing_changes():
    assert volume_correction_factor(density15_kg_m3=870.0, temp_c=15.0) == 1.0


@pytest.mark.parametrize("density", [800.8, 1163.6])
def test_density_outside_the_table_is_refused(density: float):
    with pytest.raises(OutOfRangeError) as told:
        volume_correction_factor(density15_kg_m3=density, temp_c=40.0)
    assert (told.value.values["low"], told.value.values["high"]) == (800.9, 1163.5)
