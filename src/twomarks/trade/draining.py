"""What runs out of a sump while one waits, and what another wait still brings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.trade.arrays import require_within
from twomarks.trade.drain_hole import Hole, head_after_m
from twomarks.trade.film import film_left_l

__all__ = ["DrainRow", "SumpDrain", "drain_curve"]


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


def drain_curve(
    sump: SumpDrain,
    *,
    kv_mm2_s: float,
    density_kg_m3: float,
    times_min: Sequence[float],
    next_min: float = 10.0,
    stopped_min: float = 5.0,
) -> tuple[DrainRow, ...]:
    """Return what has run out at each time since the plug was out, and what waiting longer still brings.

    Parameters
    ----------
    sump : SumpDrain
        The sump, its hole and the walls above it.
    kv_mm2_s : float
        Kinematic viscosity of the oil as it drains [mm2/s], above 0.
    density_kg_m3 : float
        Density of the oil as it drains [kg/m3], above 0.
    times_min : sequence of float, shape (n,)
        Times since the plug was taken out [min], not negative.
    next_min : float
        How much longer one might wait [min], above 0.
    stopped_min : float
        How long the engine had stood when the plug came out [min], above 0; the film thins from then on.

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
    The sump is taken as upright, so that its surface is volume over height. What runs off the walls meanwhile is taken to find
    its way out at once. The oil is taken to keep its warmth, which it does not: late times are too hopeful. Departs from the
    source: derived here.

    References
    ----------
    sampson_1891, short_hole_creeping, orifice_emptying, jeffreys_1930
    """
    require_within(sump.volume_l, quantity="volume", unit="L", source="orifice_emptying", above=0.0)
    require_within(sump.head_m, quantity="height", unit="m", source="orifice_emptying", above=0.0)
    require_within(next_min, quantity="time", unit="min", source="jeffreys_1930", above=0.0)
    require_within(stopped_min, quantity="time", unit="min", source="jeffreys_1930", above=0.0)

    def left(time_min: float) -> tuple[float, float]:
        head_m = head_after_m(
            sump.hole,
            surface_m2=sump.volume_l / 1000.0 / sump.head_m,
            head_m=sump.head_m,
            time_s=60.0 * time_min,
            kv_mm2_s=kv_mm2_s,
        )
        walls_l = film_left_l(
            walls_m2=sump.walls_m2,
            dynamic_viscosity_mpa_s=kv_mm2_s * density_kg_m3 / 1000.0,
            density_kg_m3=density_kg_m3,
            wall_height_m=sump.wall_height_m,
            time_s=60.0 * (stopped_min + time_min),
        )
        return sump.volume_l * head_m / sump.head_m, walls_l

    whole = sum(left(0.0))
    rows = []
    for time_min in times_min:
        sump_l, walls_l = left(time_min)
        here = sump_l + walls_l
        rows.append(DrainRow(time_min, whole - here, sump_l, walls_l, here - sum(left(time_min + next_min))))
    return tuple(rows)
