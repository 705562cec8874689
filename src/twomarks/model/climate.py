"""The climate record (``twomarks/climate/1``): daily minima and maxima of a place, with the source of the data."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Annotated, Any

from pydantic import Field

from twomarks.errors import InputError
from twomarks.model.facts import Line, Name, Part, shown
from twomarks.model.vehicle import UUID

__all__ = ["ClimateDay", "ClimatePlace", "ClimateRecord", "climate_faults"]

FORMAT = "twomarks/climate/1"
HEADER = "date,tmin_c,tmax_c"
COLDEST_C, HOTTEST_C = -95.0, 65.0
"""Beyond what has been measured anywhere on the ground; from memory."""
MOST_ROWS_TOLD = 20
ClimateDay = tuple[dt.date, float, float]


class ClimatePlace(Part):
    """Where the record was taken."""

    latitude: Annotated[float, Field(ge=-90, le=90)]
    longitude: Annotated[float, Field(ge=-180, le=180)]
    zone: Line | None = None


class ClimateRecord(Part):
    """A daily record. `daily` is a table in text: a header line, then date, minimum and maximum [C] of each day."""

    format: Annotated[str, Field(pattern=r"^twomarks/climate/1(\.\d+)?$")]
    id: Annotated[str, Field(pattern=UUID)] | None = None
    name: Name
    source: Line
    licence: Line | None = None
    place: ClimatePlace
    daily: Annotated[str, Field(min_length=len(HEADER), max_length=8_000_000)]

    def days(self) -> tuple[ClimateDay, ...]:
        """Return the days of the record: date, minimum and maximum [C], in the order of the text."""
        return tuple(_day(line) for line in self.daily.strip().splitlines()[1:] if line.strip())


def _day(line: str) -> ClimateDay:
    day, low, high = line.split(",")
    return dt.date.fromisoformat(day.strip()), float(low), float(high)


def _credible(line: str, after: dt.date | None) -> ClimateDay | None:
    """Return what a row says of a day after the last, None where it says no such thing."""
    try:
        day, low, high = _day(line)
    except ValueError:
        return None
    inside = COLDEST_C <= low <= HOTTEST_C and COLDEST_C <= high <= HOTTEST_C
    return (day, low, high) if inside and (after is None or day > after) else None


def climate_faults(document: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    """Yield path and fault of the rows of the daily table that do not say a later day with its two temperatures.

    A day whose minimum lies above its maximum is what real records hold now and then; a table full of them has its
    columns the wrong way round.
    """
    daily = document.get("daily")
    if not isinstance(daily, str):
        return
    header, *lines = daily.strip().splitlines() or [""]
    if header.strip() != HEADER:
        yield ("daily",), InputError("model.climate_header", found=shown(header), expected=HEADER)
        return
    last: dt.date | None = None
    told = days = turned = 0
    for number, line in enumerate(lines, start=2):
        if not line.strip():
            continue
        row = _credible(line, last)
        if row is None:
            yield ("daily",), InputError("model.climate_row", row=number, found=shown(line), example="1996-01-31,-12.5,-3.1")
            told += 1
            if told == MOST_ROWS_TOLD:
                return
            continue
        last = row[0]
        days, turned = days + 1, turned + (row[1] > row[2])
    if turned > days / 2:
        yield ("daily",), InputError("model.climate_turned", found=turned, expected=HEADER)
    elif not days and not told:
        yield ("daily",), InputError("model.climate_row", row=2, found="", example="1996-01-31,-12.5,-3.1")
