"""Every service item of a vehicle on a day: all its limits, its state, and which of them drives it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from twomarks.planning.due.counters import AXES, by_counter
from twomarks.planning.due.dates import after_period, by_date, by_time
from twomarks.planning.due.events import after_events, event_named
from twomarks.planning.due.first_day import first_days
from twomarks.planning.due.measured import measured_limits
from twomarks.planning.due.use import is_hard, limits_of, use_reasons
from twomarks.planning.due.values import BEFORE, IN_WINDOW, NOT_KNOWN, PAST, Bound, Done, DueItem, DueState, Happening
from twomarks.planning.usage.forecast import HIGH, UsageForecast
from twomarks.units import in_unit
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.ledger import Measurement
    from twomarks.model.service_items import ServiceItem
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["due_items"]

_ORDER: Mapping[str, int] = {PAST: 0, IN_WINDOW: 1, BEFORE: 2, NOT_KNOWN: 3}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What is known of the vehicle beside the item."""

    today: dt.date
    counters: Mapping[str, UsageForecast]
    events: Sequence[Happening]
    measurements: Sequence[Measurement]
    stated: Mapping[str, str]
    kept_since: dt.date | None
    now: Mapping[str, float | None]


@dataclass(slots=True)
class _Gathered:
    hard: bool = False
    bounds: list[Bound] = field(default_factory=list)
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
    measurements: Sequence[Measurement] = (),
    stated: Mapping[str, str] = MappingProxyType({}),
    kept_since: dt.date | None = None,
) -> tuple[DueItem, ...]:
    """Return every service item of `sheet`: those past their limit first, then by day, those not known last.

    `forecast` is that of the odometer; `counters` holds those of "hours" and "fuel" where the vehicle counts them.
    `stated` is how the owner said the vehicle is driven, beside what the sheet says and before it; `kept_since` the day of
    the first entry in its daybook.
    """
    all_counters = {"distance": forecast, **counters}
    known = _Known(
        today=today,
        counters=all_counters,
        now={axis: spread.likely if (spread := one.spread_on(today)) else None for axis, one in all_counters.items()},
        events=events,
        measurements=measurements,
        stated={**sheet.use.stated, **stated},
        kept_since=kept_since,
    )
    found = [_due_item(key, item, _last_done(key, item, done), known) for key, item in sheet.items.items() if not item.retired]
    return tuple(sorted(found, key=lambda due: (_ORDER[due.state], due.likely or dt.date.max, due.item)))


def _last_done(key: str, item: ServiceItem, done: Mapping[str, Done]) -> Done | None:
    """Return when an item was last done, under its key or one that it had earlier."""
    found = [done[name] for name in (key, *item.was) if name in done]
    return max(found, key=lambda one: (one.day, one.number), default=None)


def _due_item(key: str, item: ServiceItem, last: Done | None, known: _Known) -> DueItem:
    name = item.name or key
    gathered = _Gathered(hard=is_hard(item, known.stated))
    gathered.reasons += use_reasons(item, known.stated)
    limits = limits_of(item, hard=gathered.hard)
    gathered.bounds += after_events(item, last, known.events, known.today)
    _measure(key, item, last, known, gathered)
    dated = by_date(item, last, known.today)
    if dated is not None:
        gathered.bounds.append(dated)
    elif item.by is not None and last is not None:
        gathered.reasons.append(say("due.date_met", day=item.by.day, done=last.day))
    if not limits:
        _without_limits(item, name, gathered)
    elif last is None:
        gathered.reasons.append(_never_recorded(name, limits, known))
        gathered.settles.append(say("due.settle_last", item=name))
    else:
        _count(limits, last, known, gathered, name)
    return _judged(key, name, last, known.today, gathered, bool(limits) or not _called_for(item))


def _called_for(item: ServiceItem) -> bool:
    """Return whether an item without an interval still has something that will call for it."""
    return bool(item.event or item.measured or item.by)


