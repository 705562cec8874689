"""How fast oil runs out through a round hole, thin and hot or thick and cold, and how long a sump takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, is_array, maths_of, require, require_within

__all__ = ["Hole", "discharge_coefficient", "head_after_m", "hole_velocity_m_s", "orifice_drain_s", "viscous_drain_s"]

GRAVITY_M_S2 = 9.80665
SHARP_EDGED = 0.62
POISEUILLE = 32.0
"""Resistance of the length of a round hole: 32 mu L v / d^2."""
SAMPSON = 6.0 * math.pi
"""Resistance of the two ends of a round hole: 6 pi mu v / d."""
HOLE, EMPTYING = "short_hole_creeping", "orifice_emptying"
LEAST_MM2_S = 1e-6
NEWTON_STEPS = 60


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole: its diameter above 0 [mm], its length, the wall with its boss [mm], and how it lets a thin liquid through [-].

    Each may be an array that broadcasts with the others of a call.
    """

    diameter_mm: Reals
    length_mm: Reals
    thin: Reals = SHARP_EDGED


def orifice_drain_s(
    *, surface_m2: Reals, hole_m2: Reals, head_m: Real, head_left_m: Reals = 0.0, discharge_coefficient: Reals = SHARP_EDGED
) -> Real:
    """Return how long an upright vessel takes to run out through a hole, the liquid being thin.

    Parameters
    ----------
    surface_m2 : float or ndarray, shape (n,)
        Area of the free surface [m2], above 0.
    hole_m2 : float or ndarray, shape (n,)
        Area of the hole [m2], above 0.
    head_m : float or ndarray, shape (n,)
        Height of the surface above the hole at the start [m], not negative.
    head_left_m : float or ndarray, shape (n,)
        Height at the end [m], from 0 to `head_m`.
    discharge_coefficient : float or ndarray, shape (n,)
        Share of the ideal flow that a sharp-edged hole lets through [-], above 0 to 1.

    Returns
    -------
    float or ndarray, shape (n,)
        Time [s].

    Raises
    ------
    OutOfRangeError
        If an area or the coefficient is not above 0, a height is negative, or the coefficient is above 1.
    InputError
        If the height at the end is above that at the start.

    Notes
    -----
    ``t = 2 A (sqrt(H1) - sqrt(H2)) / (Cd a sqrt(2 g))``. For thin, hot oil; cold oil is held back by its viscosity, see
    `viscous_drain_s`. Departs from the source: none.

    References
    ----------
    orifice_emptying
    """
    require_within(surface_m2, quantity="area", unit="m2", source=EMPTYING, above=0.0)
    require_within(hole_m2, quantity="area", unit="m2", source=EMPTYING, above=0.0)
    require_within(discharge_coefficient, quantity="coefficient", source=EMPTYING, above=0.0, high=1.0)
    _require_heads(head_m, head_left_m, lowest=0.0)
    m: Any = maths_of(head_m, head_left_m)
    slowness = 2.0 * surface_m2 / (discharge_coefficient * hole_m2 * math.sqrt(2.0 * GRAVITY_M_S2))
    return cast("Real", slowness * (m.sqrt(head_m) - m.sqrt(head_left_m)))


def _require_heads(head_m: Reals, head_left_m: Reals, *, lowest: float) -> None:
    require_within(head_m, quantity="height", unit="m", source=EMPTYING, low=0.0)
    require_within(head_left_m, quantity="height", unit="m", source=EMPTYING, low=lowest)
    heads: Any = head_m
    many = is_array(head_m) and not is_array(head_left_m)
    # One height at the end for many at the start: the lowest start decides, without a comparison of each.
    if many and (not heads.size or float(heads.min()) >= cast("float", head_left_m)):
        return
    require(head_left_m <= heads, "draining.heads", found=head_left_m, expected=head_m)


def _losses(hole: Hole, kv_mm2_s: Reals) -> tuple[Any, Any]:
    """Return `square` and `line` of the head that drives a speed through the hole: ``h = square v^2 + line v``."""
    require_within(hole.diameter_mm, quantity="diameter", unit="mm", source=HOLE, above=0.0)
    require_within(hole.length_mm, quantity="length", unit="mm", source=HOLE, low=0.0)
    require_within(hole.thin, quantity="coefficient", source=EMPTYING, above=0.0, high=1.0)
    require_within(kv_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source=HOLE, low=LEAST_MM2_S)
    shape = POISEUILLE * hole.length_mm / hole.diameter_mm + SAMPSON
    line = shape * (kv_mm2_s * 1e-6) / (hole.diameter_mm * 1e-3) / GRAVITY_M_S2
    return 1.0 / (2.0 * GRAVITY_M_S2 * hole.thin * hole.thin), line


def _section_m2(hole: Hole) -> Any:
    return math.pi / 4.0 * (hole.diameter_mm * 1e-3) ** 2


def _velocity(head_m: Any, square: Any, line: Any) -> Any:
    """Return the speed that a head drives; written so that neither limit loses digits."""
    root = maths_of(head_m, square, line).sqrt(line * line + 4.0 * square * head_m)
    return 2.0 * head_m / (line + root)


