"""The viscosity index: how little an oil thins as it warms, on the scale of two reference oils."""

from __future__ import annotations

from functools import cache
from typing import Any, cast

from twomarks.reference.tables import viscosity_index_basis
from twomarks.trade.arrays import Real, Reals, choose, interpolate, maths_of, require, require_within

__all__ = ["kv40_of_index", "viscosity_index"]

DEFINED_FROM_MM2_S = 2.0
TABLE_TO_MM2_S = 70.0
SPREAD = 0.00715


def viscosity_index(*, kv40_mm2_s: Real, kv100_mm2_s: Reals) -> Real:
    """Return the viscosity index, not rounded.

    Parameters
    ----------
    kv40_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at 40 C [mm2/s], above `kv100_mm2_s`.
    kv100_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at 100 C [mm2/s], at least 2.

    Returns
    -------
    float or ndarray, shape (n,)
        Viscosity index [-]; the standard reports whole numbers.

    Raises
    ------
    OutOfRangeError
        If `kv100_mm2_s` is below 2, where the index is not defined.
    InputError
        If the oil is not thinner at 100 C than at 40 C; of an array with the first offending index.

    Notes
    -----
    Up to 100: ``100 (L - U)/(L - H)``; above: ``100 + (10^N - 1)/0.00715`` with ``N = lg(H/U)/lg Y``. L and H by linear
    interpolation of the table up to 70 mm2/s, by the two quadratics above. Departs from the source: it prints H to four
    digits, so that results may differ from its examples by 0.1 before rounding.

    References
    ----------
    astm_d2270, chemicals_library
    """
    low, high = _basis(kv100_mm2_s)
    require_within(kv40_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="astm_d2270", above=0.0)
    require(kv40_mm2_s > kv100_mm2_s, "viscosity.points", temp_low=40.0, kv_low=kv40_mm2_s, temp_high=100.0, kv_high=kv100_mm2_s)
    m = maths_of(kv40_mm2_s, kv100_mm2_s)
    thin: Any = kv100_mm2_s
    power: Any = m.log10(high / kv40_mm2_s) / m.log10(thin)
    by_ratio = 100.0 * (low - kv40_mm2_s) / (low - high)
    return cast("Real", choose(kv40_mm2_s > high, by_ratio, 100.0 + (10.0**power - 1.0) / SPREAD))


def kv40_of_index(*, index: Real, kv100_mm2_s: Reals) -> Real:
    """Return the viscosity at 40 C of an oil whose data sheet gives its index and its viscosity at 100 C.

    Parameters
    ----------
    index : float or ndarray, shape (n,)
        Viscosity index [-], -300 to 500.
    kv100_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at 100 C [mm2/s], at least 2.

    Returns
    -------
    float or ndarray, shape (n,)
        Kinematic viscosity at 40 C [mm2/s].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    The two procedures solved for U. A sheet rounds the index to a whole number, which leaves 0.3 to 1 % in the answer. The
    range of the index is this project's judgement. Departs from the source: none, it is the same relation read backwards.

    References
    ----------
    astm_d2270, chemicals_library, house_judgement
    """
    low, high = _basis(kv100_mm2_s)
    require_within(index, quantity="viscosity index", source="astm_d2270", low=-300.0, high=500.0)
    m = maths_of(index, kv100_mm2_s)
    thin: Any = kv100_mm2_s
    above_100: Any = choose(index > 100.0, index - 100.0, 0.0)
    by_power = high * 10.0 ** (-m.log10(1.0 + SPREAD * above_100) * m.log10(thin))
    kv40: Any = choose(index < 100.0, low - index / 100.0 * (low - high), by_power)
    return cast("Real", kv40)


def _basis(kv100_mm2_s: Reals) -> tuple[Any, Any]:
    """Return L and H, the viscosities at 40 C of the two reference oils that are alike at 100 C."""
    require_within(kv100_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="astm_d2270", low=DEFINED_FROM_MM2_S)
    y: Any = kv100_mm2_s
    at, low, high = _columns()
    in_table = y <= TABLE_TO_MM2_S
    by_table = (interpolate(y, at, low), interpolate(y, at, high))
    return (
        choose(in_table, by_table[0], (0.8353 * y + 14.67) * y - 216.0),
        choose(in_table, by_table[1], (0.1684 * y + 11.85) * y - 97.0),
    )


@cache
def _columns() -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    at, low, high = zip(*viscosity_index_basis(), strict=True)
    return at, low, high
