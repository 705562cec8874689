"""What still clings to the walls when a vessel has been emptied."""

from __future__ import annotations

from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, maths_of, require_within
from twomarks.trade.drain_hole import GRAVITY_M_S2

__all__ = ["film_left_l", "film_mean_mm"]

FILM = "jeffreys_1930"


def film_mean_mm(*, dynamic_viscosity_mpa_s: Real, density_kg_m3: Reals, wall_height_m: Reals, time_s: Reals) -> Real:
    """Return the mean thickness of the oil film that still clings to an upright wall.

    Parameters
    ----------
    dynamic_viscosity_mpa_s : float or ndarray, shape (n,)
        Dynamic viscosity at the oil's temperature [mPa.s], above 0.
    density_kg_m3 : float or ndarray, shape (n,)
        Density at the oil's temperature [kg/m3], above 0.
    wall_height_m : float or ndarray, shape (n,)
        Height of the wall [m], above 0.
    time_s : float or ndarray, shape (n,)
        Time since the wall was left by the liquid [s], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
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
    require_within(dynamic_viscosity_mpa_s, quantity="dynamic viscosity", unit="mPa.s", source=FILM, above=0.0)
    require_within(density_kg_m3, quantity="density", unit="kg/m3", source=FILM, above=0.0)
    require_within(wall_height_m, quantity="height", unit="m", source=FILM, above=0.0)
    require_within(time_s, quantity="time", unit="s", source=FILM, above=0.0)
    squared: Any = dynamic_viscosity_mpa_s / 1000.0 * wall_height_m / (density_kg_m3 * GRAVITY_M_S2 * time_s)
    return cast("Real", 2000.0 / 3.0 * maths_of(squared).sqrt(squared))


def film_left_l(*, walls_m2: Reals, dynamic_viscosity_mpa_s: Real, density_kg_m3: Reals, wall_height_m: Reals, time_s: Reals) -> Real:
    """Return the volume of oil that still clings to the upright walls inside an engine.

    Parameters
    ----------
    walls_m2 : float or ndarray, shape (n,)
        Area of the wetted walls [m2], not negative.
    dynamic_viscosity_mpa_s : float or ndarray, shape (n,)
        Dynamic viscosity of the film [mPa.s], above 0.
    density_kg_m3 : float or ndarray, shape (n,)
        Density of the film [kg/m3], above 0.
    wall_height_m : float or ndarray, shape (n,)
        How far oil runs down on them [m], above 0.
    time_s : float or ndarray, shape (n,)
        Time since the engine stopped [s], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume [L].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    Area times the mean film. What waiting brings is the difference of two times: ten times the wait leaves a third. Departs
    from the source: as for `film_mean_mm`; pockets, galleries and the filter hold oil that no film formula counts.

    References
    ----------
    jeffreys_1930
    """
    require_within(walls_m2, quantity="area", unit="m2", source=FILM, low=0.0)
    mean_mm: Any = film_mean_mm(
        dynamic_viscosity_mpa_s=dynamic_viscosity_mpa_s, density_kg_m3=density_kg_m3, wall_height_m=wall_height_m, time_s=time_s
    )
    return cast("Real", walls_m2 * mean_mm)
