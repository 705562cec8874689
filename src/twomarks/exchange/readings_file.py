"""Counter readings from any plain table of dates and readings."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field

from twomarks import units
from twomarks.errors import InputError
from twomarks.exchange.columns import column, day_order, decimal_mark, read_day, table
from twomarks.model.ledger import Reading
from twomarks.words import Message, say

__all__ = ["ReadingsFile", "read_readings"]

_DAYS = ("date", "day", "read_at", "when", "month", "time")
_READINGS = ("odometer", "reading", "mileage", "counter", "kilomet", "miles", "km", "hours")
_SUFFIXES = (
    ("_km", "km"),
    ("_miles", "mi"),
    ("_mi", "mi"),
    ("_m", "m"),
    ("(km)", "km"),
    ("(miles)", "mi"),
    ("(mi)", "mi"),
    ("_h", "h"),
    ("_hours", "h"),
)
PROGRESS_EVERY = 500


@dataclass(frozen=True, slots=True)
class ReadingsFile:
    """What a file of readings held: the readings, how many rows were blank, and the rows that say neither."""

    readings: tuple[Reading, ...]
    rows: int
    blank: int
    unit: str
    faults: tuple[Message, ...] = field(default=())


def read_readings(
    data: bytes,
    *,
    where: str,
    default_unit: str,
    unit: str | None = None,
    day_column: str | None = None,
    reading_column: str | None = None,
    only: tuple[str, str] | None = None,
    counter: str = "odometer",
    progress: Callable[[int, int], None] | None = None,
) -> ReadingsFile:
    """Return the readings of a delimited text file, nothing judged yet.

    Parameters
    ----------
    data : bytes
        The file.
    where : str
        Its name, for messages.
    default_unit : str
        Unit of the vehicle's counter, taken when neither `unit` nor the column's name tells one.
    unit, day_column, reading_column : str, optional
        What the owner said of the file; a column by its name, or by its number where there is no header.
    only : tuple of (column, value), optional
        Take only the rows in which that column holds that value (a file of several vehicles).
    progress : callable, optional
        Called with rows done and rows in all.
    """
    found = table(data, where=where)
    day_at = column(found.header, day_column, _DAYS, where=where, what="date", default=0)
    reading_at = column(found.header, reading_column, _READINGS, where=where, what="reading", default=1)
    rows = found.rows
    if only is not None:
        only_at = column(found.header, only[0], (), where=where, what="filter", default=0)
        rows = tuple(row for row in rows if only_at < len(row[1]) and row[1][only_at].strip() == only[1])
        if not rows:
            raise InputError("table.no_such_row", where=where, found=only[1], what=only[0])
    name = found.header[reading_at].casefold() if found.header else ""
    meant = (
        units.unit_of(unit, where="--unit").code
        if unit
        else next((code for ending, code in _SUFFIXES if name.endswith(ending)), default_unit)
    )
    kind = units.UNITS[meant].kind
    if kind not in ("distance", "duration", "volume"):
        raise InputError("units.kind", where=where, found=meant, expected="distance", example="km")
    order = day_order([cells[day_at] for _, cells in rows if day_at < len(cells)], where=where)
    mark = decimal_mark([cells[reading_at].strip() for _, cells in rows if reading_at < len(cells)])
    readings: list[Reading] = []
    faults: list[Message] = []
    blank = 0
    for index, (line, cells) in enumerate(rows):
        if progress is not None and index % PROGRESS_EVERY == 0:
            progress(index, len(rows))
        text = cells[reading_at].strip() if reading_at < len(cells) else ""
        if not text:
            blank += 1
            continue
        try:
            day, day_from, day_to = read_day(cells[day_at], order)
        except (ValueError, IndexError):
            faults.append(say("import.no_date", line=line, found=cells[day_at] if day_at < len(cells) else ""))
            continue
        try:
            amount = units.quantity(text, kind=kind, decimal=mark, default_unit=meant)
        except InputError:
            faults.append(say("import.no_reading", line=line, found=text))
            continue
        about = (day_from, day_to) if day_from != day_to else (None, None)
        readings.append(
            Reading(
                day=day,
                day_from=about[0],
                day_to=about[1],
                at=_moment(cells[day_at]),
                text=text,
                steps=amount.steps,
                counter=counter,
                kind=kind,
            )
        )
    if progress is not None:
        progress(len(rows), len(rows))
    if not readings:
        raise InputError("import.nothing", where=where, count=len(rows))
    return ReadingsFile(tuple(readings), len(rows), blank, meant, tuple(faults))


def _moment(cell: str) -> dt.datetime | None:
    text = cell.strip()
    if "T" not in text and ":" not in text:
        return None
    try:
        moment = dt.datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment.astimezone(dt.UTC) if moment.tzinfo else None
