"""When each service item is due: whichever of its limits comes first, with the spread of that day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from twomarks.planning.calendar import after_months
from twomarks.planning.usage.forecast import DaySpread, UsageForecast
from twomarks.units import in_unit
from twomarks.words import Figure, Message, Source, say

if TYPE_CHECKING:
    from twomarks.model.vehicle import Limits, ServiceItem, VehicleSheet

__all__ = ["BEFORE", "IN_WINDOW", "NOT_KNOWN", "PAST", "Binds", "Done", "DueItem", "DueState", "Happening", "due_items"]

DueState = Literal["before the window", "in the window", "past the limit", "not known"]
Binds = Literal["distance", "time", "hours", "fuel", "event", ""]
BEFORE: DueState = "before the window"
IN_WINDOW: DueState = "in the window"
PAST: DueState = "past the limit"
NOT_KNOWN: DueState = "not known"

# Common practice, no source: work with a fixed date is done in the four weeks before it.
LEAD_DAYS = 28
LEAD_SHARE = 6
_SAYINGS: Mapping[str, tuple[str, str, str]] = {
    "distance": ("due.distance", "due.distance_passed", "due.distance_since"),
    "hours": ("due.hours", "due.hours_passed", "due.hours_since"),
    "fuel": ("due.fuel", "due.fuel_passed", "due.fuel_since"),
}
_CORE: Mapping[str, str] = {"distance": "km", "hours": "min", "fuel": "L"}
_ORDER: Mapping[str, int] = {PAST: 0, IN_WINDOW: 1, BEFORE: 2, NOT_KNOWN: 3}


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """When an item was last done, and at which counters [km, min, L]; `about` is the range of days where it is known only about."""

    day: dt.date
    odometer_km: float | None = None
    about: tuple[dt.date, dt.date] | None = None
    hours_min: float | None = None
    fuel_l: float | None = None


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that calls for items out of turn (waded, overheated): the word of the sheet, and the day."""

    event: str
    day: dt.date


@dataclass(frozen=True, slots=True, kw_only=True)
class DueItem:
    """A service item on a day: its state, the day its first limit is probably reached, and the window around that day.

    The window opens on the day by which a counter has reached its limit with a chance of 10 %, or four weeks before a
    fixed date, and closes on the day of 90 %, or on the fixed date. `due_at` is the counter at which it is due.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bound:
    binds: Binds
    days: DaySpread
    limit: Figure
    reason: Message
    passed: bool = False
    due_at: Figure | None = None


@dataclass(slots=True)
class _Gathered:
    bounds: list[_Bound] = field(default_factory=list)
    reasons: list[Message] = field(default_factory=list)
    settles: list[Message] = field(default_factory=list)


def due_items(
    sheet: VehicleSheet,
    *,
    done: Mapping[str, Done],
    forecast: UsageForecast,
    today: dt.date,
    events: Sequence[Happening] = (),
    counters: Mapping[str, UsageForecast] = MappingProxyType({}),
) -> tuple[DueItem, ...]:
    """Return every service item of `sheet`: those past their limit first, then by day, those not known last.

    `forecast` is that of the odometer; `counters` holds those of "hours" and "fuel" where the vehicle counts them.
    """
    known = {"distance": forecast, **counters}
    found = [
        _due_item(key, item, _last_done(key, item, done), known, today, events)
        for key, item in sheet.items.items()
        if not getattr(item, "retired", False)
    ]
    return tuple(sorted(found, key=lambda due: (_ORDER[due.state], due.likely or dt.date.max, due.item)))


def _last_done(key: str, item: ServiceItem, done: Mapping[str, Done]) -> Done | None:
    """Return when an item was last done, under its key or one that it had earlier."""
    found = [done[name] for name in (key, *item.was) if name in done]
    return max(found, key=lambda one: one.day, default=None)


def _due_item(
    key: str, item: ServiceItem, last: Done | None, known: Mapping[str, UsageForecast], today: dt.date, events: Sequence[Happening]
) -> DueItem:
    name = item.name or key
    limits = _limits(item)
    gathered = _Gathered()
    if item.use == "hard" and item.hard_use is not None:
        gathered.reasons.append(say("due.hard_use"))
    happened = max((event.day for event in events if item.event and event.event == item.event), default=None)
    if happened is not None and (last is None or happened >= last.day):
        days = DaySpread(happened, happened, None)
        limit = Figure(item.event or "")
        gathered.bounds.append(_Bound(binds="event", days=days, limit=limit, reason=say("due.event", event=limit, day=happened)))
    if not limits:
        if not item.event:
            gathered.settles.append(say("due.settle_interval", item=name))
        else:
            gathered.reasons.append(say("due.only_after", event=item.event))
    elif last is None:
        gathered.reasons.append(say("due.never_recorded", item=name))
        gathered.settles.append(say("due.settle_last", item=name))
    else:
        _gather(limits, last, known, gathered, name)
    return _judged(key, name, last, today, gathered, known["distance"], bool(limits) or not item.event)


def _limits(item: ServiceItem) -> dict[str, Figure]:
    """Return the limits that hold under the owner's use: those for hard use where they are given, else the usual ones."""
    found: dict[str, Figure] = {}
    sets: list[Limits | None] = [item.hard_use if item.use == "hard" else None, item.every]
    for limits in sets:
        for axis in ("distance", "time", "hours", "fuel"):
            fact = getattr(limits, axis, None) if limits is not None else None
            if fact is not None and axis not in found:
                found[axis] = fact.figure
    return found


