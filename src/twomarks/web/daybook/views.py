"""The daybook: what was done, what was read, and the forms that enter it."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from twomarks import units
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.services.follow_ups import close_follow_up
from twomarks.keeping.services.levels import record_level_check
from twomarks.keeping.services.readings import confirm_reading, record_reading
from twomarks.keeping.services.worked import Worked, record_work
from twomarks.model.ledger import Entry, LevelCheck, Reading, Tick
from twomarks.planning.card import JobCard
from twomarks.web.daybook.forms import EntryForm, LevelForm, OdometerForm
from twomarks.web.look.pictures import stick
from twomarks.web.visit import TitleBlock, Visit, visit_of
from twomarks.words import Figure

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["check_done", "confirm", "enter", "level", "odometer", "page", "vehicle_page"]

OUT_OF_ORDER = ("keeping.reading_below", "keeping.reading_above")
READINGS_SHOWN = 12


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """List the vehicles with their latest entries."""
    visit = visit_of(request)
    shown = [(vehicle, questions.daybook(visit.scope, vehicle.name).entries[:3]) for vehicle in questions.vehicles(visit.scope)]
    return render(request, "daybook/page.html", {"vehicles": shown})


@require_safe
def vehicle_page(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Show a vehicle's daybook: entries, level, odometer with what was flagged."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    book = questions.daybook(visit.scope, vehicle)
    judged = questions.history(visit.scope, vehicle, visit.today)
    last = judged.clean[-1] if judged.clean else None
    check = book.level_checks[0] if book.level_checks else None
    figures = {
        "vehicle": sheet.name,
        "entries": [{"entry": entry, "figures": _figures(entry)} for entry in book.entries],
        "items": {key: item.name for key, item in sheet.items.items()},
        "check": check,
        "check_picture": stick(reading=check.permille / 1000, text="read") if check else None,
        "level_checks": [{"check": one, "share": f"{one.permille / 10:.0f} %"} for one in book.level_checks],
        "snags": questions.snags(visit.scope, vehicle),
        "measured": _measured(visit, sheet),
        "follow_ups": (*questions.follow_ups(visit.scope, vehicle, still_open=True), *(one for one in book.follow_ups if one.done_on)),
        "flags": judged.flags,
        "used": judged.used,
        "readings": [{"day": one.day, "figure": Figure(one.value, "km")} for one in judged.clean[: -READINGS_SHOWN - 1 : -1]],
        "last": Figure(last.value, "km") if last else None,
        "title_block": TitleBlock(vehicle=sheet.name, counter=Figure(last.value, "km") if last else None, day=visit.today),
    }
    return render(request, "daybook/vehicle.html", figures)


def _measured(visit: Visit, sheet: VehicleSheet) -> list[dict[str, Any]]:
    """Return the last measured values, the newest first."""
    found = []
    for one in questions.measurements(visit.scope, sheet.name)[: -READINGS_SHOWN - 1 : -1]:
        item = sheet.items.get(one.item)
        what = (item.measured.what if item and item.measured else "") or (item.name if item else "") or one.item.replace("_", " ")
        found.append({"day": one.day, "what": what, "place": one.place, "figure": Figure(one.value, units.KINDS[one.kind].core)})
    return found


def _figures(entry: Entry) -> list[tuple[str, Figure]]:
    found = []
    for word, steps, kind in (
        ("odometer", entry.odometer_steps, "distance"),
        ("in", entry.volume_in_ml, "volume"),
        ("out", entry.volume_out_ml, "volume"),
    ):
        if steps is not None:
            found.append((word, Figure(units.from_steps(steps, kind=kind), units.KINDS[kind].core)))
    return found


@require_http_methods(["GET", "HEAD", "POST"])
def enter(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Enter what was done; from a card, with what the card knows already filled in."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    shelf = questions.shelf(visit.scope)
    asked = request.GET.get("card") or request.POST.get("card") or ""
    card = questions.card(visit.scope, asked) if asked else None
    ticks = questions.ticks(visit.scope, asked) if asked else ()
    form = EntryForm(
        request.POST if request.method == "POST" else None,
        initial=_known_from(card, ticks, visit.today),
        reader=visit.reader,
        today=visit.today,
        items={key: item.name for key, item in sheet.items.items()},
        products={key: oil.name for key, oil in shelf.oils.items()} if shelf else {},
        cans={key: can.name for key, can in shelf.cans.items()} if shelf else {},
        snags={str(snag.root): snag.what.capitalize() for snag in questions.snags(visit.scope, vehicle)},
        odometer_unit=_odometer_unit(sheet),
    )
    if request.method == "POST" and form.is_valid() and _kept_entry(visit, vehicle, form, card, sheet):
        return redirect("daybook:vehicle", vehicle=vehicle)
    figures = {
        "form": form,
        "vehicle": sheet.name,
        "card": card,
        "ticks": ticks,
        "title_block": TitleBlock(vehicle=sheet.name, day=visit.today),
    }
    return render(request, "daybook/enter.html", figures, status=400 if form.errors else 200)


def _known_from(card: JobCard | None, ticks: tuple[Tick, ...], today: dt.date) -> dict[str, Any]:
    if card is None:
        return {"day": today.isoformat()}
    found: dict[str, Any] = {"day": min(card.day, today).isoformat(), "title": card.title, "items": list(card.items)}
    for tick in ticks:
        name, _, text = tick.words.partition(": ")
        if tick.what == "figure" and name == "odometer":
            found["odometer"] = text
    return found


def _odometer_unit(sheet: VehicleSheet) -> str:
    counter = sheet.counters.get("odometer")
    return counter.unit if counter else ""


def _kept_entry(visit: Visit, vehicle: str, form: EntryForm, card: JobCard | None, sheet: VehicleSheet) -> bool:
    said = form.cleaned_data
    poured, drained = said["volume_in"], said["volume_out"]
    worked = Worked(
        day=said["day"],
        items=tuple(said["items"]),
        title=said["title"],
        odometer_steps=said["odometer"].steps,
        text=said["odometer"].text,
        product=said["product"],
        volume_in_ml=poured.steps if poured else None,
        volume_out_ml=drained.steps if drained else None,
        can=said["can"],
        circuit=next(iter(sheet.circuits), "engine_oil"),
        level_permille=said["level"],
        card=UUID(card.id) if card else None,
        note=said["note"],
        cost_minor=said["cost"][0] if said["cost"] else None,
        currency=said["cost"][1] if said["cost"] else "",
        minutes=max(1, round(said["minutes"].core)) if said["minutes"] else None,
        snags=tuple(UUID(root) for root in said["snags"]),
    )
    try:
        record_work(visit.scope, vehicle, worked, force=said["anyway"], today=visit.today)
    except InputError as error:
        form.may_be_kept = error.key in OUT_OF_ORDER
        form.refuse("odometer" if error.key in OUT_OF_ORDER else "volume_in" if "stock" in error.key else "title", error)
        return False
    return True


@require_http_methods(["GET", "HEAD", "POST"])
def level(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Enter a reading of the stick."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    circuits = (
        [key for key, circuit in sheet.circuits.items() if str(_text(circuit.level)) == "dipstick"]
        or list(sheet.circuits)
        or ["engine_oil"]
    )
    form = LevelForm(
        request.POST if request.method == "POST" else None,
        initial={"day": visit.today.isoformat()},
        reader=visit.reader,
        today=visit.today,
        odometer_unit=_odometer_unit(sheet),
    )
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        check = LevelCheck(
            day=said["day"],
            circuit=circuits[0],
            permille=said["level"],
            minutes_since_stop=round(said["minutes"].core) if said["minutes"] else None,
            odometer_steps=said["odometer"].steps if said["odometer"] else None,
            note=said["note"],
        )
        try:
            record_level_check(visit.scope, vehicle, check, today=visit.today)
        except InputError as error:
            form.refuse("level", error)
        else:
            return redirect("daybook:vehicle", vehicle=vehicle)
    figures = {"form": form, "vehicle": sheet.name, "title_block": TitleBlock(vehicle=sheet.name, day=visit.today)}
    return render(request, "daybook/level.html", figures, status=400 if form.errors else 200)


def _text(fact: object) -> object:
    return getattr(fact, "text", fact)


@require_http_methods(["GET", "HEAD", "POST"])
def odometer(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Enter a reading of the odometer."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    form = OdometerForm(
        request.POST if request.method == "POST" else None,
        initial={"day": visit.today.isoformat()},
        reader=visit.reader,
        today=visit.today,
        odometer_unit=_odometer_unit(sheet),
    )
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        reading = Reading(day=said["day"], steps=said["odometer"].steps, text=said["odometer"].text)
        try:
            record_reading(visit.scope, vehicle, reading, force=said["anyway"], today=visit.today)
        except InputError as error:
            form.may_be_kept = error.key in OUT_OF_ORDER
            form.refuse("odometer", error)
        else:
            return redirect("daybook:vehicle", vehicle=vehicle)
    figures = {"form": form, "vehicle": sheet.name, "title_block": TitleBlock(vehicle=sheet.name, day=visit.today)}
    return render(request, "daybook/odometer.html", figures, status=400 if form.errors else 200)


@require_POST
def confirm(request: HttpRequest, vehicle: str, reading: UUID) -> HttpResponse:
    """Keep the owner's word that a reading that was left out is right."""
    visit = visit_of(request)
    confirm_reading(visit.scope, vehicle, reading, day=visit.today)
    return redirect("daybook:vehicle", vehicle=vehicle)


@require_POST
def check_done(request: HttpRequest, vehicle: str, check: UUID) -> HttpResponse:
    """Keep that a check was done today, and what was found."""
    visit = visit_of(request)
    close_follow_up(visit.scope, check, day=visit.today, result=request.POST.get("result", "").strip()[:500], today=visit.today)
    return redirect("daybook:vehicle", vehicle=vehicle)
