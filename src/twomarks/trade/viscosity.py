"""Kinematic viscosity of an oil over temperature, its viscosity index, and the viscosity of a blend."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.errors import InputError, OutOfRangeError
from twomarks.reference.tables import viscosity_index_basis

__all__ = ["BLEND_CAUTION", "ViscosityLine", "blend_viscosity_astm_d7152", "viscosity_index", "walther_line"]

CELSIUS_ZERO_K = 273.15
SHORT_FORM_FROM_MM2_S = 2.0
TABLE_TO_MM2_S = 70.0
BLEND_CAUTION = "viscosity.blend_caution"
"""Key of the caution that goes with every blend of engine oils."""


def _loglog(kv_mm2_s: float) -> float:
    return math.log10(math.log10(kv_mm2_s + 0.7))


@dataclass(frozen=True, slots=True)
class ViscosityLine:
    """The straight line ``lg lg(v + 0.7) = a - b lg T`` of one oil; `zero_k` turns Celsius into T."""

    a: float
    b: float
    zero_k: float = CELSIUS_ZERO_K

    def kinematic_viscosity(self, *, temp_c: float) -> float:
        """Return the kinematic viscosity on the line.

        Parameters
        ----------
        temp_c : float
            Oil temperature [C], above absolute zero.

        Returns
        -------
        float
            Kinematic viscosity [mm2/s].

        Raises
        ------
        OutOfRangeError
            If `temp_c` is not above absolute zero, or so cold that the line gives no finite number.

        Notes
        -----
        For the homogeneous liquid. A multigrade in the cold is not: cranking and pumping viscosity are measured, never
        read from this line. Departs from the source: none above 2 mm2/s.

        References
        ----------
        astm_d341
        """
        if temp_c <= -self.zero_k:
            raise OutOfRangeError(quantity="temperature", value=temp_c, low=-self.zero_k, unit="C", source="astm_d341")
        try:
            return 10.0**10.0 ** (self.a - self.b * math.log10(temp_c + self.zero_k)) - 0.7
        except OverflowError:
            raise OutOfRangeError(quantity="temperature", value=temp_c, unit="C", source="astm_d341") from None

    def temperature(self, *, kv_mm2_s: float) -> float:
        """Return the temperature at which the oil has a given viscosity.

        Parameters
        ----------
        kv_mm2_s : float
            Kinematic viscosity [mm2/s], above 0.3.

        Returns
        -------
        float
            Temperature [C].

        Raises
        ------
        OutOfRangeError
            If `kv_mm2_s` is 0.3 or less, where the short form has no logarithm.

        Notes
        -----
        Departs from the source: none above 2 mm2/s.

        References
        ----------
        astm_d341
        """
        if kv_mm2_s <= 0.3:
            raise OutOfRangeError(quantity="kinematic viscosity", value=kv_mm2_s, low=0.3, unit="mm2/s", source="astm_d341")
        return 10.0 ** ((self.a - _loglog(kv_mm2_s)) / self.b) - self.zero_k


def walther_line(
    *, kv_low_mm2_s: float, temp_low_c: float, kv_high_mm2_s: float, temp_high_c: float, zero_k: float = CELSIUS_ZERO_K
) -> ViscosityLine:
    """Return the viscosity-temperature line through two measured points.

    Parameters
    ----------
    kv_low_mm2_s : float
        Kinematic viscosity at the lower temperature [mm2/s], at least 2.
    temp_low_c : float
        The lower temperature [C], usually 40.
    kv_high_mm2_s : float
        Kinematic viscosity at the higher temperature [mm2/s], at least 2 and below the first.
    temp_high_c : float
        The higher temperature [C], usually 100.
    zero_k : float
        The freezing point on the absolute scale [K]; 273.15, or 273 to repeat older published examples.

    Returns
    -------
    ViscosityLine
        The constants a and b of the line [-].

    Raises
    ------
    OutOfRangeError
        If a viscosity is below 2 mm2/s (the short form ends there).
    InputError
        If the temperatures do not rise or the viscosities do not fall.

    Notes
    -----
    ``lg lg(v + 0.7) = a - b lg T``. Departs from the source: the terms that matter only below 2 mm2/s are left out.

    References
    ----------
    astm_d341
    """
    for kv_mm2_s in (kv_low_mm2_s, kv_high_mm2_s):
        if not kv_mm2_s >= SHORT_FORM_FROM_MM2_S:
            raise OutOfRangeError(
                quantity="kinematic viscosity", value=kv_mm2_s, low=SHORT_FORM_FROM_MM2_S, unit="mm2/s", source="astm_d341"
            )
    if not (temp_low_c < temp_high_c and kv_low_mm2_s > kv_high_mm2_s):
        raise InputError("viscosity.points", found=(temp_low_c, kv_low_mm2_s, temp_high_c, kv_high_mm2_s))
    cold, hot = math.log10(temp_low_c + zero_k), math.log10(temp_high_c + zero_k)
    b = (_loglog(kv_low_mm2_s) - _loglog(kv_high_mm2_s)) / (hot - cold)
    return ViscosityLine(_loglog(kv_low_mm2_s) + b * cold, b, zero_k)


def viscosity_index(*, kv40_mm2_s: float, kv100_mm2_s: float) -> float:
    """Return the viscosity index, not rounded.

    Parameters
    ----------
    kv40_mm2_s : float
        Kinematic viscosity at 40 C [mm2/s].
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s], at least 2 and below `kv40_mm2_s`.

    Returns
    -------
    float
        Viscosity index [-]; the standard reports whole numbers.

    Raises
    ------
    OutOfRangeError
        If `kv100_mm2_s` is below 2, where the index is not defined.
    InputError
        If the oil is not thinner at 100 C than at 40 C.

    Notes
    -----
    Up to 100: ``100 (L - U)/(L - H)``; above: ``100 + (10^N - 1)/0.00715`` with ``N = lg(H/U)/lg Y``. L and H by linear
    interpolation of the table up to 70 mm2/s, by the two quadratics above. Departs from the source: it prints H to four
    digits, so that results may differ from its examples by 0.1 before rounding.

    References
    ----------
    astm_d2270, chemicals_library
    """
    if not kv100_mm2_s >= SHORT_FORM_FROM_MM2_S:
        raise OutOfRangeError(quantity="kinematic viscosity", value=kv100_mm2_s, low=2.0, unit="mm2/s", source="astm_d2270")
    if not kv40_mm2_s > kv100_mm2_s:
        raise InputError("viscosity.points", found=(40.0, kv40_mm2_s, 100.0, kv100_mm2_s))
    low, high = _basis(kv100_mm2_s)
    if kv40_mm2_s > high:
        return 100.0 * (low - kv40_mm2_s) / (low - high)
    power = math.log10(high / kv40_mm2_s) / math.log10(kv100_mm2_s)
    return 100.0 + (10.0**power - 1.0) / 0.00715


def _basis(kv100_mm2_s: float) -> tuple[float, float]:
    y = kv100_mm2_s
    if y > TABLE_TO_MM2_S:
        return (0.8353 * y + 14.67) * y - 216.0, (0.1684 * y + 11.85) * y - 97.0
    table = viscosity_index_basis()
    at = min(bisect_right(table, y, key=lambda row: row[0]), len(table) - 1)
    (y0, l0, h0), (y1, l1, h1) = table[at - 1], table[at]
    share = (y - y0) / (y1 - y0)
    return l0 + share * (l1 - l0), h0 + share * (h1 - h0)


def blend_viscosity_astm_d7152(*, kv_mm2_s: Sequence[float], volume_share: Sequence[float]) -> float:
    """Return the viscosity of a blend of oils at the temperature at which theirs were measured.

    Parameters
    ----------
    kv_mm2_s : sequence of float, shape (n,)
        Kinematic viscosity of each oil at one common temperature [mm2/s], above 0.3.
    volume_share : sequence of float, shape (n,)
        Volume of each oil, or its share of the whole [-]; not negative, not all zero.

    Returns
    -------
    float
        Kinematic viscosity of the blend [mm2/s].

    Raises
    ------
    OutOfRangeError
        If a viscosity is 0.3 mm2/s or less.
    InputError
        If the two sequences differ in length, a share is negative, or all are zero.

    Notes
    -----
    Mean of ``lg lg(v + 0.7)`` by volume. The standard says that it may not hold for strongly non-Newtonian liquids such as
    viscosity index improvers and additive packages: for engine oils show `BLEND_CAUTION`. Departs from
    the source: its worked figures were not seen, the rule is the common double logarithm.

    References
    ----------
    astm_d7152, astm_d341
    """
    total = math.fsum(volume_share)
    if len(kv_mm2_s) != len(volume_share) or not total > 0.0 or min(volume_share) < 0.0:
        raise InputError("viscosity.shares", found=tuple(volume_share))
    for kv in kv_mm2_s:
        if not kv > 0.3:
            raise OutOfRangeError(quantity="kinematic viscosity", value=kv, low=0.3, unit="mm2/s", source="astm_d7152")
    mean = math.fsum(share * _loglog(kv) for kv, share in zip(kv_mm2_s, volume_share, strict=True)) / total
    return 10.0**10.0**mean - 0.7
