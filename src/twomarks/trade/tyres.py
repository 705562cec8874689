"""Tyre pressure at another temperature or height: the gas law on absolute pressure and absolute temperature."""

from __future__ import annotations

from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, require, require_within

__all__ = ["SEA_LEVEL_BAR", "air_pressure", "tyre_pressure"]

SEA_LEVEL_BAR = 1.01325
ZERO_C_IN_K = 273.15
LAPSE_K_PER_M = 0.0065
SEA_LEVEL_K = 288.15
EXPONENT = 9.80665 * 0.0289644 / (8.31432 * LAPSE_K_PER_M)
"""g M / (R L) with the constants of the standard atmosphere."""


def air_pressure(*, height_m: Real) -> Real:
    """Return the pressure of the air at a height above the sea.

    Parameters
    ----------
    height_m : float or ndarray, shape (n,)
        Height above sea level [m], -500 to 11000.

    Returns
    -------
    float or ndarray, shape (n,)
        Absolute air pressure [bar].

    Raises
    ------
    OutOfRangeError
        If a height is outside its range or not a number.

    Notes
    -----
    ``101325 (1 - 0.0065 h / 288.15)^5.2559``. Range: the lowest layer of the standard atmosphere. Departs from the source: none; the
    weather moves it by a few per cent.

    References
    ----------
    standard_atmosphere
    """
    require_within(height_m, quantity="height", unit="m", source="standard_atmosphere", low=-500.0, high=11000.0)
    warmth: Any = 1.0 - LAPSE_K_PER_M * height_m / SEA_LEVEL_K
    return cast("Real", SEA_LEVEL_BAR * warmth**EXPONENT)


def tyre_pressure(
    *, pressure_bar: Real, temp_c: Reals, to_temp_c: Reals, air_bar: Reals = SEA_LEVEL_BAR, to_air_bar: Reals = SEA_LEVEL_BAR
) -> Real:
    """Return what a gauge will read on the same tyre at another temperature.

    Parameters
    ----------
    pressure_bar : float or ndarray, shape (n,)
        Pressure read on a gauge, above that of the air [bar], 0 to 15.
    temp_c : float or ndarray, shape (n,)
        Temperature of the tyre at that reading [C], -60 to 120.
    to_temp_c : float or ndarray, shape (n,)
        Temperature to ask for [C], -60 to 120.
    air_bar : float or ndarray, shape (n,)
        Pressure of the air at the reading [bar], 0.2 to 1.1.
    to_air_bar : float or ndarray, shape (n,)
        Pressure of the air where it is asked for [bar], 0.2 to 1.1.

    Returns
    -------
    float or ndarray, shape (n,)
        Gauge pressure [bar].

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.
    InputError
        If the tyre would read less than nothing.

    Notes
    -----
    ``(p + p_air) T_2 / T_1 - p_air_2``, volume unchanged. Range: dry air, no leak. Departs from the source: none; damp air and a
    tyre that grows move it by about a per cent.

    References
    ----------
    tyre_gas_law
    """
    require_within(pressure_bar, quantity="pressure", unit="bar", source="tyre_gas_law", low=0.0, high=15.0)
    for temperature in (temp_c, to_temp_c):
        require_within(temperature, quantity="temperature", unit="C", source="tyre_gas_law", low=-60.0, high=120.0)
    for air in (air_bar, to_air_bar):
        require_within(air, quantity="air pressure", unit="bar", source="tyre_gas_law", low=0.2, high=1.1)
    ratio: Any = (to_temp_c + ZERO_C_IN_K) / (temp_c + ZERO_C_IN_K)
    found: Any = (pressure_bar + air_bar) * ratio - to_air_bar
    require(found >= 0.0, "tyres.empty", found=pressure_bar)
    return cast("Real", found)
