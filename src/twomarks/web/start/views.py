"""The first page and its answer."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.services.answers import record_answers
from twomarks.keeping.services.readings import record_reading
from twomarks.keeping.services.vehicles import add_vehicle
from twomarks.model.ledger import Answer, Reading
from twomarks.web.start.answer import LAST_DONE, answer_of
from twomarks.web.start.forms import StartForm
from twomarks.web.visit import TitleBlock, Visit, visit_of
from twomarks.words import say

__all__ = ["answer", "first", "general", "page"]


@require_safe
def first(request: HttpRequest) -> HttpResponse:
    """Open on what is due; where nothing is kept yet, on the two questions."""
    return redirect("due:page" if questions.vehicles(visit_of(request).scope) else "start:page")


@require_http_methods(["GET", "HEAD", "POST"])
def page(request: HttpRequest) -> HttpResponse:
    """Ask what it is and what the odometer says."""
    visit = visit_of(request)
    form = StartForm(request.POST if request.method == "POST" else None, reader=visit.reader, today=visit.today)
    if request.method == "POST" and form.is_valid():
        name = _kept(visit, form)
        if name:
            return redirect("start:answer", vehicle=name)
    first_one = not questions.vehicles(visit.scope)
    return render(request, "start/page.html", {"form": form, "first_one": first_one}, status=400 if form.errors else 200)


def _kept(visit: Visit, form: StartForm) -> str:
    from twomarks.model.writing import new_text

    said = form.cleaned_data
    names = {vehicle.name for vehicle in questions.vehicles(visit.scope)}
    name = said["name"].strip() or _free_name(dict(form.fields["kind"].choices)[said["kind"]], names)  # type: ignore[attr-defined]
    if name in names:
        form.refuse("name", say("web.name_taken", found=name))
        return ""
    sheet: dict[str, object] = {
        "format": "twomarks/vehicle/1",
        "name": name,
        "kind": said["kind"],
        "engine": {"fuel": said["fuel"]},
        "counters": {"odometer": {"unit": said["odometer"].unit}},
    }
    if said["label"].strip():
        sheet["circuits"] = {"engine_oil": {"name": "engine oil", "holds": {"value": said["label"].strip(), "source": "label"}}}
    try:
        add_vehicle(visit.scope, new_text(sheet), where=name)
        record_reading(
            visit.scope, name, Reading(day=visit.today, steps=said["odometer"].steps, text=said["odometer"].text), today=visit.today
        )
    except InputError as error:
        form.refuse("odometer", error)
        return ""
    return name


def _free_name(word: str, names: set[str]) -> str:
    number = 1
    while (f"{word} {number}" if number > 1 else word) in names:
        number += 1
    return f"{word} {number}" if number > 1 else word


@require_safe
def answer(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Answer at once, from the two questions alone."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    figures = {
        "sheet": sheet,
        **answer_of(visit.scope, sheet, today=visit.today),
        "title_block": TitleBlock(vehicle=sheet.name, day=visit.today),
    }
    return render(request, "start/answer.html", figures)


@require_POST
def general(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep when items of general practice were last done, as far as it is known."""
    visit = visit_of(request)
    name = questions.sheet(visit.scope, vehicle).name
    words = {word for word, _ in LAST_DONE}
    said = [
        Answer(day=visit.today, question=key, word=str(word))
        for key, word in request.POST.items()
        if key.startswith(f"last-done:{name}:") and word in words
    ]
    if said:
        record_answers(visit.scope, said, today=visit.today)
    return redirect("start:answer", vehicle=name)
