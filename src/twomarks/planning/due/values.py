"""What due work is made of: when it was last done, what happened, the limits that bind it, and the item on a day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from twomarks.planning.usage.forecast import DaySpread
from twomarks.words import Figure, Message

__all__ = ["BEFORE", "IN_WINDOW", "LEAD_DAYS", "NOT_KNOWN", "PAST", "Binds", "Bound", "Chance", "Done", "DueItem", "DueState", "Happening"]

DueState = Literal["before the window", "in the window", "past the limit", "not known"]
Binds = Literal["distance", "time", "hours", "fuel", "measurement", "event", "date", ""]
Chance = Callable[[dt.date], float | None]
BEFORE: DueState = "before the window"
IN_WINDOW: DueState = "in the window"
PAST: DueState = "past the limit"
NOT_KNOWN: DueState = "not known"

# Common practice, no source: work with a fixed date is done in the four weeks before it.
LEAD_DAYS = 28


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """When an item was last done, and at which counters [km, min, L]; `about` is the range of days where it is known only about.

    `number` is the place of the entry in the household's order: it tells what came first on one day.
    """

    day: dt.date
    odometer_km: float | None = None
    about: tuple[dt.date, dt.date] | None = None
    hours_min: float | None = None
    fuel_l: float | None = None
    number: int = 0


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that calls for items out of turn (waded, overheated): the word of the sheet, the day, its place in the order."""

    event: str
    day: dt.date
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """One limit of an item: the days on which it is reached with a chance of 10, 50 and 90 %, and why.

    `chance` is the chance that it has been passed by the end of a day; `left` what is left to it today, below nothing once
    it is passed.
    """

    binds: Binds
    days: DaySpread
    limit: Figure
    reason: Message
    chance: Chance = field(compare=False, repr=False)
    passed: bool = False
    due_at: Figure | None = None
    left: Figure | None = None
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DueItem:
    """A service item on a day: its state, the day its first limit is probably reached, and the window around that day.

    The window opens on the day by which a counter or a measured value has reached its limit with a chance of 10 %, or four
    weeks before a fixed date, and closes on the day of 90 %, or on the fixed date. `due_at` is the odometer at which it is
    due; `left` and `days_left` are what is left of the limit that drives it; `bounds` are all its limits, the first first.
    """

    item: str
    name: str
    state: DueState
    likely: dt.date | None = None
    opens: dt.date | None = None
    closes: dt.date | None = None
    binds: Binds = ""
    limit: Figure | None = None
    due_at: Figure | None = None
    chance_past: float | None = None
    reasons: tuple[Message, ...] = ()
    settles: tuple[Message, ...] = ()
    last: Done | None = None
    left: Figure | None = None
    days_left: int | None = None
    hard_use: bool = False
    bounds: tuple[Bound, ...] = ()

    def chance_by(self, day: dt.date) -> float | None:
        """Return the chance that one of the limits has been passed by the end of `day`; None where none can say.

        The counters of a vehicle run together: the chance is that of the limit that is nearest, not of several at odds.
        """
        return max((chance for bound in self.bounds if (chance := bound.chance(day)) is not None), default=None)
