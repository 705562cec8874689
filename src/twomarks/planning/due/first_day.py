"""The first days by which a chance that only grows has come far enough, asked for as seldom as can be."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from twomarks.planning.due.values import Chance
from twomarks.planning.usage.distance import FARTHEST_DAYS

__all__ = ["first_days"]

NEAR_DAYS = 128
FINE_SHARE = 100
"""A day a year off is told to three days: nobody plans finer, and each step costs."""


def first_days(chance: Chance, wanted: Sequence[float], start: dt.date) -> list[dt.date | None]:
    """Return for each chance in `wanted` the first day from `start` on that has it; None where that is over ten years ahead."""
    known = {0: chance(start) or 0.0}

    def at(day: int) -> float:
        if day not in known:
            known[day] = chance(start + dt.timedelta(days=day)) or 0.0
        return known[day]

    found = []
    for share in wanted:
        day = _first(at, known, share)
        found.append(None if day is None else start + dt.timedelta(days=day))
    return found


def _first(at: Callable[[int], float], known: dict[int, float], wanted: float) -> int | None:
    if known[0] >= wanted:
        return 0
    late = NEAR_DAYS
    while at(late) < wanted:
        if late == FARTHEST_DAYS:
            return None
        late = min(2 * late, FARTHEST_DAYS)
    early = max(day for day, chance in known.items() if chance < wanted)
    late = min(day for day, chance in known.items() if chance >= wanted)
    halve = False
    while late - early > max(1, late // FINE_SHARE):
        # By turns where a straight line would meet the chance, and in the middle.
        part = 0.5 if halve else (wanted - known[early]) / (known[late] - known[early])
        middle = min(late - 1, max(early + 1, early + round((late - early) * part)))
        halve = not halve
        if at(middle) < wanted:
            early = middle
        else:
            late = middle
    return late
