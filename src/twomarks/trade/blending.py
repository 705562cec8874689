"""Viscosity of a blend of oils, and how much of each reaches a target; what the rule does not vouch for goes with the answer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from twomarks.errors import OutOfRangeError
from twomarks.trade.arrays import Real, Reals, choose, is_array, maths_of, require, require_within
from twomarks.trade.viscosity import double_logarithm
from twomarks.words import Figure, Message, say

__all__ = [
    "Blend",
    "BlendShare",
    "Method",
    "blend_by_mass_astm_d7152",
    "blend_by_mass_refutas",
    "blend_by_volume_astm_d7152",
    "blending_number_refutas",
    "volume_share_for_target",
]

Method = Literal["double logarithm", "blending number"]

THIN_MM2_S = 2.0
"""Below this a component counts as a thin diluent, where the rules part."""


@dataclass(frozen=True, slots=True)
class Blend:
    """The viscosity of a blend [mm2/s], the rule it was worked out by, and the cautions that belong to it."""

    kv_mm2_s: Reals
    method: Method
    cautions: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class BlendShare:
    """The share of the first of two oils, by volume [-, 0 to 1], that gives a blend its target, and the cautions that belong to it."""

    first: Reals
    cautions: tuple[Message, ...]


def blend_by_volume_astm_d7152(*, kv_mm2_s: Sequence[Reals], volume_l: Sequence[Reals]) -> Blend:
    """Return the viscosity of a blend of oils at the temperature at which theirs were measured, by volume.

    Parameters
    ----------
    kv_mm2_s : sequence of float or ndarray, one per oil
        Kinematic viscosity of each oil at one common temperature [mm2/s], above 0.3.
    volume_l : sequence of float or ndarray, one per oil
        Volume of each oil [L], or its share of the whole: only ratios count; not negative, not all zero.

    Returns
    -------
    Blend
        Kinematic viscosity of the blend [mm2/s] at that temperature, with its cautions.

    Raises
    ------
    OutOfRangeError
        If a viscosity is 0.3 mm2/s or less, or a volume negative; with the index of the oil, or of the place in its array.
    InputError
        If the sequences differ in length, are empty, or all volumes are zero.

    Notes
    -----
    Mean of ``lg lg(v + 0.7)`` by volume. The standard says that it may not apply to strongly non-Newtonian liquids such as
    viscosity index improvers and additive packages: engine oils hold both, and the result says so. Departs from the source: its
    worked figures were not seen, the rule is the common double logarithm.

    References
    ----------
    astm_d7152, astm_d341
    """
    _require_oils(kv_mm2_s, volume_l, quantity="volume", unit="L", thinnest=0.3)
    return _by_double_logarithm(kv_mm2_s, volume_l)


def blend_by_mass_astm_d7152(*, kv_mm2_s: Sequence[Reals], mass_kg: Sequence[Reals], density_kg_m3: Sequence[Reals]) -> Blend:
    """Return the viscosity of a blend of oils that were weighed, their volumes by their densities.

    Parameters
    ----------
    kv_mm2_s : sequence of float or ndarray, one per oil
        Kinematic viscosity of each oil at one common temperature [mm2/s], above 0.3.
    mass_kg : sequence of float or ndarray, one per oil
        Mass of each oil [kg], or its share of the whole: only ratios count; not negative, not all zero.
    density_kg_m3 : sequence of float or ndarray, one per oil
        Density of each oil at one common temperature [kg/m3], above 0.

    Returns
    -------
    Blend
        Kinematic viscosity of the blend [mm2/s], with its cautions.

    Raises
    ------
    OutOfRangeError
        If a viscosity is 0.3 mm2/s or less, a mass negative, or a density not above 0.
    InputError
        If the sequences differ in length, are empty, or all masses are zero.

    Notes
    -----
    Volumes ``m / rho``, then as by volume. Departs from the source: its worked figures were not seen.

    References
    ----------
    astm_d7152, astm_d341
    """
    _require_oils(kv_mm2_s, mass_kg, quantity="mass", unit="kg", thinnest=0.3)
    require(len(density_kg_m3) == len(mass_kg), "viscosity.oils", oils=len(mass_kg), found=len(density_kg_m3))
    _require_each(density_kg_m3, quantity="density", unit="kg/m3", above=0.0)
    return _by_double_logarithm(kv_mm2_s, [mass / density for mass, density in zip(mass_kg, density_kg_m3, strict=True)])


def blend_by_mass_refutas(*, kv_mm2_s: Sequence[Reals], mass_kg: Sequence[Reals]) -> Blend:
    """Return the viscosity of a blend of oils that were weighed, by their blending numbers.

    Parameters
    ----------
    kv_mm2_s : sequence of float or ndarray, one per oil
        Kinematic viscosity of each oil at one common temperature [mm2/s], above 0.2.
    mass_kg : sequence of float or ndarray, one per oil
        Mass of each oil [kg], or its share of the whole: only ratios count; not negative, not all zero.

    Returns
    -------
    Blend
        Kinematic viscosity of the blend [mm2/s], with its cautions.

    Raises
    ------
    OutOfRangeError
        If a viscosity is 0.2 mm2/s or less, or a mass negative.
    InputError
        If the sequences differ in length, are empty, or all masses are zero.

    Notes
    -----
    Mean of ``14.534 ln ln(v + 0.8) + 10.975`` by mass. Pages that quote the rule disagree on mass or volume; the textbook that
    they quote says mass. Within 0.4 % of the double logarithm for oils that are alike, within 2 % with a thin diluent.
    Departs from the source: none; the textbook itself was not seen.

    References
    ----------
    refutas_maples
    """
    _require_oils(kv_mm2_s, mass_kg, quantity="mass", unit="kg", thinnest=0.2)
    mean = _mean([_number(kv) for kv in kv_mm2_s], mass_kg)
    m = maths_of(mean)
    kv: Any = m.exp(m.exp((mean - 10.975) / 14.534)) - 0.8
    return Blend(kv, "blending number", _cautions(kv_mm2_s))


def blending_number_refutas(*, kv_mm2_s: Real) -> Real:
    """Return the number that averages by mass where viscosities do not.

    Parameters
    ----------
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity [mm2/s], above 0.2.

    Returns
    -------
    float or ndarray, shape (n,)
        Viscosity blending number [-].

    Raises
    ------
    OutOfRangeError
        If `kv_mm2_s` is 0.2 or less.

    Notes
    -----
    ``14.534 ln ln(v + 0.8) + 10.975``. Departs from the source: none.

    References
    ----------
    refutas_maples
    """
    require_within(kv_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="refutas_maples", above=0.2)
    number: Real = _number(kv_mm2_s)
    return number


def volume_share_for_target(*, kv_first_mm2_s: Reals, kv_second_mm2_s: Reals, kv_target_mm2_s: Reals) -> BlendShare:
    """Return which share of the first of two oils gives their blend a target viscosity.

    Parameters
    ----------
    kv_first_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the first oil [mm2/s], above 0.3.
    kv_second_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the second at the same temperature [mm2/s], above 0.3, not equal to the first.
    kv_target_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity wanted at that temperature [mm2/s], from the thinner to the thicker of the two.

    Returns
    -------
    BlendShare
        Share of the first oil by volume [-, 0 to 1], with the cautions of a blend.

    Raises
    ------
    OutOfRangeError
        If a viscosity is 0.3 mm2/s or less.
    InputError
        If the target lies outside both oils, or the two are equal; of an array with the first offending index.

    Notes
    -----
    The blend by volume solved for the share. Departs from the source: as the blend by volume.

    References
    ----------
    astm_d7152, astm_d341
    """
    _require_each((kv_first_mm2_s, kv_second_mm2_s, kv_target_mm2_s), quantity="kinematic viscosity", unit="mm2/s", above=0.3)
    first, second, target = (double_logarithm(kv) for kv in (kv_first_mm2_s, kv_second_mm2_s, kv_target_mm2_s))
    found = {"target": kv_target_mm2_s, "first": kv_first_mm2_s, "second": kv_second_mm2_s}
    require(first != second, "viscosity.oils_alike", **found)
    require((kv_target_mm2_s - kv_first_mm2_s) * (kv_target_mm2_s - kv_second_mm2_s) <= 0.0, "viscosity.target", **found)
    share = (target - second) / (first - second)
    # A target at one of the oils may come out a rounding error beyond it.
    share = choose(share < 0.0, 0.0, choose(share > 1.0, 1.0, share))
    return BlendShare(share, _cautions((kv_first_mm2_s, kv_second_mm2_s)))


def _number(kv_mm2_s: Any) -> Any:
    m = maths_of(kv_mm2_s)
    return 14.534 * m.log(m.log(kv_mm2_s + 0.8)) + 10.975


def _by_double_logarithm(kv_mm2_s: Sequence[Reals], volume: Sequence[Reals]) -> Blend:
    mean = _mean([double_logarithm(kv) for kv in kv_mm2_s], volume)
    return Blend(10.0**10.0**mean - 0.7, "double logarithm", _cautions(kv_mm2_s))


def _mean(values: Sequence[Any], weights: Sequence[Any]) -> Any:
    return _sum([value * weight for value, weight in zip(values, weights, strict=True)]) / _sum(weights)


def _sum(values: Sequence[Any]) -> Any:
    """Return a sum that does not depend on the order of numbers."""
    return sum(values) if is_array(*values) else math.fsum(values)


def _cautions(kv_mm2_s: Sequence[Any]) -> tuple[Message, ...]:
    found = [say("viscosity.blend_caution")]
    if any(kv.size and kv.min() < THIN_MM2_S if is_array(kv) else kv < THIN_MM2_S for kv in kv_mm2_s):
        found.append(say("viscosity.blend_thin", limit=Figure(THIN_MM2_S, "mm2/s")))
    return tuple(found)


def _require_oils(kv_mm2_s: Sequence[Reals], amounts: Sequence[Reals], *, quantity: str, unit: str, thinnest: float) -> None:
    require(0 < len(kv_mm2_s) == len(amounts), "viscosity.oils", oils=len(kv_mm2_s), found=len(amounts))
    _require_each(kv_mm2_s, quantity="kinematic viscosity", unit="mm2/s", above=thinnest)
    _require_each(amounts, quantity=quantity, unit=unit, low=0.0)
    require(_sum(amounts) > 0.0, "viscosity.nothing_to_blend")


def _require_each(values: Sequence[Reals], *, quantity: str, unit: str, low: float | None = None, above: float | None = None) -> None:
    for place, value in enumerate(values):
        try:
            require_within(value, quantity=quantity, unit=unit, source="astm_d7152", low=low, above=above)
        except OutOfRangeError as refused:
            refused.values.setdefault("index", place)
            raise
