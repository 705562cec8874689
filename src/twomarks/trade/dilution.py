"""Fuel in the oil: how far it thins, and how much fuel a fallen viscosity tells of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twomarks.trade.arrays import Reals, choose, require, require_within
from twomarks.trade.blending import Blend, blend_by_mass_refutas, blending_number_refutas
from twomarks.words import Figure, Message, say

__all__ = ["DIESEL_KV100_MM2_S", "FuelEstimate", "blend_with_fuel", "fuel_from_viscosity"]

DIESEL_KV100_MM2_S = 1.1
"""What diesel fuel is taken to have at 100 C where nobody says (this project's working value, no source)."""
SPREAD_PERCENT = 3.0
"""How far the viscosity of an oil may be from what its sheet or a second measurement says (this project's judgement)."""
METHOD_FACTOR = 1.4
"""How far two published ways to read fuel from viscosity lie apart: a printed chart reads up to 1.3 times as much as this rule."""


@dataclass(frozen=True, slots=True)
class FuelEstimate:
    """Fuel in the oil by mass [%]: the estimate and its two bounds, and the cautions that belong to it.

    A low bound of 0 means that the fall is within what two samples of a sound oil differ by.
    """

    fuel_percent: Reals
    low_percent: Reals
    high_percent: Reals
    cautions: tuple[Message, ...]


def blend_with_fuel(*, kv_oil_mm2_s: Reals, fuel_percent: Reals, kv_fuel_mm2_s: Reals = DIESEL_KV100_MM2_S) -> Blend:
    """Return the viscosity of oil with fuel in it.

    Parameters
    ----------
    kv_oil_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the oil without fuel [mm2/s], above that of the fuel.
    fuel_percent : float or ndarray, shape (n,)
        Fuel in the mixture by mass [%], 0 to 100.
    kv_fuel_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the fuel at the same temperature [mm2/s], above 0.2; 1.1 for diesel at 100 C is a working value.

    Returns
    -------
    Blend
        Kinematic viscosity of the mixture [mm2/s], with its cautions.

    Raises
    ------
    OutOfRangeError
        If a viscosity or the share lies outside its range.
    InputError
        If the fuel is not thinner than the oil.

    Notes
    -----
    The blending number by mass. Departs from the source: it is used with a thin diluent, where the rules part by up to 2 %.

    References
    ----------
    refutas_maples, house_judgement
    """
    require_within(fuel_percent, quantity="share", unit="%", source="refutas_maples", low=0.0, high=100.0)
    blend = blend_by_mass_refutas(kv_mm2_s=(kv_oil_mm2_s, kv_fuel_mm2_s), mass_kg=(100.0 - fuel_percent, fuel_percent))
    require(kv_oil_mm2_s > kv_fuel_mm2_s, "viscosity.fuel_thicker", kv_oil=kv_oil_mm2_s, kv_fuel=kv_fuel_mm2_s)
    return blend


def fuel_from_viscosity(
    *, kv_fresh_mm2_s: Reals, kv_used_mm2_s: Reals, kv_fuel_mm2_s: Reals = DIESEL_KV100_MM2_S, spread_percent: float = SPREAD_PERCENT
) -> FuelEstimate:
    """Return how much fuel would explain that an oil has thinned, with how uncertain that is.

    Parameters
    ----------
    kv_fresh_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the oil when fresh [mm2/s], above that of the fuel.
    kv_used_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the used oil at the same temperature [mm2/s], above that of the fuel.
    kv_fuel_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the fuel at the same temperature [mm2/s], above 0.2; 1.1 for diesel at 100 C is a working value.
    spread_percent : float
        How far each of the two viscosities may be off [%], 0 to 20.

    Returns
    -------
    FuelEstimate
        Fuel by mass [%], its bounds, and its cautions; 0 where the used oil is no thinner than the fresh one.

    Raises
    ------
    OutOfRangeError
        If a viscosity or the spread lies outside its range.
    InputError
        If an oil is not thicker than the fuel.

    Notes
    -----
    ``(N(fresh) - N(used)) / (N(fresh) - N(fuel))`` with the blending number N. Bounds: both viscosities off by the spread to
    one side and to the other, and the method by a factor of 1.4, as a printed chart for diesel reads up to 1.3 times as much.
    Shear thins an oil without fuel, soot and oxidation thicken it with fuel: a chromatograph settles it. Departs from the
    source: the rule is for blending, its reading backwards and the bounds are this project's judgement.

    References
    ----------
    refutas_maples, fuel_dilution_chart, house_judgement
    """
    for kv in (kv_fresh_mm2_s, kv_used_mm2_s, kv_fuel_mm2_s):
        require_within(kv, quantity="kinematic viscosity", unit="mm2/s", source="refutas_maples", above=0.2)
    require_within(spread_percent, quantity="spread", unit="%", source="house_judgement", low=0.0, high=20.0)
    for kv in (kv_fresh_mm2_s, kv_used_mm2_s):
        require(kv > kv_fuel_mm2_s, "viscosity.fuel_thicker", kv_oil=kv, kv_fuel=kv_fuel_mm2_s)
    more, less = 1.0 + spread_percent / 100.0, 1.0 - spread_percent / 100.0
    estimate = _share(kv_fresh_mm2_s, kv_used_mm2_s, kv_fuel_mm2_s)
    low = _share(kv_fresh_mm2_s * less, kv_used_mm2_s * more, kv_fuel_mm2_s) / METHOD_FACTOR
    high = _share(kv_fresh_mm2_s * more, kv_used_mm2_s * less, kv_fuel_mm2_s) * METHOD_FACTOR
    return FuelEstimate(
        estimate,
        low,
        choose(high > 100.0, 100.0, high),
        (say("viscosity.fuel_other_causes"), say("viscosity.fuel_spread", spread=Figure(spread_percent, "%"))),
    )


def _share(kv_fresh: Any, kv_used: Any, kv_fuel: Any) -> Any:
    """Return the share of fuel in percent, none where the oil has not thinned, all where it is as thin as the fuel."""
    thick = choose(kv_fresh > kv_used, kv_fresh, kv_used)
    thin = choose(kv_used > kv_fuel, kv_used, kv_fuel)
    fresh, used, fuel = (blending_number_refutas(kv_mm2_s=kv) for kv in (thick, thin, kv_fuel))
    return 100.0 * (fresh - used) / (fresh - fuel)
