"""Viscosity of an oil over temperature: the straight line through two measured points, and dynamic from kinematic."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, is_array, maths_of, require, require_within
from twomarks.words import Figure, Message, say

__all__ = ["ViscosityLine", "double_logarithm", "dynamic_viscosity", "line_cautions", "walther_line"]

CELSIUS_ZERO_K = 273.15
SHORT_FORM_FROM_MM2_S = 2.0
SHORT_FORM_ABOVE_MM2_S = 0.3
LARGEST = math.log10(300.0)
"""Double logarithm from which on a viscosity is no number any more."""
MEASURED_BELOW_C = 0.0
"""Below this an engine oil with thickeners is judged by its cranking and pumping tests, never by its line (judgement)."""


@dataclass(frozen=True, slots=True)
class ViscosityLine:
    """The straight line ``lg lg(v + 0.7) = a - b lg T`` of one oil, or of each of an array; `zero_k` turns Celsius into T."""

    a: Reals
    b: Reals
    zero_k: float = CELSIUS_ZERO_K

    def kinematic_viscosity(self, *, temp_c: Real) -> Real:
        """Return the kinematic viscosity on the line.

        Parameters
        ----------
        temp_c : float or ndarray, shape (n,)
            Oil temperature [C], above absolute zero; broadcasts with the oils of the line.

        Returns
        -------
        float or ndarray, shape (n,)
            Kinematic viscosity [mm2/s].

        Raises
        ------
        OutOfRangeError
            If `temp_c` is not above absolute zero, or so cold that the line gives no finite number.

        Notes
        -----
        For the homogeneous liquid. A multigrade in the cold is not: cranking and pumping viscosity are measured, never
        read from this line; `line_cautions` says so with the answer. Departs from the source: none above 2 mm2/s.

        References
        ----------
        astm_d341
        """
        require_within(temp_c, quantity="temperature", unit="C", source="astm_d341", above=-self.zero_k)
        line: Any = self.a - self.b * maths_of(temp_c, self.a).log10(temp_c + self.zero_k)
        if _largest(line) > LARGEST:
            coldest_c = _largest(10.0 ** ((self.a - LARGEST) / self.b)) - self.zero_k
            require_within(temp_c, quantity="temperature", unit="C", source="astm_d341", low=coldest_c)
        return cast("Real", 10.0**10.0**line - 0.7)

    def temperature(self, *, kv_mm2_s: Real) -> Real:
        """Return the temperature at which the oil has a given viscosity.

        Parameters
        ----------
        kv_mm2_s : float or ndarray, shape (n,)
            Kinematic viscosity [mm2/s], above 0.3; broadcasts with the oils of the line.

        Returns
        -------
        float or ndarray, shape (n,)
            Temperature [C].

        Raises
        ------
        OutOfRangeError
            If `kv_mm2_s` is 0.3 or less, where the short form has no logarithm.

        Notes
        -----
        ``T = 10^((a - lg lg(v + 0.7)) / b)``. Departs from the source: none above 2 mm2/s.

        References
        ----------
        astm_d341
        """
        _require_viscosity(kv_mm2_s, above=SHORT_FORM_ABOVE_MM2_S)
        return cast("Real", 10.0 ** ((self.a - double_logarithm(kv_mm2_s)) / self.b) - self.zero_k)


def double_logarithm(kv_mm2_s: Any) -> Any:
    """Return the scale on which viscosity over temperature is straight, and on which oils blend.

    Parameters
    ----------
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity [mm2/s], above 0.3; the callers have seen to that.

    Returns
    -------
    float or ndarray, shape (n,)
        ``lg lg(v + 0.7)`` [-].

    Raises
    ------
    ValueError
        If a number is 0.3 or less.

    Notes
    -----
    Departs from the source: the terms that matter only below 2 mm2/s are left out.

    References
    ----------
    astm_d341
    """
    m = maths_of(kv_mm2_s)
    return m.log10(m.log10(kv_mm2_s + 0.7))


def walther_line(
    *, kv_low_mm2_s: Reals, temp_low_c: Reals, kv_high_mm2_s: Reals, temp_high_c: Reals, zero_k: float = CELSIUS_ZERO_K
) -> ViscosityLine:
    """Return the viscosity-temperature line through two measured points, of one oil or of each of an array.

    Parameters
    ----------
    kv_low_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at the lower temperature [mm2/s], at least 2.
    temp_low_c : float or ndarray, shape (n,)
        The lower temperature [C], above absolute zero, usually 40.
    kv_high_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at the higher temperature [mm2/s], at least 2 and below the first.
    temp_high_c : float or ndarray, shape (n,)
        The higher temperature [C], above the first, usually 100.
    zero_k : float
        The freezing point on the absolute scale [K]; 273.15, or 273 to repeat older published examples.

    Returns
    -------
    ViscosityLine
        The constants a and b of the line [-], arrays where an argument is one.

    Raises
    ------
    OutOfRangeError
        If a viscosity is below 2 mm2/s (the short form ends there), or a temperature not above absolute zero.
    InputError
        If the temperatures do not rise or the viscosities do not fall; of an array with the first offending index.

    Notes
    -----
    ``lg lg(v + 0.7) = a - b lg T``. Departs from the source: the terms that matter only below 2 mm2/s are left out.

    References
    ----------
    astm_d341
    """
    for kv_mm2_s in (kv_low_mm2_s, kv_high_mm2_s):
        _require_viscosity(kv_mm2_s, low=SHORT_FORM_FROM_MM2_S)
    for temp_c in (temp_low_c, temp_high_c):
        require_within(temp_c, quantity="temperature", unit="C", source="astm_d341", above=-zero_k)
    require(
        (temp_low_c < temp_high_c) & (kv_low_mm2_s > kv_high_mm2_s),
        "viscosity.points",
        temp_low=temp_low_c,
        kv_low=kv_low_mm2_s,
        temp_high=temp_high_c,
        kv_high=kv_high_mm2_s,
    )
    m = maths_of(temp_low_c, temp_high_c)
    low: Any = temp_low_c
    high: Any = temp_high_c
    cold, hot = m.log10(low + zero_k), m.log10(high + zero_k)
    thick, thin = double_logarithm(kv_low_mm2_s), double_logarithm(kv_high_mm2_s)
    b = (thick - thin) / (hot - cold)
    return ViscosityLine(thick + b * cold, b, zero_k)


def dynamic_viscosity(*, kv_mm2_s: Real, density_kg_m3: Reals) -> Real:
    """Return the dynamic viscosity of an oil from its kinematic one.

    Parameters
    ----------
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity [mm2/s], above 0.
    density_kg_m3 : float or ndarray, shape (n,)
        Density at the same temperature [kg/m3], above 0; `twomarks.trade.volume.density_at` brings that of 15 C there.

    Returns
    -------
    float or ndarray, shape (n,)
        Dynamic viscosity [mPa.s].

    Raises
    ------
    OutOfRangeError
        If viscosity or density is not above 0.

    Notes
    -----
    ``mu = v rho / 1000`` in these units: the definition of kinematic viscosity. At low shear; cranking, pumping and
    high-shear viscosity are measured otherwise. Departs from the source: none.

    References
    ----------
    exact_units
    """
    _require_viscosity(kv_mm2_s, above=0.0)
    require_within(density_kg_m3, quantity="density", unit="kg/m3", above=0.0)
    product: Any = kv_mm2_s * density_kg_m3
    return cast("Real", product / 1000.0)


def line_cautions(*, temp_c: float, kv_mm2_s: float) -> tuple[Message, ...]:
    """Return what has to be said with a viscosity that was read from a line.

    Parameters
    ----------
    temp_c : float
        Temperature it was read at [C], above absolute zero.
    kv_mm2_s : float
        What was read [mm2/s], above 0.3.

    Returns
    -------
    tuple of Message
        None, one or two cautions: in the cold an engine oil is judged by measured figures; below 2 mm2/s the short form drifts.

    Raises
    ------
    OutOfRangeError
        If temperature or viscosity lies outside its range.

    Notes
    -----
    The border of 0 C is this project's judgement, 2 mm2/s is the source's. Departs from the source: none.

    References
    ----------
    astm_d341, house_judgement
    """
    require_within(temp_c, quantity="temperature", unit="C", source="astm_d341", above=-CELSIUS_ZERO_K)
    _require_viscosity(kv_mm2_s, above=SHORT_FORM_ABOVE_MM2_S)
    found: list[Message] = []
    if temp_c < MEASURED_BELOW_C:
        found.append(say("viscosity.caution_cold", temp=Figure(MEASURED_BELOW_C, "C")))
    if kv_mm2_s < SHORT_FORM_FROM_MM2_S:
        found.append(say("viscosity.caution_thin", limit=Figure(SHORT_FORM_FROM_MM2_S, "mm2/s")))
    return tuple(found)


def _require_viscosity(kv_mm2_s: Reals, *, low: float | None = None, above: float | None = None) -> None:
    require_within(kv_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="astm_d341", low=low, above=above)


def _largest(values: Any) -> float:
    if not is_array(values):
        return float(values)
    return float(values.max()) if values.size else -math.inf
