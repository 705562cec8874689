"""How oil swells when hot: its volume and density at a temperature, and what will stand in the pan."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, cast

from twomarks.errors import OutOfRangeError
from twomarks.trade.arrays import Real, Reals, maths_of, require_within

__all__ = ["PanVolume", "density_at", "pan_volume", "volume_at", "volume_correction_factor", "volume_correction_factor_60f"]

SOURCE = "api_mpms_11_1"
K1_PER_C = 0.6278
"""kg/m3 per C at the base of 15 C (secondary copy)."""
K1_PER_F = 0.34878
"""kg/m3 per F at the base of 60 F (secondary copy); 1.8 times it is the figure per C."""
DENSITY_LOW_KG_M3 = 800.9
DENSITY_HIGH_KG_M3 = 1163.5
TEMP_LOW_C = -50.0
TEMP_HIGH_C = 150.0
TEMP_LOW_F = TEMP_LOW_C * 1.8 + 32.0
TEMP_HIGH_F = TEMP_HIGH_C * 1.8 + 32.0
BASE_C = 15.0
BASE_F = 60.0
POURED_C = 20.0
"""How warm oil is when it is poured from its container; the litres on the card are litres at this temperature."""


def _correction(density_kg_m3: Reals, k1: float, difference: Reals) -> Any:
    require_within(density_kg_m3, quantity="density", unit="kg/m3", source=SOURCE, low=DENSITY_LOW_KG_M3, high=DENSITY_HIGH_KG_M3)
    growth: Any = k1 / density_kg_m3 * difference
    return maths_of(growth).exp(-growth * (1.0 + 0.8 * growth))


def volume_correction_factor(*, density15_kg_m3: Reals, temp_c: Real) -> Real:
    """Return the factor that turns a volume of lubricating oil at a temperature into its volume at 15 C.

    Parameters
    ----------
    density15_kg_m3 : float or ndarray, shape (n,)
        Density at 15 C [kg/m3], 800.9 to 1163.5.
    temp_c : float or ndarray, shape (n,)
        Oil temperature [C], -50 to 150.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume at 15 C per volume at `temp_c` [-].

    Raises
    ------
    OutOfRangeError
        If density or temperature lies outside its range; of an array with the first offending index.

    Notes
    -----
    ``exp(-a dT (1 + 0.8 a dT))``, ``a = 0.6278 / density``. The constant is per C at 15 C; 0.34878 is the same per F at 60 F and
    must not be mixed up with it. The range of temperature is from memory. Departs from the source: no rounding to five decimals.

    References
    ----------
    api_mpms_11_1
    """
    require_within(temp_c, quantity="temperature", unit="C", source=SOURCE, low=TEMP_LOW_C, high=TEMP_HIGH_C)
    return cast("Real", _correction(density15_kg_m3, K1_PER_C, temp_c - BASE_C))


def volume_correction_factor_60f(*, density60f_kg_m3: Reals, temp_f: Real) -> Real:
    """Return the same factor by the other base, from a temperature in Fahrenheit to the volume at 60 F.

    Parameters
    ----------
    density60f_kg_m3 : float or ndarray, shape (n,)
        Density at 60 F [kg/m3], from 800.9 up to 1163.5.
    temp_f : float or ndarray, shape (n,)
        Temperature of the oil [F], -58 to 302.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume at 60 F per volume at `temp_f` [-].

    Raises
    ------
    OutOfRangeError
        As for `volume_correction_factor`.

    Notes
    -----
    ``a = 0.34878 / density``, else as for `volume_correction_factor`. Departs from the source: no rounding.

    References
    ----------
    api_mpms_11_1
    """
    require_within(temp_f, quantity="temperature", unit="F", source=SOURCE, low=TEMP_LOW_F, high=TEMP_HIGH_F)
    return cast("Real", _correction(density60f_kg_m3, K1_PER_F, temp_f - BASE_F))


def volume_at(*, volume_l: Reals, temp_c: Reals, to_temp_c: Real, density15_kg_m3: Reals) -> Real:
    """Return the volume that the same oil takes up at another temperature.

    Parameters
    ----------
    volume_l : float or ndarray, shape (n,)
        Volume at `temp_c` [L], not negative.
    temp_c : float or ndarray, shape (n,)
        Temperature at which it was measured [C], -50 to 150.
    to_temp_c : float or ndarray, shape (n,)
        Temperature asked for [C], -50 to 150.
    density15_kg_m3 : float or ndarray, shape (n,)
        Density at 15 C [kg/m3], 800.9 to 1163.5.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume at `to_temp_c` [L].

    Raises
    ------
    OutOfRangeError
        If the volume is negative, or density or a temperature lies outside its range.

    Notes
    -----
    By the factors of both temperatures; the mass stays. Departs from the source: none.

    References
    ----------
    api_mpms_11_1
    """
    require_within(volume_l, quantity="volume", unit="L", source=SOURCE, low=0.0)
    here: Any = volume_correction_factor(density15_kg_m3=density15_kg_m3, temp_c=cast("Any", temp_c))
    there = volume_correction_factor(density15_kg_m3=density15_kg_m3, temp_c=to_temp_c)
    return cast("Real", volume_l * here / there)


def density_at(*, density15_kg_m3: Reals, temp_c: Real) -> Real:
    """Return the density of lubricating oil at a temperature.

    Parameters
    ----------
    density15_kg_m3 : float or ndarray, shape (n,)
        Density at 15 C [kg/m3], 800.9 to 1163.5.
    temp_c : float or ndarray, shape (n,)
        Temperature asked for [C], -50 to 150.

    Returns
    -------
    float or ndarray, shape (n,)
        Density [kg/m3].

    Raises
    ------
    OutOfRangeError
        As for `volume_correction_factor`.

    Notes
    -----
    The density at 15 C times the volume correction factor. Departs from the source: none.

    References
    ----------
    api_mpms_11_1
    """
    factor: Any = volume_correction_factor(density15_kg_m3=density15_kg_m3, temp_c=temp_c)
    return cast("Real", density15_kg_m3 * factor)


@dataclass(frozen=True, slots=True)
class PanVolume:
    """What to expect in the pan [L]: hot as it comes out, its standard uncertainty, the same once cold, and room to have."""

    hot_l: float
    sigma_l: float
    cold_l: float
    room_l: float


def pan_volume(
    *,
    refill_l: float,
    refill_sigma_l: float,
    oil_temp_c: float,
    density15_kg_m3: float,
    level_fraction: float = 1.0,
    between_marks_l: float = 0.0,
    cold_temp_c: float = POURED_C,
) -> PanVolume:
    """Return how much hot oil to expect in the pan when the engine is drained, and the room that the pan should have.

    Parameters
    ----------
    refill_l : float
        What fills the drained engine to the upper mark, as poured [L], above 0; with the filter where it is drained too.
    refill_sigma_l : float
        How far that can be off, as a standard deviation [L], not negative.
    oil_temp_c : float
        Temperature of the oil as it comes out [C], -50 to 150.
    density15_kg_m3 : float
        Density at 15 C [kg/m3], 800.9 to 1163.5.
    level_fraction : float
        Where it stood on the stick before [-], -2 to 4: 0 the lower mark, 1 the upper one.
    between_marks_l : float
        Volume from the lower mark to the upper one [L], not negative and less than `refill_l`.
    cold_temp_c : float
        Temperature at which the litres of the refill are litres [C], -50 to 150.

    Returns
    -------
    PanVolume
        Volumes [L]; the room is the hot volume with three standard deviations.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    What comes out of an engine is what refills it, less what was missing on the stick, swollen by its warmth. What clings to
    the walls is left in the engine by both. Departs from the source: three deviations for the room are judgement of this
    project.

    References
    ----------
    api_mpms_11_1, house_judgement
    """
    require_within(refill_l, quantity="volume", unit="L", source="level_practice", above=0.0)
    require_within(refill_sigma_l, quantity="deviation", unit="L", source="house_judgement", low=0.0)
    require_within(level_fraction, quantity="level", source="level_practice", low=-2.0, high=4.0)
    require_within(between_marks_l, quantity="span", unit="L", source="level_practice", low=0.0, below=refill_l)
    cold_l = refill_l - (1.0 - level_fraction) * between_marks_l
    if cold_l <= 0.0:
        raise OutOfRangeError(quantity="level", value=level_fraction, low=1.0 - refill_l / between_marks_l, source="level_practice")
    hot_l = volume_at(volume_l=cold_l, temp_c=cold_temp_c, to_temp_c=oil_temp_c, density15_kg_m3=density15_kg_m3)
    sigma_l = refill_sigma_l * hot_l / cold_l
    return PanVolume(hot_l, sigma_l, cold_l, math.ceil(10.0 * (hot_l + 3.0 * sigma_l)) / 10.0)
