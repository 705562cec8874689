"""How oil swells when hot, how long a sump takes to empty, and what stays on its walls."""

from __future__ import annotations

import math

from twomarks.errors import OutOfRangeError

__all__ = [
    "film_mean_mm",
    "orifice_drain_s",
    "volume_at",
    "volume_correction_factor",
    "volume_correction_factor_60f",
]

K1_PER_C = 0.6278
"""kg/m3 per C at the base of 15 C (secondary copy)."""
K1_PER_F = 0.34878
"""kg/m3 per F at the base of 60 F (secondary copy); 1.8 times it is the figure per C."""
DENSITY_LOW_KG_M3 = 800.9
DENSITY_HIGH_KG_M3 = 1163.5
TEMP_LOW_C = -50.0
TEMP_HIGH_C = 150.0
GRAVITY_M_S2 = 9.80665


def _correction(density_kg_m3: float, k1: float, difference: float) -> float:
    if not DENSITY_LOW_KG_M3 <= density_kg_m3 <= DENSITY_HIGH_KG_M3:
        raise OutOfRangeError(
            quantity="density", value=density_kg_m3, low=DENSITY_LOW_KG_M3, high=DENSITY_HIGH_KG_M3, unit="kg/m3", source="api_mpms_11_1"
        )
    growth = k1 / density_kg_m3 * difference
    return math.exp(-growth * (1.0 + 0.8 * growth))


def volume_correction_factor(*, density15_kg_m3: float, temp_c: float) -> float:
    """Return the factor that turns a volume of lubricating oil at a temperature into its volume at 15 C.

    Parameters
    ----------
    density15_kg_m3 : float
        Density at 15 C [kg/m3], 800.9 to 1163.5.
    temp_c : float
        Oil temperature [C], -50 to 150.

    Returns
    -------
    float
        Volume at 15 C per volume at `temp_c` [-].

    Raises
    ------
    OutOfRangeError
        If density or temperature lies outside its range.

    Notes
    -----
    ``exp(-a dT (1 + 0.8 a dT))``, ``a = 0.6278 / density``. The constant is per C at 15 C; 0.34878 is the same per F at 60 F and
    must not be mixed up with it. The range of temperature is from memory. Departs from the source: no rounding to five decimals.

    References
    ----------
    api_mpms_11_1
    """
    if not TEMP_LOW_C <= temp_c <= TEMP_HIGH_C:
        raise OutOfRangeError(quantity="temperature", value=temp_c, low=TEMP_LOW_C, high=TEMP_HIGH_C, unit="C", source="api_mpms_11_1")
    return _correction(density15_kg_m3, K1_PER_C, temp_c - 15.0)


def volume_correction_factor_60f(*, density60f_kg_m3: float, temp_f: float) -> float:
    """Return the factor that turns a volume of lubricating oil at a temperature into its volume at 60 F.

    Parameters
    ----------
    density60f_kg_m3 : float
        Density at 60 F [kg/m3], 800.9 to 1163.5.
    temp_f : float
        Oil temperature [F], -58 to 302.

    Returns
    -------
    float
        Volume at 60 F per volume at `temp_f` [-].

    Raises
    ------
    OutOfRangeError
        If density or temperature lies outside its range.

    Notes
    -----
    ``exp(-a dT (1 + 0.8 a dT))``, ``a = 0.34878 / density``. Departs from the source: no rounding to five decimals.

    References
    ----------
    api_mpms_11_1
    """
    low, high = TEMP_LOW_C * 1.8 + 32.0, TEMP_HIGH_C * 1.8 + 32.0
    if not low <= temp_f <= high:
        raise OutOfRangeError(quantity="temperature", value=temp_f, low=low, high=high, unit="F", source="api_mpms_11_1")
    return _correction(density60f_kg_m3, K1_PER_F, temp_f - 60.0)


