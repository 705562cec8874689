"""Workdays: the list, what a day needs, the card and its marks."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote
from uuid import UUID, uuid4

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.services.answers import record_answers
from twomarks.keeping.services.workdays import start_workday
from twomarks.model.ledger import Answer
from twomarks.web.visit import TitleBlock, Visit, visit_of
from twomarks.web.workdays.card_page import pour_tables, shown
from twomarks.web.workdays.posted import keep_ticks, ticks_in
from twomarks.web.workdays.prepared import ANSWERS, shown_job
from twomarks.words import message_of
from twomarks.words import render as said

if TYPE_CHECKING:
    from twomarks.planning.due import DueItem
    from twomarks.planning.preparation import Preparation

__all__ = ["answer", "card_page", "page", "paper", "prepare_page", "start", "ticks_of", "walk", "worker"]


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """List the workdays by date, and the vehicles whose work can be prepared."""
    visit = visit_of(request)
    figures = {"workdays": questions.workdays(visit.scope), "vehicles": questions.vehicles(visit.scope)}
    return render(request, "workdays/page.html", figures)


@require_safe
def prepare_page(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Show what the next work on a vehicle needs: oil, litres, buying, readiness, findings, and the card it makes."""
    visit = visit_of(request)
    item = request.GET.get("item") or None
    prepared = questions.prepare(visit.scope, vehicle, visit.today, item=item)
    shelf = questions.shelf(visit.scope)
    shops = {key: shop.name for key, shop in shelf.shops.items()} if shelf else {}
    figures = shown_job(prepared, shops=shops)
    if prepared.job.card.pour:
        figures |= pour_tables(prepared.job.card.pour)
    figures |= {
        "vehicle": prepared.vehicle,
        "item": item or "",
        "prepared": prepared,
        "alternatives": _others(visit, vehicle, prepared),
        "answers": ANSWERS,
        "already": [one for one in questions.workdays(visit.scope) if str(one.card) == prepared.job.card.id],
        "title_block": TitleBlock(vehicle=prepared.vehicle, counter=prepared.job.card.odometer, day=visit.today),
    }
    return render(request, "workdays/prepare.html", figures)


def _others(visit: Visit, vehicle: str, prepared: Preparation) -> list[DueItem]:
    known = questions.procedures(visit.scope)
    items = questions.sheet(visit.scope, vehicle).items
    return [one for one in prepared.due if one.item != prepared.job.item and one.item in items and items[one.item].procedure in known]


@require_POST
def answer(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Keep the answers to what readiness asked, and show the day again."""
    visit = visit_of(request)
    words = {word for word, _ in ANSWERS}
    said = [
        Answer(day=visit.today, question=name.removeprefix("answer:"), word=str(word))
        for name, word in request.POST.items()
        if name.startswith("answer:") and str(word) in words
    ]
    if said:
        record_answers(visit.scope, said, today=visit.today)
    return redirect(_prepared_url(vehicle, request.POST.get("item", "")))


def _prepared_url(vehicle: str, item: str) -> str:
    return reverse("workdays:prepare", args=[vehicle]) + (f"?item={quote(item)}" if item else "") + "#ready"


@require_POST
def start(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Start the workday: freeze the card as it is prepared now."""
    visit = visit_of(request)
    prepared = questions.prepare(visit.scope, vehicle, visit.today, item=request.POST.get("item") or None)
    return redirect("workdays:card", card=start_workday(visit.scope, prepared.job.card).card)


@require_POST
def walk(request: HttpRequest, vehicle: str) -> HttpResponse:
    """Start the walk-round: a card that needs no figures."""
    from twomarks.planning.card_from import job_card
    from twomarks.procedures.binding import bind
    from twomarks.procedures.needs import needs_of
    from twomarks.procedures.rehearsal import rehearse

    visit = visit_of(request)
    procedure = questions.procedures(visit.scope)["walk-round"]
    bound = bind(procedure, questions.sheet(visit.scope, vehicle))
    card = job_card(bound, rehearse(bound), needs_of(bound), card_id=uuid4(), day=visit.today)
    return redirect("workdays:card", card=start_workday(visit.scope, card).card)


@require_safe
@ensure_csrf_cookie
def card_page(request: HttpRequest, card: UUID) -> HttpResponse:
    """Show a job card to be worked from."""
    visit = visit_of(request)
    try:
        frozen = questions.card(visit.scope, card)
    except InputError:
        raise Http404 from None
    figures = shown(frozen, questions.ticks(visit.scope, card), call=questions.help_call(visit.scope), reader=visit.reader)
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
    refused = [{"id": tick, "words": said(message_of(error), visit.reader)} for tick, error in taken.refused]
    return JsonResponse({"kept": list(taken.kept), "refused": refused})


@require_safe
def paper(request: HttpRequest, card: UUID) -> HttpResponse:
    """Hand out the card as PDF."""
    from twomarks.paper.job_card import job_card_pdf

    visit = visit_of(request)
    frozen = questions.card(visit.scope, card)
    response = HttpResponse(job_card_pdf(frozen, visit.reader, questions.help_call(visit.scope)), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{frozen.vehicle}-{frozen.day.isoformat()}.pdf"'
    return response


@require_safe
def worker(_request: HttpRequest) -> HttpResponse:
    """Hand out the worker that keeps a card on the device; it must come from the root."""
    response = HttpResponse(packaged.text("web/workdays/static/workdays/worker.js"), content_type="text/javascript; charset=utf-8")
    response["Cache-Control"] = "no-cache"
    return response
