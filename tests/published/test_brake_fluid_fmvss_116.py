"""Brake fluid classes.

Sources: 49 CFR 571.116 (FMVSS 116) as three independent tables print it (status a2); the wet 311 F of DOT 4 in an official letter of
interpretation of 24 July 1996 (status a). One reseller's table prints 205 C for DOT 4 dry, which is wrong.
"""

from __future__ import annotations

import pytest

from twomarks import units
from twomarks.reference.circuits import brake_fluids
from twomarks.trade.brake_fluid import brake_fluid_mixture, brake_fluid_state

PRINTED = {
    "DOT 3": ("205", "401", "140", "284", "1500", "1.5"),
    "DOT 4": ("230", "446", "155", "311", "1800", "1.5"),
    "DOT 5": ("260", "500", "180", "356", "900", "1.5"),
    "DOT 5.1": ("260", "500", "180", "356", "900", "1.5"),
}


@pytest.mark.parametrize(("name", "printed"), PRINTED.items())
def test_printed_limits(name: str, printed: tuple[str, ...]):
    row = brake_fluids()[name]
    assert [row.dry_min_c, row.wet_min_c, row.kv_minus40_max_mm2_s, row.kv100_min_mm2_s] == [float(printed[at]) for at in (0, 2, 4, 5)]


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(205, 401), (140, 284), (230, 446), (155, 311), (260, 500), (180, 356)])
def test_the_pairs_convert_exactly(celsius: int, fahrenheit: int):
    assert units.quantity(f"{fahrenheit} F").core == celsius
    assert units.in_unit(float(celsius), unit="C", to="F") == pytest.approx(fahrenheit, abs=1e-9)


@pytest.mark.parametrize("other", ["DOT 3", "DOT 4", "DOT 5.1"])
def test_silicone_mixes_with_none_of_the_others(other: str):
    # status a2
    assert brake_fluid_mixture(in_system=other, to_add="DOT 5").state == "never"
    assert brake_fluid_mixture(in_system="DOT 5", to_add=other).state == "never"


@pytest.mark.parametrize("name", PRINTED)
def test_the_limits_themselves_decide(name: str):
    row = brake_fluids()[name]
    assert brake_fluid_state(fluid=name, boiling_c=row.dry_min_c).state == "as new"
    assert brake_fluid_state(fluid=name, boiling_c=row.wet_min_c).state == "renew now"
