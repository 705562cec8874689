"""The library of procedures, read-only."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from twomarks.model.procedure import Procedure, placeholders
from twomarks.procedures.library import library
from twomarks.words import Value, Wording, say

__all__ = ["page", "plainly", "procedure_page"]


@dataclass(frozen=True, slots=True)
class PlainStep:
    """A step as the library words it, before any vehicle gives it figures."""

    number: int
    words: Wording | None
    cautions: tuple[tuple[str, Wording | None], ...]
    look: Wording | None
    accept: Wording | None
    reject: Wording | None
    condition: Wording | None
    amount: Wording | None


def plainly(text: str | None, procedure: Procedure) -> Wording | None:
    """Return an author's words with the names of the roles where a vehicle's figures will stand."""
    if not text:
        return None
    figures: dict[str, Value] = {}
    for role, fact in placeholders(text):
        known = procedure.roles.get(role)
        owner = Wording(known.name) if known else role.replace("_", " ")
        if role != "term":
            figures[f"{role}.{fact}" if fact else role] = say("web.figure_of", fact=fact.replace("_", " "), owner=owner) if fact else owner
    return Wording(text, figures)


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """List the procedures."""
    return render(request, "procedures/page.html", {"procedures": tuple(library().values())})


@require_safe
def procedure_page(request: HttpRequest, key: str) -> HttpResponse:
    """Show the words of one procedure."""
    procedure = library().get(key)
    if procedure is None:
        raise Http404

    def said(text: str | None) -> Wording | None:
        return plainly(text, procedure)

    steps = tuple(
        PlainStep(
            number=number,
            words=said(step.words),
            cautions=tuple((caution.signal, said(caution.words)) for caution in step.caution),
            look=said(step.look),
            accept=said(step.accept),
            reject=said(step.reject),
            condition=said(step.condition.words) if step.condition else None,
            amount=said(step.amount),
        )
        for number, step in enumerate(procedure.steps, start=1)
    )
    hazards = tuple((hazard.signal, said(hazard.words)) for hazard in procedure.hazards)
    figures = {"procedure": procedure, "steps": steps, "hazards": hazards, "purpose": said(procedure.purpose)}
    return render(request, "procedures/procedure.html", figures)
