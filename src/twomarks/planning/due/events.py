"""Work that something calls for out of turn: waded, overheated, dust, towed far, stood for months."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from twomarks.planning.due.dates import after_period, days_until, gone_by
from twomarks.planning.due.values import Bound, Done, Happening
from twomarks.planning.usage.forecast import DaySpread
from twomarks.words import Figure, Message, Source, say

if TYPE_CHECKING:
    from twomarks.model.service_items import ServiceItem
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["EVENTS", "after_events", "event_named", "known_events", "unanswered"]

EVENTS = ("waded", "overheated", "dust", "towed_far", "stood")
"""The events that are one tap; a sheet may name others."""
WITHIN = Figure(7, "day", Source("practice"))
"""How soon an event is answered where the sheet does not say; common practice, no source."""


def event_named(event: str) -> Message | str:
    """Return an event's own name: a sentence for one that is known, the sheet's word for another."""
    return say(f"event.{event}") if event in EVENTS else event.replace("_", " ")


def after_events(item: ServiceItem, last: Done | None, events: Sequence[Happening], today: dt.date) -> Iterator[Bound]:
    """Yield a limit for each event that calls for `item` and is still open: its window runs from the event for the stated days.

    Work on a later day closes an event. On the same day the order in which they were entered decides: an event entered
    after the work counts as open, since nobody drives through a ford between the last step and the daybook; work entered
    after the event came after it. Where the work is known only about, only a range that lies wholly after the event does.
    """
    called = [event for event in events if event.event in item.event]
    for event in sorted(called, key=lambda one: (one.day, one.number)):
        if last is not None and _came_after(last, event):
            continue
        within = item.within.figure if item.within else WITHIN
        until = after_period(event.day, within)
        same_day = last is not None and last.day == event.day and last.about is None
        yield Bound(
            binds="event",
            days=DaySpread(event.day, until, until),
            limit=Figure(event.event, "", None if item.within is None else item.within.figure.source),
            reason=say("due.event_same_day" if same_day else "due.event", event=event_named(event.event), day=event.day, within=within),
            chance=gone_by(until, until),
            left=days_until(until, today),
        )


def _came_after(last: Done, event: Happening) -> bool:
    earliest = last.about[0] if last.about else last.day
    if earliest != event.day or last.about:
        return earliest > event.day
    return last.number > event.number


def known_events(sheet: VehicleSheet) -> tuple[str, ...]:
    """Return the events that can be entered for a vehicle: those of one tap, and those that its sheet names."""
    own = (event for item in sheet.items.values() for event in item.event)
    return tuple(dict.fromkeys((*EVENTS, *own)))


def unanswered(event: str, sheet: VehicleSheet) -> Message | None:
    """Return what is usually looked at after an event that no item of the sheet is called for by; None where one is."""
    if event not in EVENTS or any(event in item.event for item in sheet.items.values()):
        return None
    return say(f"event.after_{event}")
