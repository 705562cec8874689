"""How cold a start and how hot a day must be reckoned with until the next change, from a daily record of the place."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from twomarks.errors import InputError
from twomarks.trade.arrays import require_within
from twomarks.trade.daily_record import DailyRecord
from twomarks.trade.extremes import return_level
from twomarks.words import Figure, Message, say

__all__ = ["DesignTemperature", "coldest_start", "hottest_day", "is_southern"]

FULL_SHARE = 0.9
"""Share of the days of a season that must be there for its extreme to count as that of a whole one."""
LONGEST_GAP_DAYS = 10
"""A spell of frost fits into a longer gap; a season with one is not whole."""
ENOUGH_YEARS = 15
WHOLE_YEAR_FROM_DAYS = 300
PERCENTILE = 0.5
PERCENTILE_MILD = 2.0
COLDER_HALF_YEAR = (11, 12, 1, 2, 3, 4)
"""The months of the northern winter and its two shoulders."""


@dataclass(frozen=True, slots=True)
class DesignTemperature:
    """A temperature to reckon with [C], its interval, how it was found, from how many whole seasons, and faults of the record.

    By extreme values the interval is the 95 % profile interval of the level passed once in `once_in_years`. By percentile it is
    no confidence interval: it runs from the extreme of the record to a milder percentile, and `share_percent` of the days of
    the period were beyond the value. Each season begins in `season_month`; `record_c` is the most extreme day on record.
    """

    value_c: float
    low_c: float
    high_c: float
    method: Literal["extreme values", "percentile"]
    winters: int
    once_in_years: float
    flags: tuple[Message, ...] = ()
    share_percent: float | None = None
    season_month: int = 7
    record_c: float | None = None
    record_day: dt.date | None = None


@dataclass(frozen=True, slots=True)
class _Period:
    """The days of the year that matter, as a start and a number of days, repeated in every year."""

    month: int
    day: int
    span: int

    def season(self, day: dt.date) -> int | None:
        """Return the year in which the season that holds `day` began, None where it lies in none.

        The start and the end have a day's grace, for leap years.
        """
        year = day.year if (day.month, day.day) >= (self.month, self.day) else day.year - 1
        # At the ends of the calendar a season would begin before the first year, or end after the last.
        if not dt.MINYEAR < year < dt.MAXYEAR - 1:
            return None
        return year if (day - dt.date(year, self.month, self.day)).days <= self.span else None

    def is_whole(self, days: list[dt.date], year: int) -> bool:
        """Return whether so few of a season's days are missing, and so far apart, that its extreme is among them."""
        first = dt.date(year, self.month, self.day)
        edges = [first - dt.timedelta(days=1), *days, first + dt.timedelta(days=self.span)]
        longest = max((after - day).days - 1 for day, after in pairwise(edges))
        return longest <= LONGEST_GAP_DAYS and len(days) >= math.ceil(FULL_SHARE * self.span)


def coldest_start(
    *, record: DailyRecord, from_day: dt.date, to_day: dt.date, once_in_years: float = 10.0, southern: bool | None = None
) -> DesignTemperature:
    """Return the coldest start to reckon with between two days.

    Parameters
    ----------
    record : DailyRecord
        Daily minima of the place; see `daily_record`.
    from_day : date
        First day that matters (the day of the work).
    to_day : date
        Last day that matters (the next change), not before `from_day`.
    once_in_years : float
        How seldom it may be colder [years], above 1.
    southern : bool or None
        Whether the place lies south of the equator, where the winter is in the middle of the calendar year; None where the
        record itself shall tell, by its colder half.

    Returns
    -------
    DesignTemperature
        By extreme values of whole seasons where there are 15 or more, else by percentile of the days.

    Raises
    ------
    InputError
        If the record has no minima, no usable day falls into the period, or the period runs backwards.
    OutOfRangeError
        If `once_in_years` is not above 1.

    Notes
    -----
    Only the days of the year between `from_day` and `to_day` count; from 300 days on all do. Whole years are then parted at
    midsummer, in the north at the end of June, in the south at the end of December, so that no winter is cut in two. A season
    with a tenth of its days missing, or more than 10 in a row, gives no extreme. Departs from the source: the percentiles
    taken where there are fewer than 15 seasons are judgement of this project.

    References
    ----------
    hosking_1985, coles_2001, house_judgement
    """
    return _design(record, record.minima_c, -1.0, from_day, to_day, once_in_years, southern)


