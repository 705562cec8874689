"""The climate record (``twomarks/climate/1``): daily minima and maxima of a place, with the source of the data."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Annotated, Any

from pydantic import Field

from twomarks.errors import InputError
from twomarks.model.facts import Line, Name, Part
from twomarks.model.vehicle import UUID

__all__ = ["ClimateDay", "ClimatePlace", "ClimateRecord", "climate_faults"]

FORMAT = "twomarks/climate/1"
HEADER = "date,tmin_c,tmax_c"
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


def climate_faults(document: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    """Yield path and fault of the first row of the daily table that does not say a day with its two temperatures."""
    daily = document.get("daily")
    if not isinstance(daily, str):
        return
    header, *lines = daily.strip().splitlines() or [""]
    if header.strip() != HEADER:
        yield ("daily",), InputError("model.climate_header", found=header[:60], expected=HEADER)
        return
    for number, line in enumerate(lines, start=2):
        try:
            if line.strip():
                _day(line)
        except ValueError:
            yield ("daily",), InputError("model.climate_row", row=number, found=line[:60], example="1996-01-31,-12.5,-3.1")
            return
