"""Tyre pressure at another temperature, air pressure by height.

Sources: a mailing-list post of July 2002 with worked figures (20 psi at 70 F, status a2), whose air is 14.7 psi and whose zero is
-460 F; the figures from 2.3 bar computed apart from this code (status b); the layers of the International Standard Atmosphere as a
page prints them (22632.1 Pa at 11 km, status a2).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks import units
from twomarks.trade.tyres import air_pressure, tyre_pressure

AIR = units.quantity("14.7 psi").core


def psi(pressure: float, at_f: int, to_f: int, air_bar: float = AIR) -> float:
    there = tyre_pressure(
        pressure_bar=units.quantity(f"{pressure} psi").core,
        temp_c=units.quantity(f"{at_f} F").core,
        to_temp_c=units.quantity(f"{to_f} F").core,
        air_bar=air_bar,
        to_air_bar=air_bar,
    )
    return units.in_unit(there, unit="bar", to="psi")


@pytest.mark.parametrize(("to_f", "printed", "computed"), [(50, "18.7", "18.691"), (130, "23.9", "23.928")])
def test_printed_figures(to_f: int, printed: str, computed: str):
    assert agrees(psi(20.0, 70, to_f), printed)
    # the post takes -460 F as zero: 2 thousandths of a psi
    assert psi(20.0, 70, to_f) == pytest.approx(float(computed), abs=0.003)


@pytest.mark.parametrize(("to_c", "computed"), [(-10.0, "1.961"), (0.0, "2.074"), (40.0, "2.526"), (60.0, "2.752")])
def test_from_2_3_bar_at_20_c(to_c: float, computed: str):
    assert agrees(tyre_pressure(pressure_bar=2.3, temp_c=20.0, to_temp_c=to_c), computed)


def test_slope_in_bar_per_kelvin():
    assert agrees(tyre_pressure(pressure_bar=2.3, temp_c=20.0, to_temp_c=21.0) - 2.3, "0.0113")


def test_the_rule_of_one_psi_for_ten_fahrenheit_falls_out():
    assert psi(32.0, 70, 20) == pytest.approx(27.59, abs=0.01)
    assert agrees((32.0 - psi(32.0, 70, 20)) / 5, "0.88")
    assert (35.0 - psi(35.0, 70, 60)) == pytest.approx(1.0, abs=0.1)


@pytest.mark.parametrize(("height", "printed"), [(0.0, "101325.00"), (11000.0, "22632.10")])
def test_layers_of_the_standard_atmosphere(height: float, printed: str):
    # the page's constants are rounded: 2 parts in 100 000
    assert 1e5 * air_pressure(height_m=height) == pytest.approx(float(printed), rel=2e-5)
