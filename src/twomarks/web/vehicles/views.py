"""The vehicles and their sheets."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from twomarks.keeping import questions
from twomarks.web.vehicles.facts_shown import groups_of
from twomarks.web.visit import TitleBlock, visit_of
from twomarks.words import Figure, say

__all__ = ["page", "sheet_page"]


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """List the vehicles."""
    visit = visit_of(request)
    fleet = questions.vehicles(visit.scope)
    shown = [(vehicle, questions.history(visit.scope, vehicle.name, visit.today).clean[-1:]) for vehicle in fleet]
    lines = [
        {"vehicle": vehicle, "last": last[0] if last else None, "odometer": Figure(last[0].value, "km") if last else None}
        for vehicle, last in shown
    ]
    return render(request, "vehicles/page.html", {"lines": lines})


@require_safe
def sheet_page(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Show a vehicle's sheet: every fact with its source, and whether it was confirmed on this vehicle."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    revision = questions.sheet_revision(visit.scope, vehicle)
    clean = questions.history(visit.scope, vehicle, visit.today).clean
    count = len(sheet.unsourced)
    figures = {
        "sheet": sheet,
        "groups": groups_of(sheet),
        "items": tuple(sheet.items.values()),
        "unsourced": count,
        "title_block": TitleBlock(
            vehicle=sheet.name,
            counter=Figure(clean[-1].value, "km") if clean else None,
            day=visit.today,
            revision=f"{revision.number}, {revision.sha256[:7]}",
            sources=say("web.unsourced", count=count) if count else say("web.all_sourced"),
        ),
    }
    return render(request, "vehicles/sheet.html", figures)