def hottest_day(
    *, record: DailyRecord, from_day: dt.date, to_day: dt.date, once_in_years: float = 10.0, southern: bool | None = None
) -> DesignTemperature:
    """Return the hottest day to reckon with between two days, found as the coldest start is, with summers for winters.

    Parameters
    ----------
    record : DailyRecord
        Daily maxima of the place.
    from_day : date
        The first day.
    to_day : date
        The last day, not before the first.
    once_in_years : float
        How seldom it may be hotter [years], above 1.
    southern : bool or None
        As for `coldest_start`.

    Returns
    -------
    DesignTemperature
        Level and interval [C].

    Raises
    ------
    InputError
        As for `coldest_start`, of the maxima.
    OutOfRangeError
        As for `coldest_start`.

    Notes
    -----
    Whole years are parted at midwinter. Departs from the source: as for `coldest_start`.

    References
    ----------
    hosking_1985, coles_2001, house_judgement
    """
    return _design(record, record.maxima_c, 1.0, from_day, to_day, once_in_years, southern)


def is_southern(*, record: DailyRecord) -> bool:
    """Return whether the record's colder half-year is May to October, as it is south of the equator.

    Parameters
    ----------
    record : DailyRecord
        Daily minima or maxima of the place.

    Returns
    -------
    bool
        False where the halves are alike, or only one of them is on record.

    Raises
    ------
    InputError
        Never; a record without days is north.

    Notes
    -----
    The means of the two halves are compared. Departs from the source: none.

    References
    ----------
    house_judgement
    """
    values = record.minima_c if record.minima_c is not None else record.maxima_c or {}
    halves: tuple[list[float], list[float]] = ([], [])
    for day, value in values.items():
        halves[day.month in COLDER_HALF_YEAR].append(value)
    middle, turn = (math.fsum(half) / len(half) if half else math.nan for half in halves)
    return middle < turn


def _design(
    record: DailyRecord,
    values_c: Mapping[dt.date, float] | None,
    way: float,
    from_day: dt.date,
    to_day: dt.date,
    once_in_years: float,
    southern: bool | None,
) -> DesignTemperature:
    require_within(once_in_years, quantity="years", source="coles_2001", above=1.0)
    if to_day < from_day:
        raise InputError("climate.backwards", found=from_day, expected=to_day)
    if values_c is None:
        raise InputError("climate.no_series")
    south = is_southern(record=record) if southern is None else southern
    period = _period(from_day, to_day, year_starts=1 if south == (way < 0.0) else 7)
    seasons: dict[int, list[dt.date]] = {}
    for day in values_c:
        year = period.season(day)
        if year is not None:
            seasons.setdefault(year, []).append(day)
    if not seasons:
        raise InputError("climate.no_days", found=from_day, expected=to_day)
    whole = [year for year, days in seasons.items() if period.is_whole(days, year)]
    extremes = [max(way * values_c[day] for day in seasons[year]) for year in whole]
    flags = (*record.faults, *_not_whole(sorted(seasons), whole))
    day_of = max((day for days in seasons.values() for day in days), key=lambda day: way * values_c[day])
    if len(extremes) >= ENOUGH_YEARS and len(set(extremes)) > 1:
        level = return_level(extremes, once_in_years=once_in_years)
        low_c, high_c = sorted((way * level.low, way * level.high))
        found = DesignTemperature(way * level.value, low_c, high_c, "extreme values", len(whole), once_in_years, flags)
    else:
        short = say("climate.short_record", found=len(whole), expected=ENOUGH_YEARS, share=Figure(PERCENTILE, "%"))
        ordered = sorted((values_c[day] for days in seasons.values() for day in days), reverse=way > 0.0)
        value_c, mild_c = (ordered[int(share / 100.0 * len(ordered))] for share in (PERCENTILE, PERCENTILE_MILD))
        low_c, high_c = sorted((ordered[0], mild_c))
        found = DesignTemperature(value_c, low_c, high_c, "percentile", len(whole), once_in_years, (*flags, short), PERCENTILE)
    return replace(found, season_month=period.month, record_c=values_c[day_of], record_day=day_of)


def _period(from_day: dt.date, to_day: dt.date, *, year_starts: int) -> _Period:
    span = (to_day - from_day).days + 1
    if span >= WHOLE_YEAR_FROM_DAYS:
        return _Period(year_starts, 1, 365)
    return _Period(from_day.month, 28 if (from_day.month, from_day.day) == (2, 29) else from_day.day, span)


def _not_whole(years: list[int], whole: list[int]) -> tuple[Message, ...]:
    """Return which seasons between the first and the last of the record had too many days missing."""
    left_out = [year for year in years[1:-1] if year not in whole]
    return (say("climate.seasons_left_out", count=len(left_out), first=left_out[0]),) if left_out else ()
