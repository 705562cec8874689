"""The one clock."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from twomarks.errors import InputError

__all__ = ["now", "today"]


def now() -> dt.datetime:
    """Return the time now, in UTC."""
    return dt.datetime.now(dt.UTC)


def today(zone: str | None = None) -> dt.date:
    """Return the day that it is now in the zone of that name; with none, on this computer."""
    if not zone:
        return dt.datetime.now().astimezone().date()
    try:
        return dt.datetime.now(ZoneInfo(zone)).date()
    except (ZoneInfoNotFoundError, ValueError):
        raise InputError("keeping.zone_unknown", found=zone, example="Europe/London") from None
