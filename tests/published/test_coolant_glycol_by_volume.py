"""Freezing point of glycol and water by volume.

Sources: CoolProp 8.0.0, mixtures AEG and APG (ASHRAE, volume based), computed apart from this code (status b); Lange's Handbook of
Chemistry, 15th edition, table 5.13, propylene glycol by volume (status a, a copy of the page); the mass-based mixtures MEG and MPG
and SecondaryCoolantProps 1.5 (status b) as what must not come out.
"""

from __future__ import annotations

import numpy as np
import pytest

from twomarks.trade.coolant import freeze_point, glycol_for

POINTS = 600
BY_VOLUME = {
    10: ("-3.62", "-3.43"),
    20: ("-8.98", "-7.38"),
    30: ("-15.70", "-13.11"),
    40: ("-24.80", "-21.51"),
    50: ("-37.11", "-33.66"),
    60: ("-52.02", "-51.06"),
}
BY_MASS = {20: (-7.95, -7.17), 30: (-14.58, -12.79), 40: (-23.81, -20.57), 50: (-35.99, -32.19)}
HANDBOOK_PROPYLENE = {
    5: "-1.1", 10: "-2.2", 15: "-3.9", 20: "-6.7", 25: "-8.9", 30: "-12.8", 35: "-16.1", 40: "-20.6", 45: "-26.7", 50: "-33.3",
}  # fmt: skip


@pytest.mark.parametrize(("percent", "printed"), BY_VOLUME.items())
def test_rows_of_the_library(percent: int, printed: tuple[str, str]):
    assert freeze_point(glycol="ethylene", volume_percent=float(percent)) == float(printed[0])
    assert freeze_point(glycol="propylene", volume_percent=float(percent)) == float(printed[1])


@pytest.mark.parametrize(("percent", "printed"), HANDBOOK_PROPYLENE.items())
def test_the_handbook_agrees_within_1_3_k(percent: int, printed: str):
    assert freeze_point(glycol="propylene", volume_percent=float(percent)) == pytest.approx(float(printed), abs=1.36)


def test_half_and_half_of_the_handbook_within_0_4_k():
    assert freeze_point(glycol="propylene", volume_percent=50.0) == pytest.approx(-33.3, abs=0.4)


@pytest.mark.parametrize(("percent", "mass"), BY_MASS.items())
def test_what_comes_out_is_not_by_mass(percent: int, mass: tuple[float, float]):
    assert freeze_point(glycol="ethylene", volume_percent=float(percent)) < mass[0] - 0.5
    assert freeze_point(glycol="propylene", volume_percent=float(percent)) < mass[1] - 0.15


@pytest.mark.parametrize(("glycol", "recalled"), [("ethylene", -36.4), ("propylene", -31.0)])
def test_limits_for_new_coolant_are_met_by_the_pure_mixture(glycol: str, recalled: float):
    # from memory (ASTM D3306, 50 % by volume, the most that is allowed); no source seen
    assert freeze_point(glycol=glycol, volume_percent=50.0) <= recalled


@pytest.mark.reference
@pytest.mark.parametrize(("glycol", "mixture"), [("ethylene", "AEG"), ("propylene", "APG")])
def test_a_grid_against_coolprop_within_0_06_k(glycol: str, mixture: str):
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    shares = np.random.default_rng(7).uniform(10.0, 60.0, POINTS)
    theirs = np.array([coolprop.PropsSI("T_freeze", "T", 293.15, "P", 101325.0, f"INCOMP::{mixture}[{x / 100:.8f}]") for x in shares])
    ours = freeze_point(glycol=glycol, volume_percent=shares)
    assert np.abs(ours - (theirs - 273.15)).max() < 0.06
    # and back: within a twentieth of a per cent of glycol
    assert np.abs(glycol_for(glycol=glycol, freeze_c=theirs.clip(min=ours.min() + 273.15) - 273.15) - shares).max() < 0.05


@pytest.mark.reference
@pytest.mark.parametrize(("name", "printed"), [("MEG", (-14.576, -23.813, -35.994)), ("MPG", (-12.790, -20.568, -32.193))])
def test_the_second_library_is_by_mass_and_must_not_be_taken_for_ours(name: str, printed: tuple[float, ...]):
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    mixtures = pytest.importorskip("scp")
    second = {"MEG": mixtures.ethylene_glycol.EthyleneGlycol, "MPG": mixtures.propylene_glycol.PropyleneGlycol}[name]
    for percent, expected in zip((30, 40, 50), printed, strict=True):
        by_mass = coolprop.PropsSI("T_freeze", "T", 293.15, "P", 101325.0, f"INCOMP::{name}[{percent / 100}]") - 273.15
        assert second(percent / 100).freeze_point(percent / 100) == pytest.approx(expected, abs=0.001)
        assert by_mass == pytest.approx(expected, abs=0.01)
