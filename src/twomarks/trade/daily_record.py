"""Daily minima and maxima of a place: what can be used of them, and by name and count what cannot."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from twomarks.errors import InputError
from twomarks.words import Figure, Message, say

__all__ = ["DailyRecord", "daily_record"]

COLDEST_C, HOTTEST_C = -70.0, 60.0
"""Beyond what has been measured where people live; from memory."""
DAYS_NAMED = 3
ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class DailyRecord:
    """The usable days of a record [C], and its faults; a series that was not given is None.

    A day of which any part cannot be used is in neither series.
    """

    minima_c: Mapping[dt.date, float] | None
    maxima_c: Mapping[dt.date, float] | None
    faults: tuple[Message, ...]

    @property
    def days(self) -> tuple[dt.date, ...]:
        """The usable days, in order."""
        return tuple(self.minima_c if self.minima_c is not None else self.maxima_c or ())


def daily_record(
    *,
    days: Sequence[dt.date],
    minima_c: Sequence[float] | None = None,
    maxima_c: Sequence[float] | None = None,
    crossed: Literal["refused", "left out"] = "refused",
) -> DailyRecord:
    """Return the usable days of a daily record, in order, with what was left out and why.

    Parameters
    ----------
    days : sequence of date, shape (n,)
        Days of the record, in any order.
    minima_c : sequence of float, shape (n,), optional
        Minimum of each day [C], -70 to 60 to be used; not a number where there is none.
    maxima_c : sequence of float, shape (n,), optional
        Maximum of each day [C], -70 to 60 to be used; not a number where there is none.
    crossed : str
        What becomes of a day whose minimum lies above its maximum: ``refused`` refuses the record, ``left out`` names the day
        and goes on, unless more than half of the days are so.

    Returns
    -------
    DailyRecord
        The days left; nothing is filled in or averaged.

    Raises
    ------
    InputError
        If neither series is given, they differ in length, or a minimum lies above its maximum.

    Notes
    -----
    Left out and reported, each with its count and first days: blank values, values beyond -70 or 60 C, days given twice with
    different values (all of their rows), and days that are not there at all. A row given twice with the same values counts once.
    Departs from the source: the limits are from memory.

    References
    ----------
    house_judgement
    """
    series = [values for values in (minima_c, maxima_c) if values is not None]
    if not series or any(len(values) != len(days) for values in series):
        raise InputError("climate.lengths", found=len(days))
    rows: dict[dt.date, tuple[float, ...]] = {}
    blank, absurd, turned, twice = [], [], [], []
    for at, (day, values) in enumerate(zip(days, zip(*series, strict=True), strict=True)):
        if any(math.isnan(value) for value in values):
            blank.append(day)
        elif not all(COLDEST_C <= value <= HOTTEST_C for value in values):
            absurd.append(day)
        elif values[0] > values[-1]:
            turned.append(at)
        elif rows.setdefault(day, values) != values:
            twice.append(day)
    for day in twice:
        rows.pop(day, None)
    if turned and (crossed == "refused" or len(turned) > len(days) / 2):
        raise _crossed(days, series, turned)
    limits = {"low": Figure(COLDEST_C, "C"), "high": Figure(HOTTEST_C, "C")}
    faults = [
        *_fault("climate.blank", blank),
        *_fault("climate.absurd", absurd, **limits),
        *_fault("climate.crossed_left_out", [days[at] for at in turned]),
        *_fault("climate.twice", twice),
        *_gaps(rows),
    ]
    ordered = sorted(rows)
    low, high = ({day: rows[day][at] for day in ordered} for at in (0, -1))
    return DailyRecord(low if minima_c is not None else None, high if maxima_c is not None else None, tuple(faults))


def _crossed(days: Sequence[dt.date], series: Sequence[Sequence[float]], turned: Sequence[int]) -> InputError:
    first = turned[0]
    return InputError(
        "climate.crossed",
        found=days[first],
        low=Figure(series[0][first], "C"),
        high=Figure(series[-1][first], "C"),
        index=first,
        more=len(turned) - 1 or None,
    )


def _fault(key: str, days: Iterable[dt.date], **limits: Figure) -> list[Message]:
    """Return what is wrong with `days`, the first few of them by name; nothing where there are none."""
    found = sorted(set(days))
    if not found:
        return []
    more = len(found) - DAYS_NAMED
    return [say(key, count=len(found), first=found[0], days=tuple(found[:DAYS_NAMED]), more=more if more > 0 else None, **limits)]


def _gaps(rows: Iterable[dt.date]) -> list[Message]:
    """Return how many days are missing between the first and the last, in how many gaps, and where the longest is."""
    ordered = sorted(rows)
    gaps = [(day, (after - day).days - 1) for day, after in pairwise(ordered) if after - day > ONE_DAY]
    if not gaps:
        return []
    longest, length = max(gaps, key=lambda gap: gap[1])
    count = sum(missing for _, missing in gaps)
    return [say("climate.missing", count=count, gaps=len(gaps), first=gaps[0][0] + ONE_DAY, longest=length, from_day=longest + ONE_DAY)]
