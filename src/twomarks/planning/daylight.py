"""Sunrise and sunset at a place, to say by when the last plug must be tight again."""

from __future__ import annotations

import datetime as dt
import math

from twomarks.errors import OutOfRangeError

__all__ = ["Daylight", "daylight"]

Daylight = tuple[float, float]
"""Sunrise and sunset [min after midnight, UTC]; sunset may lie past 1440, sunrise before 0."""

ZENITH_DEG = 90.833
"""The sun's centre at sunrise: its half width and the bending of light at the horizon together make 0.833 degrees."""


def daylight(day: dt.date, *, latitude_deg: float, longitude_deg: float) -> Daylight | None:
    """Return sunrise and sunset in minutes after midnight UTC, None where the sun neither rises nor sets that day.

    The short formula of NOAA's solar calculator (fractional year, equation of time, declination; after Spencer, 1971);
    good to about two minutes below 60 degrees of latitude. Written down from memory, tested against printed times.
    """
    if not -90.0 <= latitude_deg <= 90.0:
        raise OutOfRangeError(quantity="latitude_deg", value=latitude_deg, low=-90.0, high=90.0, unit="deg")
    turn = 2.0 * math.pi / 365.0 * (day.timetuple().tm_yday - 1)
    equation_min = 229.18 * (
        0.000075 + 0.001868 * math.cos(turn) - 0.032077 * math.sin(turn) - 0.014615 * math.cos(2 * turn) - 0.040849 * math.sin(2 * turn)
    )
    declination = (
        0.006918
        - 0.399912 * math.cos(turn)
        + 0.070257 * math.sin(turn)
        - 0.006758 * math.cos(2 * turn)
        + 0.000907 * math.sin(2 * turn)
        - 0.002697 * math.cos(3 * turn)
        + 0.00148 * math.sin(3 * turn)
    )
    latitude = math.radians(latitude_deg)
    cosine = math.cos(math.radians(ZENITH_DEG)) / (math.cos(latitude) * math.cos(declination)) - math.tan(latitude) * math.tan(declination)
    if not -1.0 <= cosine <= 1.0:
        return None
    half_min = 4.0 * math.degrees(math.acos(cosine))
    noon_min = 720.0 - 4.0 * longitude_deg - equation_min
    return noon_min - half_min, noon_min + half_min
