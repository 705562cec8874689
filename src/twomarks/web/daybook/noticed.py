"""What happened to a vehicle, what was seen and measured on it, and how it is driven: one page, each kept alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.questions.noticed import use_question
from twomarks.keeping.services.entered import Entered, record_entered
from twomarks.model.ledger import Answer, Measurement, Snag, VehicleEvent
from twomarks.planning.due.events import event_named, known_events, unanswered
from twomarks.planning.general import with_general
from twomarks.web.daybook.noticed_forms import MeasuredForm, SnagForm, UseForm
from twomarks.web.look.typed import TypedForm
from twomarks.web.visit import TitleBlock, Visit, visit_of
from twomarks.words import Message, Wording

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["event", "measured", "page", "snag", "use"]


class _Forms:
    """The three forms of the page; the one that was sent holds what was typed."""

    def __init__(self, request: HttpRequest, visit: Visit, sheet: VehicleSheet) -> None:
        typed = request.POST if request.method == "POST" else None
        known: dict[str, Any] = {"reader": visit.reader, "today": visit.today}
        today = {"day": visit.today.isoformat()}
        prefixes = {"" if typed is None else key.partition("-")[0] for key in typed or ()}
        stated = {**sheet.use.stated, **questions.stated_use(visit.scope, sheet.name)}
        self.snag = SnagForm(typed if "snag" in prefixes else None, initial=today, **known)
        self.measured = MeasuredForm(typed if "measured" in prefixes else None, initial=today, sheet=sheet, **known)
        self.use = UseForm(typed if "use" in prefixes else None, stated=stated, **known)


@require_safe
def page(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Ask what happened, what was seen, what was measured, and how it is driven."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    return _shown(request, visit, sheet, _Forms(request, visit, sheet))


def _shown(request: HttpRequest, visit: Visit, sheet: VehicleSheet, forms: _Forms) -> HttpResponse:
    faulty = any(form.errors for form in (forms.snag, forms.measured, forms.use))
    told = request.GET.get("event", "")
    figures = {
        "vehicle": sheet.name,
        "events": [(word, _spoken(event_named(word))) for word in known_events(sheet)],
        "advice": unanswered(told, with_general(sheet, done={}, answers={}, today=visit.today)[0]),
        "forms": forms,
        "faulty": faulty,
        "last": [(one.day, _spoken(event_named(one.event))) for one in questions.vehicle_events(visit.scope, sheet.name)[:-4:-1]],
        "title_block": TitleBlock(vehicle=sheet.name, day=visit.today),
    }
    return render(request, "daybook/noticed.html", figures, status=400 if faulty else 200)


def _spoken(name: Message | str) -> Message | Wording:
    return Wording(name) if isinstance(name, str) else name


@require_POST
def event(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep that something happened today: one tap."""
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    word = request.POST.get("event", "")
    known = known_events(sheet)
    if word not in known:
        raise InputError("enter.event", where="event", found=word, expected=known)
    happened = VehicleEvent(day=visit.today, vehicle=sheet.name, event=word)
    record_entered(visit.scope, sheet.name, Entered(events=(happened,)), today=visit.today)
    answer = redirect("daybook:noticed", vehicle=sheet.name)
    answer["Location"] += f"?event={word}#happened"
    return answer


@require_POST
def snag(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep something that was noticed."""

    def entered(_: Visit, sheet: VehicleSheet, forms: _Forms) -> Entered:
        said = forms.snag.cleaned_data
        found = Snag(day=said["day"], vehicle=sheet.name, what=said["what"], where=said["where"].strip(), how_bad=said["how_bad"])
        return Entered(snags=(found,))

    return _kept(request, vehicle, lambda forms: forms.snag, entered)


@require_POST
def measured(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep what was measured."""

    def entered(_: Visit, sheet: VehicleSheet, forms: _Forms) -> Entered:
        day = forms.measured.cleaned_data["day"]
        return Entered(
            measurements=tuple(
                Measurement(day=day, vehicle=sheet.name, item=item, place=place, kind=value.kind, steps=value.steps, text=value.text)
                for item, place, value in forms.measured.values
            )
        )

    return _kept(request, vehicle, lambda forms: forms.measured, entered)


@require_POST
def use(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep how the vehicle is driven."""

    def entered(visit: Visit, sheet: VehicleSheet, forms: _Forms) -> Entered:
        known = str(questions.vehicle(visit.scope, sheet.name).id)
        answers = tuple(
            Answer(day=visit.today, question=use_question(known, name), word=word)
            for name, word in forms.use.cleaned_data.items()
            if word and word != forms.use.fields[name].initial
        )
        return Entered(answers=answers)

    return _kept(request, vehicle, lambda forms: forms.use, entered)


def _kept(
    request: HttpRequest, vehicle: str, sent: Callable[[_Forms], TypedForm], entered: Callable[[Visit, VehicleSheet, _Forms], Entered]
) -> HttpResponse:
    visit = visit_of(request)
    sheet = questions.sheet(visit.scope, vehicle)
    forms = _Forms(request, visit, sheet)
    form = sent(forms)
    if form.is_valid():
        try:
            record_entered(visit.scope, sheet.name, entered(visit, sheet, forms), today=visit.today)
        except InputError as error:
            form.refuse(next(iter(form.fields)), error)
        else:
            return redirect("daybook:vehicle", vehicle=sheet.name)
    return _shown(request, visit, sheet, forms)