def hole_velocity_m_s(hole: Hole, *, head_m: Real, kv_mm2_s: Reals) -> Real:
    """Return the mean speed of oil through a short round hole under a head.

    Parameters
    ----------
    hole : Hole
        The hole.
    head_m : float or ndarray, shape (n,)
        Height of the surface above the hole [m], above 0.
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity at the oil's temperature [mm2/s], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Speed over the whole section of the hole [m/s].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    ``g h = v^2 / (2 Cd^2) + (32 L/d + 6 pi) nu v / d``: the loss of a thin liquid, and the exact loss of creeping flow through
    the length (Poiseuille) and the two ends (Sampson) of a round hole. Both limits are known; between them, at Reynolds numbers
    from some 5 to 500, the sum is an interpolation whose error is not known. Departs from the source: the sum is derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying
    """
    require_within(head_m, quantity="height", unit="m", source=EMPTYING, above=0.0)
    return cast("Real", _velocity(head_m, *_losses(hole, kv_mm2_s)))


def discharge_coefficient(*, reynolds: Real, length_ratio: Reals = 0.0, thin: Reals = SHARP_EDGED) -> Real:
    """Return the discharge coefficient of a short round hole, which falls as the flow turns viscous.

    Parameters
    ----------
    reynolds : float or ndarray, shape (n,)
        Reynolds number of the ideal speed and the diameter, ``sqrt(2 g h) d / nu`` [-], above 0.
    length_ratio : float or ndarray, shape (n,)
        Length of the hole over its diameter [-], not negative.
    thin : float or ndarray, shape (n,)
        The coefficient of a thin liquid [-], above 0 to 1.

    Returns
    -------
    float or ndarray, shape (n,)
        Share of the ideal flow [-], rising from 0 to `thin`.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    From ``Cd^2 / thin^2 + 2 (32 L/d + 6 pi) Cd / Re = 1``, the loss of `hole_velocity_m_s` over the ideal speed. Departs from
    the source: derived here, as there.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying
    """
    require_within(reynolds, quantity="reynolds number", source=HOLE, above=0.0)
    require_within(length_ratio, quantity="length ratio", source=HOLE, low=0.0)
    require_within(thin, quantity="coefficient", source=EMPTYING, above=0.0, high=1.0)
    half: Any = (POISEUILLE * length_ratio + SAMPSON) / reynolds
    m: Any = maths_of(half, thin)
    return cast("Real", 1.0 / (half + m.sqrt(half * half + 1.0 / (thin * thin))))


def viscous_drain_s(
    hole: Hole,
    *,
    surface_m2: Reals,
    head_m: Real,
    head_left_m: Reals,
    kv_mm2_s: Reals,
) -> Real:
    """Return how long an upright sump takes to run down through its hole, the oil's viscosity counted.

    Parameters
    ----------
    hole : Hole
        The drain hole.
    surface_m2 : float or ndarray, shape (n,)
        Area of the free surface [m2], above 0.
    head_m : float or ndarray, shape (n,)
        Height of the surface above the hole at the start [m], above 0.
    head_left_m : float or ndarray, shape (n,)
        Height at the end [m], above 0 to `head_m`; a viscous liquid never runs out wholly, it drips.
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the oil as it runs [mm2/s], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Time [s].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If the height at the end is above that at the start.

    Notes
    -----
    With ``h = p v^2 + q v`` the surface falls by ``A dh = -a v dt``, hence ``t = (A/a) (2 p (v1 - v2) + q ln(v1 / v2))``, in
    closed form. The oil is taken not to cool while it runs. Departs from the source: derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying
    """
    require_within(surface_m2, quantity="area", unit="m2", source=EMPTYING, above=0.0)
    _require_heads(head_m, head_left_m, lowest=1e-9)
    square, line = _losses(hole, kv_mm2_s)
    first, last = _velocity(head_m, square, line), _velocity(head_left_m, square, line)
    m: Any = maths_of(first, last)
    slowed = 2.0 * square * (first - last) + line * m.log(first / last)
    return cast("Real", surface_m2 / _section_m2(hole) * slowed)


def head_after_m(
    hole: Hole,
    *,
    surface_m2: Reals,
    head_m: Reals,
    time_s: Real,
    kv_mm2_s: Reals,
) -> Real:
    """Return how high oil still stands above the hole after a time; the other way round of `viscous_drain_s`.

    Parameters
    ----------
    hole : Hole
        The hole that stands open.
    surface_m2 : float or ndarray, shape (n,)
        Area of the surface [m2], above 0.
    head_m : float or ndarray, shape (n,)
        Height above the hole when it was opened [m], above 0.
    time_s : float or ndarray, shape (n,)
        Time since then [s], not negative.
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity meanwhile [mm2/s], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Height left [m].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    Solved for ``u = ln(v / v1)`` by Newton's steps on ``2 p v1 (1 - e^u) - q u = a t / A``, whose left side is concave and falls,
    so that the steps from 0 come down to the root and do not pass it. Departs from the source: derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying
    """
    require_within(surface_m2, quantity="area", unit="m2", source=EMPTYING, above=0.0)
    require_within(head_m, quantity="height", unit="m", source=EMPTYING, above=0.0)
    require_within(time_s, quantity="time", unit="s", source=EMPTYING, low=0.0)
    square, line = _losses(hole, kv_mm2_s)
    first = _velocity(head_m, square, line)
    fallen: Any = _section_m2(hole) / surface_m2 * time_s
    thin = 2.0 * square * first
    m: Any = maths_of(fallen, thin, line)
    u = 0.0 * (fallen + thin + line)
    for _ in range(NEWTON_STEPS):
        grown = m.exp(u)
        u = u + (thin * (1.0 - grown) - line * u - fallen) / (thin * grown + line)
    speed = first * m.exp(u)
    return cast("Real", square * speed * speed + line * speed)
