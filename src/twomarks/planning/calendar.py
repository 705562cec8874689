"""Calendar months and days counted from a day."""

from __future__ import annotations

import calendar
import datetime as dt

__all__ = ["after_months"]


def after_months(day: dt.date, months: int) -> dt.date:
    """Return the same day of the month `months` later, or the last day of that month where it is shorter."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
