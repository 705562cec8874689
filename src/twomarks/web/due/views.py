"""What is due, on which vehicle, and by when."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from twomarks.keeping import questions
from twomarks.planning.due import BEFORE, IN_WINDOW, NOT_KNOWN, PAST, DueItem
from twomarks.planning.due.said import what_drives
from twomarks.web.look.pictures import LyingRange, Timescale, lying_range, short_day, timescale
from twomarks.web.visit import TitleBlock, visit_of
from twomarks.words import Message, Reader, Wording, say

__all__ = ["DueLine", "lines", "page"]

NEAR_DAYS = 200
"""Windows as near as this share one line of time, so that they can be compared; one further off has a longer line."""
LATER_DAYS = 90
"""A window that opens later than this is one line until it is asked for."""
ORDER = {PAST: 0, IN_WINDOW: 1, BEFORE: 2, NOT_KNOWN: 3}


@dataclass(frozen=True, slots=True)
class DueLine:
    """A due item as the page shows it."""

    vehicle: str
    item: DueItem
    picture: LyingRange | None
    likely: str
    days: int
    has_work: bool
    general: bool = False

    @property
    def name(self) -> Message | Wording:
        """The item's own name; one of general practice is named by its question."""
        return say(f"general.{self.item.item}") if self.general else Wording(self.item.name)

    @property
    def drives(self) -> Message | None:
        """Which limit comes first, and what is left of it."""
        return what_drives(self.item)

    @property
    def later(self) -> bool:
        """Whether its window is still far off."""
        return self.item.state == BEFORE and self.days > LATER_DAYS

    @property
    def state(self) -> str:
        """The state as one word, for the template to choose its sentence."""
        return {PAST: "past", IN_WINDOW: "inside", BEFORE: "before"}.get(self.item.state, "unknown")


def lines(items: Iterable[tuple[str, DueItem, bool, bool]], *, today: dt.date, reader: Reader) -> tuple[DueLine, ...]:
    """Return the items in the order in which they need somebody, the near ones on one scale of time."""
    known = sorted(items, key=lambda pair: (ORDER[pair[1].state], pair[1].likely or dt.date.max, pair[0], pair[1].name))
    near = timescale((day for _, item, *_ in known if _is_near(item, today) for day in (item.opens, item.closes)), today=today)
    return tuple(
        _line(
            vehicle, item, has_work, general, scale=near if _is_near(item, today) else _own_scale(item, today), today=today, reader=reader
        )
        for vehicle, item, has_work, general in known
    )


def _is_near(item: DueItem, today: dt.date) -> bool:
    days = [abs((day - today).days) for day in (item.opens, item.closes) if day is not None]
    return bool(days) and max(days) <= NEAR_DAYS


def _own_scale(item: DueItem, today: dt.date) -> Timescale:
    return timescale((item.opens, item.closes), today=today)


def _line(vehicle: str, item: DueItem, has_work: bool, general: bool, *, scale: Timescale, today: dt.date, reader: Reader) -> DueLine:
    picture = None
    if item.opens is not None or item.closes is not None:
        picture = lying_range(
            scale,
            opens=item.opens,
            closes=item.closes,
            likely=item.likely,
            today=today,
            today_word="today",
            reader=reader,
        )
    likely = short_day(item.likely, today=today, reader=reader) if item.likely else ""
    days = ((item.opens or item.closes or today) - today).days
    return DueLine(vehicle, item, picture, likely, days, has_work, general)


def _by_vehicle(unknown: Iterable[DueLine]) -> list[tuple[str, list[DueLine]]]:
    found: dict[str, list[DueLine]] = {}
    for line in unknown:
        found.setdefault(line.vehicle, []).append(line)
    return list(found.items())


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """Show every due item of every vehicle."""
    visit = visit_of(request)
    fleet = questions.vehicles(visit.scope)
    if not fleet:
        return redirect("start:page")
    items = []
    for vehicle in fleet:
        outlook = questions.outlook(visit.scope, vehicle.name, visit.today)
        for item in outlook.due:
            described = outlook.sheet.items.get(item.item)
            items.append((vehicle.name, item, bool(described and described.procedure), described is None))
    shown = lines(items, today=visit.today, reader=visit.reader)
    names = {str(vehicle.id): vehicle.name for vehicle in fleet}
    figures = {
        "lines": [line for line in shown if line.state != "unknown"],
        "soon": [line for line in shown if line.state != "unknown" and not line.later],
        "later": [line for line in shown if line.later],
        "unknown": _by_vehicle(line for line in shown if line.state == "unknown"),
        "follow_ups": [
            {"check": check, "vehicle": names.get(check.vehicle, check.vehicle)}
            for check in questions.follow_ups(visit.scope, still_open=True)
        ],
        "snags": [{"snag": snag, "vehicle": names.get(snag.vehicle, snag.vehicle)} for snag in questions.snags(visit.scope)],
        "fleet": [vehicle.name for vehicle in fleet],
        "title_block": TitleBlock(day=visit.today),
    }
    return render(request, "due/page.html", figures)
