"""Hours and fuel as counters: what idling, engine hours and fuel burned amount to in distance, as fleets state it, with its spread."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import Any, cast

from twomarks.reference.circuits import idle_hours
from twomarks.trade.arrays import Real, Reals, require, require_within

__all__ = ["Spread", "distance_by_fuel", "distance_by_hours", "fuel_use", "idle_distance"]

KM_PER_MILE = 1.609344
URBAN_MI_PER_H = 990.0 / 100.0
"""100 operating hours of urban patrol cars were about 990 miles."""
SERVICE_MI_PER_H = 30.0
"""A fleet that counts every engine hour as 30 miles of service (2291 hours as 68 730 miles)."""
USUAL_SPREAD_PERCENT = 10.0
"""How far the use of one vehicle wanders with season and load (judgement, no source)."""


@dataclass(frozen=True, slots=True)
class Spread:
    """A distance with the least and the most that the sources make of it [km], and their keys."""

    low_km: float
    usual_km: float
    high_km: float
    sources: tuple[str, ...]


def idle_distance(*, idle_h: float) -> Spread:
    """Return the driving that wears an engine as much as its idling, as fleets state it.

    Parameters
    ----------
    idle_h : float
        Hours that the engine idled [h], 0 to 100000.

    Returns
    -------
    Spread
        At 25, 30 and 33 miles per idle hour (40, 48 and 53 km).

    Raises
    ------
    OutOfRangeError
        If the hours are negative, beyond the range or not a number.

    Notes
    -----
    Three sources: 33, 30, and 25 to 30 miles; the usual one is the middle of the three. Range: engines of cars and vans. Departs from
    the source: none; it is a rule of fleets, no measurement.

    References
    ----------
    idle_police_fleet
    idle_fleet_newsletter
    idle_fleet_magazine
    """
    require_within(idle_h, quantity="idle hours", unit="h", source="idle_police_fleet", low=0.0, high=1e5)
    rows = idle_hours()
    usual = median((row.low_mi_per_idle_hour + row.high_mi_per_idle_hour) / 2.0 for row in rows)
    low, high = min(row.low_mi_per_idle_hour for row in rows), max(row.high_mi_per_idle_hour for row in rows)
    return _spread(idle_h, low, usual, high, tuple(row.seen.source for row in rows))


def distance_by_hours(*, engine_h: float, average_speed_kmh: float | None = None) -> Spread:
    """Return the distance that engine hours stand for.

    Parameters
    ----------
    engine_h : float
        Hours that the engine ran, idling and driving [h], 0 to 100000.
    average_speed_kmh : float or None
        The vehicle's own average over all its engine hours [km/h], above 0, at most 130; None where it is not known.

    Returns
    -------
    Spread
        With an average: that. Without: from what urban patrol cars showed on the odometer (9.9 miles an hour) to what a fleet counts
        for service (30 miles an hour).

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.

    Notes
    -----
    Hours times speed. Range: cars and vans; a vehicle of the motorway covers more. Departs from the source: the usual one is the
    middle of the two.

    References
    ----------
    idle_police_fleet
    idle_fleet_newsletter
    """
    require_within(engine_h, quantity="engine hours", unit="h", source="idle_police_fleet", low=0.0, high=1e5)
    if average_speed_kmh is not None:
        require_within(average_speed_kmh, quantity="speed", unit="km/h", source="idle_police_fleet", above=0.0, high=130.0)
        distance = engine_h * average_speed_kmh
        return Spread(distance, distance, distance, ("exact_units",))
    middle = (URBAN_MI_PER_H + SERVICE_MI_PER_H) / 2.0
    return _spread(engine_h, URBAN_MI_PER_H, middle, SERVICE_MI_PER_H, ("idle_police_fleet", "idle_fleet_newsletter"))


def distance_by_fuel(*, fuel_l: float, use_l_per_100km: float, spread_percent: float = USUAL_SPREAD_PERCENT) -> Spread:
    """Return the distance that fuel burned stands for; idling and hard work count by what they burn.

    Parameters
    ----------
    fuel_l : float
        Fuel burned [L], 0 to 1000000.
    use_l_per_100km : float
        Normal use of this vehicle [L/100 km], 0.5 to 100.
    spread_percent : float
        How far its use wanders to either side [%], 0 to 50.

    Returns
    -------
    Spread
        Distance at a higher, the normal and a lower use.

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.

    Notes
    -----
    ``litres / (litres per 100 km) x 100``. Range: the use of the vehicle itself, over a season. Departs from the source: the spread of
    10 % is judgement.

    References
    ----------
    fuel_based_service
    fuel_over_use
    house_judgement
    """
    require_within(fuel_l, quantity="fuel", unit="L", source="fuel_over_use", low=0.0, high=1e6)
    require_within(use_l_per_100km, quantity="fuel use", unit="L/100km", source="fuel_over_use", low=0.5, high=100.0)
    require_within(spread_percent, quantity="spread", unit="%", source="house_judgement", low=0.0, high=50.0)
    usual = fuel_l / use_l_per_100km * 100.0
    share = spread_percent / 100.0
    return Spread(usual / (1.0 + share), usual, usual / (1.0 - share), ("fuel_based_service", "fuel_over_use", "house_judgement"))


def fuel_use(*, fuel_l: Real, distance_km: Reals) -> Real:
    """Return the use of fuel over a distance.

    Parameters
    ----------
    fuel_l : float or ndarray, shape (n,)
        Fuel burned [L], not negative.
    distance_km : float or ndarray, shape (n,)
        Distance driven with it [km], above 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Use [L/100 km].

    Raises
    ------
    OutOfRangeError
        If the fuel is negative, the distance is not above 0, or either is not a number.
    InputError
        If a use above 1000 L/100 km comes out: then the two do not belong together.

    Notes
    -----
    ``100 L / km``. Range: up to 1000 L/100 km. Departs from the source: none.

    References
    ----------
    fuel_over_use
    """
    require_within(fuel_l, quantity="fuel", unit="L", source="fuel_over_use", low=0.0)
    require_within(distance_km, quantity="distance", unit="km", source="fuel_over_use", above=0.0)
    use: Any = 100.0 * fuel_l / distance_km
    require(use <= 1000.0, "counters.use", found=fuel_l, expected=distance_km)
    return cast("Real", use)


def _spread(hours: float, low: float, usual: float, high: float, sources: tuple[str, ...]) -> Spread:
    return Spread(hours * low * KM_PER_MILE, hours * usual * KM_PER_MILE, hours * high * KM_PER_MILE, sources)
