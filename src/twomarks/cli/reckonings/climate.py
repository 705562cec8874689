"""The coldest start and the hottest day to reckon with, from a daily record in a file."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import DocumentError, InputError
from twomarks.words import Figure, Message, Value, say

if TYPE_CHECKING:
    from twomarks.trade.climate import DesignTemperature
    from twomarks.trade.daily_record import DailyRecord

__all__ = ["CALCULATIONS"]

FORMAT = "twomarks/climate/"
NO_VALUE = frozenset({"", "-", "--", "na", "n/a", "nan", "null", "none"})
DAYS, MINIMA, MAXIMA = ("date", "day"), ("tmin", "min"), ("tmax", "max")
MOST_FAULTS = 20
ONE_YEAR = dt.timedelta(days=364)
EXTREME_SOURCES, SOURCES = ("coles_2001", "hosking_1985"), ("house_judgement",)
CONFIDENCE = 95.0

Columns = tuple[list[dt.date], list[float], list[float]]


def _climate(given: Given) -> Reckoned:
    """Answer with both temperatures for the days until the next change."""
    from twomarks.trade.climate import coldest_start, hottest_day, is_southern
    from twomarks.trade.daily_record import daily_record

    where = given.where("record")
    (days, minima, maxima), southern = _columns(given.text("record"), where)
    record = daily_record(days=days, minima_c=minima, maxima_c=maxima)
    if given.has("hemisphere"):
        southern = given.text("hemisphere") == "south"
    by_record = southern is None
    if southern is None:
        southern = is_southern(record=record)
    from_day = given.day("from") or given.on
    to_day = given.day("to") or min(from_day, dt.date.max - ONE_YEAR) + ONE_YEAR
    years = given.number("years")
    cold, hot = (
        extreme(record=record, from_day=from_day, to_day=to_day, once_in_years=years, southern=southern)
        for extreme in (coldest_start, hottest_day)
    )
    hemisphere = say("reckon_climate.south" if southern else "reckon_climate.north")
    lines = [
        say("reckon_climate.period", first=from_day, last=to_day, days=len(record.days), from_day=record.days[0], to_day=record.days[-1]),
        say("reckon_climate.by_record" if by_record else "reckon_climate.hemisphere", hemisphere=hemisphere),
        _line("cold", cold),
        _line("hot", hot),
        *dict.fromkeys((*cold.flags, *hot.flags)),
    ]
    is_extreme = "extreme values" in (cold.method, hot.method)
    sources = (*EXTREME_SOURCES, *SOURCES) if is_extreme else SOURCES
    return Reckoned(tuple(lines), _results(record, cold, hot, southern=southern), sources, (say("reckon_climate.handbook"),))


def _line(way: str, found: DesignTemperature) -> Message:
    figures: dict[str, Value] = {
        "value": Figure(found.value_c, "C"),
        "low": Figure(found.low_c, "C"),
        "high": Figure(found.high_c, "C"),
        "seasons": found.winters,
        "record": None if found.record_c is None else Figure(found.record_c, "C"),
        "record_day": found.record_day,
    }
    if found.method == "extreme values":
        return say(f"reckon_climate.{way}_extreme", years=found.once_in_years, confidence=Figure(CONFIDENCE, "%"), **figures)
    return say(f"reckon_climate.{way}_percentile", share=Figure(found.share_percent or 0.0, "%"), **figures)


def _results(record: DailyRecord, cold: DesignTemperature, hot: DesignTemperature, *, southern: bool) -> dict[str, Any]:
    results: dict[str, Any] = {"southern": southern, "days_used": len(record.days)}
    for name, found in (("coldest_start", cold), ("hottest_day", hot)):
        results |= {
            f"{name}_c": found.value_c,
            f"{name}_low_c": found.low_c,
            f"{name}_high_c": found.high_c,
            f"{name}_method": found.method,
            f"{name}_seasons": found.winters,
            f"{name}_once_in_years": found.once_in_years if found.method == "extreme values" else None,
            f"{name}_record_c": found.record_c,
            f"{name}_record_day": found.record_day.isoformat() if found.record_day else None,
        }
    return results | {"faults": [_fault(flag) for flag in record.faults]}


def _fault(flag: Message) -> dict[str, Any]:
    first = flag.figures["first"]
    return {"what": flag.key.partition(".")[2], "count": flag.figures["count"], "first_day": str(first)}


def _columns(text: str, where: str) -> tuple[Columns, bool | None]:
    """Return days, minima and maxima of a climate document or of a plain table, and the hemisphere where the file tells it."""
    if FORMAT in text.partition("date,")[0]:
        from twomarks.model.climate import ClimateRecord
        from twomarks.model.loading import load_as

        document = load_as(ClimateRecord, text, where=where)
        days, minima, maxima = zip(*document.days(), strict=True)
        return (list(days), list(minima), list(maxima)), document.place.latitude < 0
    return _table(text, where), None


def _table(text: str, where: str) -> Columns:
    from twomarks.exchange.columns import column, day_order, decimal_mark, read_day, table

    found = table(text.encode(), where=where)
    at = [
        column(found.header, None, guesses, where=where, what=guesses[0], default=default)
        for default, guesses in enumerate((DAYS, MINIMA, MAXIMA))
    ]
    widest = len(found.header) or max((len(cells) for _, cells in found.rows), default=0)
    if max(at) >= widest:
        raise InputError("reckon_climate.columns", where=where, found=widest, example="day,tmin,tmax")
    rows = [(line, [cells[index].strip() if index < len(cells) else "" for index in at]) for line, cells in found.rows]
    order = day_order([cells[0] for _, cells in rows], where=where)
    mark = decimal_mark([cell for _, cells in rows for cell in cells[1:]])
    fahrenheit = bool(found.header) and found.header[at[1]].casefold().rstrip(")").endswith("f")
    days: list[dt.date] = []
    minima: list[float] = []
    maxima: list[float] = []
    faults: list[InputError] = []
    for line, cells in rows:
        try:
            day, _, _ = read_day(cells[0], order)
            low, high = _temperatures(cells[1:], mark, fahrenheit=fahrenheit)
        except ValueError:
            faults.append(InputError("reckon_climate.row", line=line, found=", ".join(cells), example="1996-01-31,-12.5,-3.1"))
            if len(faults) == MOST_FAULTS:
                break
            continue
        days.append(day)
        minima.append(low)
        maxima.append(high)
    if faults:
        raise DocumentError(where=where, faults=faults)
    return days, minima, maxima


def _temperatures(cells: Sequence[str], mark: str, *, fahrenheit: bool) -> Iterator[float]:
    """Yield temperatures [C]; not a number where a cell holds no value.

    Raises
    ------
    ValueError
        Where a cell holds something else.
    """
    for cell in cells:
        if cell.casefold() in NO_VALUE:
            yield math.nan
        else:
            value = float(cell.replace(mark, ".").replace("\u2212", "-"))
            yield (value - 32.0) / 1.8 if fahrenheit else value


CALCULATIONS = (
    Calculation(
        "climate",
        _climate,
        (
            Asked("record", "file", "climate.csv"),
            Asked("from", "day", "2026-11-25", needed=False),
            Asked("to", "day", "2027-11-24", needed=False),
            Asked("years", "number", "10", default="10"),
            Asked("hemisphere", "choice", needed=False, choices=("north", "south")),
        ),
    ),
)
