"""Density of oil brought back to 15 C from the temperature at which it was measured."""

from __future__ import annotations

from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, choose, require_within
from twomarks.trade.volume import DENSITY_HIGH_KG_M3, DENSITY_LOW_KG_M3, volume_correction_factor

__all__ = ["density15_of"]

ROUNDS = 30
"""Each round leaves at most a tenth of the error."""


def density15_of(*, density_kg_m3: Real, temp_c: Reals) -> Real:
    """Return the density at 15 C of an oil whose density is known at another temperature.

    Parameters
    ----------
    density_kg_m3 : float or ndarray, shape (n,)
        Density at `temp_c` [kg/m3], such that the one at 15 C lies within 800.9 to 1163.5.
    temp_c : float or ndarray, shape (n,)
        Temperature it was measured at [C], -50 to 150.

    Returns
    -------
    float or ndarray, shape (n,)
        Density at 15 C [kg/m3].

    Raises
    ------
    OutOfRangeError
        If the temperature, or the density that comes out for 15 C, lies outside its range; of an array with the first index.

    Notes
    -----
    ``rho_t = rho_15 VCF(rho_15, t)`` solved for rho_15 by repetition, to the last digit. Departs from the source: none.

    References
    ----------
    api_mpms_11_1
    """
    require_within(density_kg_m3, quantity="density", unit="kg/m3", source="api_mpms_11_1", above=0.0)
    found: Any = density_kg_m3
    at: Any = temp_c
    for _ in range(ROUNDS):
        within = choose(found < DENSITY_LOW_KG_M3, DENSITY_LOW_KG_M3, found)
        within = choose(within > DENSITY_HIGH_KG_M3, DENSITY_HIGH_KG_M3, within)
        factor: Any = volume_correction_factor(density15_kg_m3=within, temp_c=at)
        found = density_kg_m3 / factor
    require_within(found, quantity="density", unit="kg/m3", source="api_mpms_11_1", low=DENSITY_LOW_KG_M3, high=DENSITY_HIGH_KG_M3)
    return cast("Real", found)
