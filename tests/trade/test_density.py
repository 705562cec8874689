"""Density brought back to 15 C."""

from __future__ import annotations

import math

import numpy as np
import pytest

from twomarks.errors import OutOfRangeError
from twomarks.trade.density import density15_of
from twomarks.trade.volume import density_at


def test_an_oil_of_860_comes_back_from_90():
    hot = density_at(density15_kg_m3=860.0, temp_c=90.0)
    assert hot == pytest.approx(860.0 * 0.94445, abs=0.005)
    assert density15_of(density_kg_m3=hot, temp_c=90.0) == pytest.approx(860.0, abs=1e-9)


@pytest.mark.parametrize("bad", [math.nan, -1.0, 0.0, 500.0, 1300.0])
def test_a_density_that_no_oil_has_is_refused(bad: float):
    with pytest.raises(OutOfRangeError):
        density15_of(density_kg_m3=bad, temp_c=20.0)
    with pytest.raises(OutOfRangeError) as told:
        density15_of(density_kg_m3=np.array([860.0, bad, bad]), temp_c=20.0)
    assert (told.value.values["index"], told.value.values["more"]) == (1, 1)


def test_an_array_answers_as_its_numbers_do():
    densities, temps = np.linspace(850.0, 1000.0, 7), np.linspace(-40.0, 140.0, 7)
    found = density15_of(density_kg_m3=densities, temp_c=temps)
    one_by_one = [density15_of(density_kg_m3=rho, temp_c=t) for rho, t in zip(densities.tolist(), temps.tolist(), strict=True)]
    assert found == pytest.approx(one_by_one, rel=1e-12)
