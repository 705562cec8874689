"""Limits that the calendar sets: so long after the last time, or on a fixed date that may come back."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from twomarks.planning.calendar import after_months
from twomarks.planning.due.values import LEAD_DAYS, Bound, Chance, Done
from twomarks.planning.usage.forecast import DaySpread
from twomarks.words import Figure, Source, say

if TYPE_CHECKING:
    from twomarks.model.service_items import ServiceItem

__all__ = ["after_period", "by_date", "by_time", "days_until", "gone_by"]

LEAD_SHARE = 6
NEAR_SHARE = 4
_MONTHS_A_YEAR = 12
_DAYS = {"day": 1, "week": 7}


def by_time(limit: Figure, last: Done, today: dt.date) -> Bound:
    """Return the limit of so much time after the last time; the window opens four weeks before."""
    first, final = last.about or (last.day, last.day)
    early, likely, late = (after_period(day, limit) for day in (first, last.day, final))
    lead = min(LEAD_DAYS, (likely - last.day).days // LEAD_SHARE)
    return Bound(
        binds="time",
        days=DaySpread(early - dt.timedelta(days=lead), likely, late),
        limit=limit,
        reason=say("due.time_about" if last.about else "due.time", limit=limit, last_day=last.day, first=first, final=final, day=likely),
        chance=gone_by(early, late),
        left=days_until(likely, today),
    )


def by_date(item: ServiceItem, last: Done | None, today: dt.date) -> Bound | None:
    """Return the fixed date that is open; None where there is none, or a single one has been met.

    Work within a quarter of the interval before or after a date of the series has met that date, and the next one keeps
    its place; work far from any date begins a series of its own. A single date has been met by whatever was done since
    half a year before it.
    """
    if item.by is None:
        return None
    fixed, again = item.by.day, item.again.figure if item.again else None
    day = fixed if last is None else _open_date(fixed, again, last.day)
    if day is None:
        return None
    lead = LEAD_DAYS if again is None else min(LEAD_DAYS, (after_period(day, again) - day).days // LEAD_SHARE)
    return Bound(
        binds="date",
        days=DaySpread(day - dt.timedelta(days=lead), day, day),
        limit=Figure(day.isoformat(), "", item.by.figure.source),
        reason=say("due.date_again" if again else "due.date", day=day, again=again),
        chance=gone_by(day, day),
        left=days_until(day, today),
    )


def after_period(day: dt.date, limit: Figure) -> dt.date:
    """Return the day that lies a period (days, weeks, months, years) after `day`."""
    amount = float(limit.value)
    if limit.unit in _DAYS:
        return day + dt.timedelta(days=round(amount * _DAYS[limit.unit]))
    return after_months(day, round(amount * (_MONTHS_A_YEAR if limit.unit == "year" else 1)))


def days_until(day: dt.date, today: dt.date) -> Figure:
    """Return the days from today to `day`, below nothing once it has gone by."""
    return Figure((day - today).days, "day", Source("computed"))


def _open_date(fixed: dt.date, again: Figure | None, done: dt.date) -> dt.date | None:
    if again is None:
        return None if done >= after_months(fixed, -6) else fixed
    cycle = max(1, (after_period(fixed, again) - fixed).days)
    place = round((done - fixed).days / cycle)
    near = min((_in_series(fixed, again, place + step) for step in (-1, 0, 1)), key=lambda day: abs((day - done).days))
    if abs((near - done).days) <= cycle // NEAR_SHARE:
        return max(fixed, after_period(near, again))
    return fixed if done < fixed else after_period(done, again)


def _in_series(fixed: dt.date, again: Figure, place: int) -> dt.date:
    times = Figure(float(again.value) * place, again.unit)
    return after_period(fixed, times)


def gone_by(early: dt.date, late: dt.date) -> Chance:
    """Return the chance that a date somewhere between two days has gone by; it has not on the day itself."""

    def chance(day: dt.date) -> float:
        if day <= early:
            return 0.0
        return 1.0 if day > late else (day - early).days / ((late - early).days + 1)

    return chance
