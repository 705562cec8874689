"""What runs out of a sump while one waits, and what another wait still brings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from twomarks.trade.arrays import Reals, require_within
from twomarks.trade.drain_hole import Hole, head_after_m
from twomarks.trade.film import film_left_l

__all__ = ["DrainRow", "Left", "SumpDrain", "drain_curve", "left_after"]


@dataclass(frozen=True, slots=True)
class DrainRow:
    """One time of a drain curve: litres out so far, still in sump and on the walls, and what the next wait brings [L]."""

    time_min: float
    out_l: float
    sump_l: float
    walls_l: float
    next_l: float


@dataclass(frozen=True, slots=True)
class SumpDrain:
    """A sump that runs out through its hole: what stands above the hole, how deep, and the hole itself.

    `walls_m2` is the inside wetted by oil above the sump and `wall_height_m` how far oil runs down on it.
    """

    volume_l: float
    head_m: float
    hole: Hole
    walls_m2: float = 0.0
    wall_height_m: float = 0.3


@dataclass(frozen=True, slots=True)
class Left:
    """What has not come out yet: in the sump and on the walls [L]; arrays of shape (n,) for arrays of times."""

    sump_l: Any
    walls_l: Any

    @property
    def whole_l(self) -> Any:
        """Both together [L]."""
        return self.sump_l + self.walls_l


def left_after(sump: SumpDrain, *, time_min: Reals, kv_mm2_s: Reals, density_kg_m3: Reals, stopped_min: Reals = 5.0) -> Left:
    """Return what is left in sump and on walls at a time since the plug was out.

    Parameters
    ----------
    sump : SumpDrain
        The sump, its hole and the walls above it.
    time_min : float or ndarray, shape (n,)
        Time since the plug was taken out [min], not negative.
    kv_mm2_s : float or ndarray, shape (n,)
        Kinematic viscosity of the oil as it drains [mm2/s], above 0.
    density_kg_m3 : float or ndarray, shape (n,)
        Density of the oil as it drains [kg/m3], above 0.
    stopped_min : float or ndarray, shape (n,)
        How long the engine had stood when the plug came out [min], above 0; the film thins from then on.

    Returns
    -------
    Left
        Volumes [L]; what a wait brings is the difference of two times.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    The sump is taken as upright, so that its surface is volume over height. What runs off the walls meanwhile is taken to find
    its way out at once. The oil is taken to keep its warmth, which it does not: late times are too hopeful. Departs from the
    source: derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying, jeffreys_1930
    """
    require_within(sump.volume_l, quantity="volume", unit="L", source="orifice_emptying", above=0.0)
    require_within(sump.head_m, quantity="height", unit="m", source="orifice_emptying", above=0.0)
    require_within(time_min, quantity="time", unit="min", source="orifice_emptying", low=0.0)
    require_within(stopped_min, quantity="time", unit="min", source="jeffreys_1930", above=0.0)
    time_s: Any = 60.0 * time_min
    mpa_s: Any = kv_mm2_s * density_kg_m3 / 1000.0
    surface_m2 = sump.volume_l / 1000.0 / sump.head_m
    head_m: Any = head_after_m(sump.hole, surface_m2=surface_m2, head_m=sump.head_m, time_s=time_s, kv_mm2_s=kv_mm2_s)
    walls_l: Any = film_left_l(
        walls_m2=sump.walls_m2,
        dynamic_viscosity_mpa_s=mpa_s,
        density_kg_m3=density_kg_m3,
        wall_height_m=sump.wall_height_m,
        time_s=60.0 * stopped_min + time_s,
    )
    return Left(sump.volume_l * head_m / sump.head_m, walls_l)


def drain_curve(
    sump: SumpDrain,
    *,
    kv_mm2_s: float,
    density_kg_m3: float,
    times_min: Sequence[float],
    next_min: float = 10.0,
    stopped_min: float = 5.0,
) -> tuple[DrainRow, ...]:
    """Return what has run out at each of several times, and what waiting longer still brings.

    Parameters
    ----------
    sump : SumpDrain
        The sump with its hole and walls.
    kv_mm2_s : float
        Kinematic viscosity while it drains [mm2/s], above 0.
    density_kg_m3 : float
        Density while it drains [kg/m3], above 0.
    times_min : sequence of float, shape (n,)
        The times [min], none negative.
    next_min : float
        How much longer one might wait [min], above 0.
    stopped_min : float
        As for `left_after` [min], above 0.

    Returns
    -------
    tuple of DrainRow
        One a time: litres out of what was in the sump and on the walls when the plug came out, left in both, and still to come
        within `next_min`.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    By `left_after`, for which arrays of times are quicker. Departs from the source: derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying, jeffreys_1930
    """
    require_within(next_min, quantity="time", unit="min", source="jeffreys_1930", above=0.0)

    def left(time_min: float) -> Left:
        return left_after(sump, time_min=time_min, kv_mm2_s=kv_mm2_s, density_kg_m3=density_kg_m3, stopped_min=stopped_min)

    whole_l = left(0.0).whole_l
    rows = []
    for time_min in times_min:
        here, later = left(time_min), left(time_min + next_min)
        rows.append(DrainRow(time_min, whole_l - here.whole_l, here.sump_l, here.walls_l, here.whole_l - later.whole_l))
    return tuple(rows)