def _measure(key: str, item: ServiceItem, last: Done | None, known: _Known, gathered: _Gathered) -> None:
    if item.measured is None:
        return
    values = [one for one in known.measurements if one.item in (key, *item.was)]
    found = measured_limits(
        item.measured, values, last, known.counters["distance"], name=item.name or key, today=known.today, now_km=known.now["distance"]
    )
    gathered.bounds += found.bounds
    gathered.reasons += found.reasons
    gathered.settles += found.settles


def _without_limits(item: ServiceItem, name: str, gathered: _Gathered) -> None:
    if not _called_for(item):
        gathered.settles.append(say("due.settle_interval", item=name))
    elif item.event and not (item.measured or item.by):
        gathered.reasons.append(say("due.only_after", event=tuple(event_named(event) for event in item.event)))


def _never_recorded(name: str, limits: Mapping[str, Figure], known: _Known) -> Message:
    """Say that an item was never entered, and by when it falls due at the latest if nothing was left out of the daybook."""
    days: list[dt.date | None] = []
    if known.kept_since is not None:
        if "time" in limits:
            days.append(after_period(known.kept_since, limits["time"]))
        if "distance" in limits:
            days.append(_latest_by_distance(limits["distance"], known.kept_since, known.counters["distance"]))
    latest = min((day for day in days if day is not None), default=None)
    gone = latest is not None and latest < known.today
    key = "due.never_recorded" if latest is None else "due.never_recorded_past" if gone else "due.never_recorded_since"
    return say(key, item=name, since=known.kept_since, latest=latest)


def _latest_by_distance(limit: Figure, since: dt.date, forecast: UsageForecast) -> dt.date | None:
    """Return the day by which `limit` has been driven since a day, nine times in ten."""
    step = in_unit(float(limit.value), unit=limit.unit, to="km")
    stood = forecast.value_on(since)
    if stood is None or forecast.last_day is None:
        return None
    return first_days(lambda day: forecast.chance_past(stood + step, day), (HIGH,), max(since, forecast.last_day))[0]


def _count(limits: Mapping[str, Figure], last: Done, known: _Known, gathered: _Gathered, name: str) -> None:
    if "time" in limits:
        gathered.bounds.append(by_time(limits["time"], last, known.today))
    for axis in AXES:
        if axis not in limits:
            continue
        if axis in known.counters:
            gathered.bounds.append(by_counter(axis, limits[axis], last, known.counters[axis], known.now[axis]))
        else:
            gathered.settles.append(say("due.settle_counter", item=name, limit=limits[axis]))


def _judged(key: str, name: str, last: Done | None, today: dt.date, gathered: _Gathered, expected: bool) -> DueItem:
    bounds = tuple(sorted(gathered.bounds, key=lambda bound: bound.days.likely or dt.date.max))
    reasons = (*gathered.reasons, *(bound.reason for bound in bounds))
    settles = tuple(gathered.settles)
    if not bounds:
        state = NOT_KNOWN if expected or settles else BEFORE
        return DueItem(item=key, name=name, state=state, reasons=reasons, settles=settles, last=last, hard_use=gathered.hard)
    opens = min((bound.days.earliest for bound in bounds if bound.days.earliest), default=None)
    closes = min((bound.days.latest for bound in bounds if bound.days.latest), default=None)
    first = bounds[0]
    return DueItem(
        item=key,
        name=name,
        state=_state(bounds, opens, closes, today, settled=not settles),
        likely=first.days.likely,
        opens=opens,
        closes=closes,
        binds=first.binds,
        limit=first.limit,
        due_at=next((bound.due_at for bound in bounds if bound.binds == "distance"), None),
        chance_past=max((chance for bound in bounds if (chance := bound.chance(today)) is not None), default=None),
        reasons=reasons,
        settles=settles,
        last=last,
        left=first.left,
        days_left=None if first.days.likely is None else (first.days.likely - today).days,
        hard_use=gathered.hard,
        bounds=bounds,
    )


def _state(bounds: Sequence[Bound], opens: dt.date | None, closes: dt.date | None, today: dt.date, *, settled: bool) -> DueState:
    if any(bound.passed for bound in bounds) or (closes is not None and today > closes):
        return PAST
    if opens is not None and today >= opens:
        return IN_WINDOW
    return BEFORE if settled else NOT_KNOWN