def volume_at(*, volume_l: float, temp_c: float, to_temp_c: float, density15_kg_m3: float) -> float:
    """Return the volume that the same oil takes up at another temperature.

    Parameters
    ----------
    volume_l : float
        Volume at `temp_c` [L].
    temp_c : float
        Temperature at which it was measured [C], -50 to 150.
    to_temp_c : float
        Temperature asked for [C], -50 to 150.
    density15_kg_m3 : float
        Density at 15 C [kg/m3], 800.9 to 1163.5.

    Returns
    -------
    float
        Volume at `to_temp_c` [L].

    Raises
    ------
    OutOfRangeError
        If density or a temperature lies outside its range.

    Notes
    -----
    Departs from the source: none.

    References
    ----------
    api_mpms_11_1
    """
    here = volume_correction_factor(density15_kg_m3=density15_kg_m3, temp_c=temp_c)
    return volume_l * here / volume_correction_factor(density15_kg_m3=density15_kg_m3, temp_c=to_temp_c)


def orifice_drain_s(
    *, surface_m2: float, hole_m2: float, head_m: float, head_left_m: float = 0.0, discharge_coefficient: float = 0.62
) -> float:
    """Return how long an upright vessel takes to run out through a hole.

    Parameters
    ----------
    surface_m2 : float
        Area of the free surface [m2], above 0.
    hole_m2 : float
        Area of the hole [m2], above 0.
    head_m : float
        Height of the surface above the hole at the start [m].
    head_left_m : float
        Height at the end [m], from 0 to `head_m`.
    discharge_coefficient : float
        Share of the ideal flow that a sharp-edged hole lets through [-], 0 to 1.

    Returns
    -------
    float
        Time [s].

    Raises
    ------
    OutOfRangeError
        If an area or the coefficient is not above 0, or the heights are not ``0 <= head_left_m <= head_m``.

    Notes
    -----
    ``t = 2 A (sqrt(H1) - sqrt(H2)) / (Cd a sqrt(2 g))``. For thin, hot oil; cold oil is held back by its viscosity and takes
    longer. Departs from the source: none.

    References
    ----------
    orifice_emptying
    """
    for quantity, value in (("area", surface_m2), ("area", hole_m2), ("coefficient", discharge_coefficient)):
        if not value > 0.0:
            raise OutOfRangeError(quantity=quantity, value=value, low=0.0, source="orifice_emptying")
    if not 0.0 <= head_left_m <= head_m:
        raise OutOfRangeError(quantity="height", value=head_left_m, low=0.0, high=head_m, unit="m", source="orifice_emptying")
    drop = math.sqrt(head_m) - math.sqrt(head_left_m)
    return 2.0 * surface_m2 * drop / (discharge_coefficient * hole_m2 * math.sqrt(2.0 * GRAVITY_M_S2))


def film_mean_mm(*, dynamic_viscosity_mpa_s: float, density_kg_m3: float, wall_height_m: float, time_s: float) -> float:
    """Return the mean thickness of the oil film that still clings to an upright wall.

    Parameters
    ----------
    dynamic_viscosity_mpa_s : float
        Dynamic viscosity at the oil's temperature [mPa.s], above 0.
    density_kg_m3 : float
        Density at the oil's temperature [kg/m3], above 0.
    wall_height_m : float
        Height of the wall [m], above 0.
    time_s : float
        Time since the wall was left by the liquid [s], above 0.

    Returns
    -------
    float
        Mean thickness over the height [mm]; times height and length of the wall it is the volume that stays.

    Raises
    ------
    OutOfRangeError
        If an argument is not above 0.

    Notes
    -----
    ``h(z) = sqrt(mu z / (rho g t))``, mean two thirds of the value at the foot. Departs from the source: its text was not
    seen; the formula satisfies the flow equation of a thin film.

    References
    ----------
    jeffreys_1930
    """
    for quantity, value, unit in (
        ("dynamic viscosity", dynamic_viscosity_mpa_s, "mPa.s"),
        ("density", density_kg_m3, "kg/m3"),
        ("height", wall_height_m, "m"),
        ("time", time_s, "s"),
    ):
        if not value > 0.0:
            raise OutOfRangeError(quantity=quantity, value=value, low=0.0, unit=unit, source="jeffreys_1930")
    foot_m = math.sqrt(dynamic_viscosity_mpa_s / 1000.0 * wall_height_m / (density_kg_m3 * GRAVITY_M_S2 * time_s))
    return 1000.0 * foot_m * 2.0 / 3.0
