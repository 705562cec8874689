"""Workdays: the list, what a day needs, the card and its marks."""

from __future__ import annotations

from uuid import UUID, uuid4

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.services.workdays import start_workday
from twomarks.web.visit import TitleBlock, visit_of
from twomarks.web.workdays.card_page import shown
from twomarks.web.workdays.posted import keep_ticks, ticks_in
from twomarks.words import message_of
from twomarks.words import render as said

__all__ = ["card_page", "page", "paper", "ticks_of", "walk", "worker"]


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """List the workdays by date, and the vehicles whose work can be prepared."""
    visit = visit_of(request)
    figures = {"workdays": questions.workdays(visit.scope), "vehicles": questions.vehicles(visit.scope)}
    return render(request, "workdays/page.html", figures)


@require_POST
def walk(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Start the walk-round: a card that needs no figures."""
    from twomarks.planning.card_from import job_card
    from twomarks.procedures.binding import bind
    from twomarks.procedures.kit import Kit
    from twomarks.procedures.library import library_procedure
    from twomarks.procedures.needs import needs_of
    from twomarks.procedures.rehearsal import rehearse

    visit = visit_of(request)
    bound = bind(library_procedure("walk-round"), questions.sheet(visit.scope, vehicle))
    card = job_card(bound, rehearse(bound, Kit()), needs_of(bound), card_id=uuid4(), day=visit.today)
    started = start_workday(visit.scope, card)
    return redirect("workdays:card", card=started.card)


@require_safe
@ensure_csrf_cookie
def card_page(request: HttpRequest, card: UUID) -> HttpResponse:
    """Show a job card to be worked from."""
    visit = visit_of(request)
    try:
        frozen = questions.card(visit.scope, card)
    except InputError:
        raise Http404 from None
    figures = shown(frozen, questions.ticks(visit.scope, card))
    revisions = ", ".join(f"{revision.key} {revision.sha256[:7]}" for revision in frozen.revisions)
    figures |= {
        "ticks_url": reverse("workdays:ticks", args=[card]),
        "paper_url": reverse("workdays:paper", args=[card]),
        "enter_url": reverse("daybook:enter", args=[frozen.vehicle]) + f"?card={card}",
        "title_block": TitleBlock(vehicle=frozen.vehicle, counter=frozen.odometer, day=frozen.day, revision=revisions),
    }
    return render(request, "workdays/card.html", figures)


@require_http_methods(["GET", "HEAD", "POST"])
@ensure_csrf_cookie
def ticks_of(request: HttpRequest, card: UUID) -> HttpResponse:
    """Take the marks of a device; asked for nothing, hand out the cookie that a kept page may have lost."""
    visit = visit_of(request)
    if request.method != "POST":
        return JsonResponse({"card": str(card)})
    try:
        taken = keep_ticks(visit.scope, card, ticks_in(request.body, card=card, person=str(visit.scope.person)))
    except InputError as error:
        return JsonResponse({"said": said(message_of(error), visit.reader)}, status=400)
    refused = [{"id": id, "words": said(message_of(error), visit.reader)} for id, error in taken.refused]
    return JsonResponse({"kept": list(taken.kept), "refused": refused})


@require_safe
def paper(request: HttpRequest, card: UUID) -> HttpResponse:
    """Hand out the card as PDF."""
    from twomarks.paper.job_card import job_card_pdf

    visit = visit_of(request)
    frozen = questions.card(visit.scope, card)
    response = HttpResponse(job_card_pdf(frozen, visit.reader), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{frozen.vehicle}-{frozen.day.isoformat()}.pdf"'
    return response


@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """Hand out the worker that keeps a card on the device; it must come from the root."""
    response = HttpResponse(packaged.text("web/workdays/static/workdays/worker.js"), content_type="text/javascript; charset=utf-8")
    response["Cache-Control"] = "no-cache"
    return response