def _gather(limits: Mapping[str, Figure], last: Done, known: Mapping[str, UsageForecast], gathered: _Gathered, name: str) -> None:
    for axis, limit in limits.items():
        if axis == "time":
            gathered.bounds.append(_by_time(limit, last))
        elif axis == "distance":
            gathered.bounds.append(_by_counter("distance", limit, last, last.odometer_km, known["distance"]))
        elif axis in known:
            stood = last.hours_min if axis == "hours" else last.fuel_l
            gathered.bounds.append(_by_counter("hours" if axis == "hours" else "fuel", limit, last, stood, known[axis]))
        else:
            gathered.settles.append(say("due.settle_counter", item=name, limit=limit))


def _by_time(limit: Figure, last: Done) -> _Bound:
    first, final = last.about or (last.day, last.day)
    early, likely, late = (_later(day, limit) for day in (first, last.day, final))
    lead = min(LEAD_DAYS, (likely - last.day).days // LEAD_SHARE)
    key = "due.time_about" if last.about else "due.time"
    reason = say(key, limit=limit, last_day=last.day, first=first, final=final, day=likely)
    return _Bound(binds="time", days=DaySpread(early - dt.timedelta(days=lead), likely, late), limit=limit, reason=reason)


def _later(day: dt.date, limit: Figure) -> dt.date:
    amount = float(limit.value)
    if limit.unit in ("month", "year"):
        return after_months(day, round(amount * (12 if limit.unit == "year" else 1)))
    return day + dt.timedelta(days=round(amount * (7 if limit.unit == "week" else 1)))


def _by_counter(
    binds: Literal["distance", "hours", "fuel"], limit: Figure, last: Done, stood: float | None, forecast: UsageForecast
) -> _Bound:
    core = _CORE[binds]
    ahead_key, passed_key, since_key = _SAYINGS[binds]
    step = in_unit(float(limit.value), unit=limit.unit, to=core)
    first, final = last.about or (last.day, last.day)
    guessed = stood is None
    if guessed:
        stood = forecast.value_on(last.day)
    if stood is None or forecast.last_value is None:
        # Nobody noted the counter: what matters is the distance since then, at the rate that is believed.
        early, likely, late = (forecast.passage_after(day, ahead_km=step) for day in (first, last.day, final))
        days = DaySpread(early.earliest, likely.likely, late.latest)
        at = None if stood is None else Figure(stood + step, core, Source("computed"))
        reason = say(since_key, limit=limit, last_day=last.day, likely=days.likely)
        return _Bound(binds=binds, days=days, limit=limit, reason=reason, due_at=at)
    spread = forecast.passage(stood + step)
    if guessed and last.about:
        low, high = forecast.value_on(first), forecast.value_on(final)
        spread = DaySpread(
            forecast.passage((stood if low is None else low) + step).earliest,
            spread.likely,
            forecast.passage((stood if high is None else high) + step).latest,
        )
    at = Figure(stood + step, core, Source("computed"))
    passed = forecast.last_value >= stood + step
    left = Figure(stood + step - forecast.last_value, core, Source("computed"))
    over = Figure(-float(left.value), core, Source("computed"))
    reason = say(
        passed_key if passed else ahead_key,
        limit=limit,
        last_day=last.day,
        at=at,
        likely=spread.likely,
        left=left,
        over=over,
        read_on=forecast.last_day,
    )
    return _Bound(binds=binds, days=spread, limit=limit, reason=reason, passed=passed, due_at=at)


def _judged(
    key: str, name: str, last: Done | None, today: dt.date, gathered: _Gathered, odometer: UsageForecast, expected: bool
) -> DueItem:
    bounds = sorted(gathered.bounds, key=lambda bound: bound.days.likely or dt.date.max)
    reasons = (*gathered.reasons, *(bound.reason for bound in bounds))
    settles = tuple(gathered.settles)
    if not bounds:
        state = NOT_KNOWN if expected else BEFORE
        return DueItem(item=key, name=name, state=state, reasons=reasons, settles=settles, last=last)
    opens = min((bound.days.earliest for bound in bounds if bound.days.earliest), default=None)
    closes = min((bound.days.latest for bound in bounds if bound.days.latest), default=None)
    likely = bounds[0].days.likely
    if any(bound.passed for bound in bounds) or (closes is not None and today > closes):
        state = PAST
    elif opens is not None and today >= opens:
        state = IN_WINDOW
    else:
        state = NOT_KNOWN if settles else BEFORE
    due_at = next((bound.due_at for bound in bounds if bound.binds == "distance"), None)
    return DueItem(
        item=key,
        name=name,
        state=state,
        likely=likely,
        opens=opens,
        closes=closes,
        binds=bounds[0].binds,
        limit=bounds[0].limit,
        due_at=due_at,
        chance_past=_chance_past(bounds, today, odometer),
        reasons=reasons,
        settles=settles,
        last=last,
    )


def _chance_past(bounds: Sequence[_Bound], today: dt.date, odometer: UsageForecast) -> float | None:
    """Return the chance that a limit has been passed by `today`."""
    dates = [bound.days.latest for bound in bounds if bound.binds == "time" and bound.days.latest is not None]
    if any(bound.passed for bound in bounds) or any(day < today for day in dates):
        return 1.0
    chances = [
        odometer.chance_past(float(bound.due_at.value), today) for bound in bounds if bound.binds == "distance" and bound.due_at is not None
    ]
    return next((chance for chance in chances if chance is not None), 0.0 if dates else None)
