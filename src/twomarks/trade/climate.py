"""How cold a start and how hot a day must be reckoned with until the next change, from a daily record of the place."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.extremes import return_level
from twomarks.words import Figure, Message, say

__all__ = ["DesignTemperature", "coldest_start", "hottest_day"]

ABSURD_C = 60.0
FULL_SHARE = 0.9
"""Share of the days of a window that must be there for its extreme to count as that of a whole one."""
ENOUGH_YEARS = 15
WHOLE_YEAR_FROM_DAYS = 300
PERCENTILE = 0.005
PERCENTILE_MILD = 0.02


@dataclass(frozen=True, slots=True)
class DesignTemperature:
    """A temperature to reckon with [C], its interval, how it was found, from how many whole seasons, and faults of the record.

    By extreme values the interval is the 95 % profile interval of the level passed once in `once_in_years`; by percentile it
    runs from the extreme of the record to a milder percentile.
    """

    value_c: float
    low_c: float
    high_c: float
    method: Literal["extreme values", "percentile"]
    winters: int
    once_in_years: float
    flags: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class _Season:
    extreme_c: float
    days: int


def coldest_start(
    *,
    days: Sequence[dt.date],
    minima_c: Sequence[float],
    maxima_c: Sequence[float] | None = None,
    from_day: dt.date,
    to_day: dt.date,
    once_in_years: float = 10.0,
    southern: bool = False,
) -> DesignTemperature:
    """Return the coldest start to reckon with between two days.

    Parameters
    ----------
    days : sequence of date, shape (n,)
        Days of the record, in any order.
    minima_c : sequence of float, shape (n,)
        Daily minimum of each day [C].
    maxima_c : sequence of float, shape (n,), optional
        Daily maximum of each day [C]; used only to find absurd rows.
    from_day : date
        First day that matters (the day of the work).
    to_day : date
        Last day that matters (the next change).
    once_in_years : float
        How seldom it may be colder [years], above 1.
    southern : bool
        Whether the place lies south of the equator, where the winter is in the middle of the calendar year.

    Returns
    -------
    DesignTemperature
        By extreme values of whole winters where there are 15 or more, else by percentile of the days.

    Raises
    ------
    InputError
        If the sequences differ in length, no usable day falls into the window, or the window runs backwards.
    OutOfRangeError
        If `once_in_years` is not above 1.

    Notes
    -----
    Only the days of the year between `from_day` and `to_day` count; from 300 days on all do. Whole years are parted at
    midsummer, so that no winter is cut in two. A missing day, a day given twice with different values, a minimum above its
    maximum or beyond 60 C either way is reported in `flags` and left out.

    References
    ----------
    hosking_1985, coles_2001
    """
    return _design(days, minima_c, maxima_c, minima_c, -1.0, from_day, to_day, once_in_years, 1 if southern else 7)


def hottest_day(
    *,
    days: Sequence[dt.date],
    maxima_c: Sequence[float],
    minima_c: Sequence[float] | None = None,
    from_day: dt.date,
    to_day: dt.date,
    once_in_years: float = 10.0,
    southern: bool = False,
) -> DesignTemperature:
    """Return the hottest day to reckon with between two days.

    Parameters
    ----------
    days : sequence of date, shape (n,)
        Days of the record, in any order.
    maxima_c : sequence of float, shape (n,)
        Daily maximum of each day [C].
    minima_c : sequence of float, shape (n,), optional
        Daily minimum of each day [C]; used only to find absurd rows.
    from_day : date
        First day that matters.
    to_day : date
        Last day that matters.
    once_in_years : float
        How seldom it may be hotter [years], above 1.
    southern : bool
        Whether the place lies south of the equator.

    Returns
    -------
    DesignTemperature
        As for `coldest_start`, with summers in place of winters.

    Raises
    ------
    InputError
        If the sequences differ in length, no usable day falls into the window, or the window runs backwards.
    OutOfRangeError
        If `once_in_years` is not above 1.

    Notes
    -----
    Whole years are parted at midwinter. Otherwise as for `coldest_start`.

    References
    ----------
    hosking_1985, coles_2001
    """
    return _design(days, minima_c, maxima_c, maxima_c, 1.0, from_day, to_day, once_in_years, 7 if southern else 1)


def _design(
    days: Sequence[dt.date],
    minima_c: Sequence[float] | None,
    maxima_c: Sequence[float] | None,
    values_c: Sequence[float],
    way: float,
    from_day: dt.date,
    to_day: dt.date,
    once_in_years: float,
    year_starts: int,
) -> DesignTemperature:
    if not once_in_years > 1.0:
        raise OutOfRangeError(quantity="years", value=once_in_years, low=1.0, source="coles_2001")
    if to_day < from_day:
        raise InputError("climate.backwards", found=from_day, expected=to_day)
    if any(other is not None and len(other) != len(days) for other in (minima_c, maxima_c)):
        raise InputError("climate.lengths", found=len(days))
    kept, flags = _usable(days, minima_c, maxima_c, values_c)
    inside, seasons = _seasons(kept, way, from_day, to_day, year_starts)
    if not inside:
        raise InputError("climate.no_days", found=from_day, expected=to_day)
    if len(seasons) >= ENOUGH_YEARS and len({season.extreme_c for season in seasons}) > 1:
        level = return_level([way * season.extreme_c for season in seasons], once_in_years=once_in_years)
        edges = sorted((way * level.low, way * level.high))
        return DesignTemperature(way * level.value, edges[0], edges[1], "extreme values", len(seasons), once_in_years, flags)
    ordered = sorted(inside, key=lambda value: -way * value)
    value_c, mild_c = (ordered[min(int(share * len(ordered)), len(ordered) - 1)] for share in (PERCENTILE, PERCENTILE_MILD))
    short = say("climate.short_record", found=len(seasons), expected=ENOUGH_YEARS)
    low_c, high_c = sorted((ordered[0], mild_c))
    return DesignTemperature(value_c, low_c, high_c, "percentile", len(seasons), once_in_years, (*flags, short))


def _usable(
    days: Sequence[dt.date], minima_c: Sequence[float] | None, maxima_c: Sequence[float] | None, values_c: Sequence[float]
) -> tuple[dict[dt.date, float], tuple[Message, ...]]:
    """Return the value of each usable day, and what is wrong with the others."""
    kept: dict[dt.date, float] = {}
    crossed, absurd, twice = [], [], []
    for at, day in enumerate(days):
        low = minima_c[at] if minima_c is not None else values_c[at]
        high = maxima_c[at] if maxima_c is not None else values_c[at]
        if not (abs(low) <= ABSURD_C and abs(high) <= ABSURD_C):
            absurd.append(day)
        elif low > high:
            crossed.append(day)
        elif day in kept and kept[day] != values_c[at]:
            twice.append(day)
        else:
            kept[day] = values_c[at]
    for day in twice:
        kept.pop(day, None)
    flags = []
    if absurd:
        flags.append(say("climate.absurd", count=len(absurd), first=min(absurd), limit=Figure(ABSURD_C, "C")))
    if crossed:
        flags.append(say("climate.crossed", count=len(crossed), first=min(crossed)))
    if twice:
        flags.append(say("climate.twice", count=len(twice), first=min(twice)))
    missing = (max(kept) - min(kept)).days + 1 - len(kept) if kept else 0
    if missing:
        flags.append(say("climate.missing", count=missing, first=_first_gap(kept)))
    return kept, tuple(flags)


def _first_gap(kept: dict[dt.date, float]) -> dt.date:
    day = min(kept)
    while day in kept:
        day += dt.timedelta(days=1)
    return day


def _seasons(
    kept: dict[dt.date, float], way: float, from_day: dt.date, to_day: dt.date, year_starts: int
) -> tuple[list[float], list[_Season]]:
    """Return the values inside the window, and the extreme of each whole season of it."""
    span = (to_day - from_day).days + 1
    if span >= WHOLE_YEAR_FROM_DAYS:
        start_month, start_day, span = year_starts, 1, 365
    else:
        start_month, start_day = from_day.month, min(from_day.day, 28)
    inside: list[float] = []
    by_season: dict[int, list[float]] = {}
    for day, value in kept.items():
        season = day.year if (day.month, day.day) >= (start_month, start_day) else day.year - 1
        if (day - dt.date(season, start_month, start_day)).days <= span:
            inside.append(value)
            by_season.setdefault(season, []).append(value)
    needed = math.ceil(FULL_SHARE * min(span, 365))
    return inside, [
        _Season(way * max(way * value for value in values), len(values)) for values in by_season.values() if len(values) >= needed
    ]
