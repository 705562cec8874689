"""One visit: who asks, how they read, and which day it is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, cast

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.urls import reverse

from twomarks.errors import InputError
from twomarks.keeping import clock
from twomarks.keeping.questions.people import reader as kept_reader
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.households import find_scope
from twomarks.web.preferences import Preferences, preferences_of
from twomarks.words import PRESETS, Figure, Message, Reader

__all__ = ["PAGES", "TitleBlock", "Visit", "VisitMiddleware", "shown_on_every_page", "visit_of"]

PAGES = ("due", "vehicles", "procedures", "workdays", "shelf", "daybook")


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """The particulars at the foot of a page; what is empty is left out."""

    vehicle: str = ""
    counter: Figure | None = None
    day: dt.date | None = None
    revision: str = ""
    sources: Message | None = None


class Visit:
    """Asked for lazily, so that a page which needs no household does not ask for one."""

    def __init__(self, request: HttpRequest) -> None:
        self._request = request

    @cached_property
    def scope(self) -> Scope:
        """The one person of the one household; pages are served on this computer alone."""
        return find_scope()

    @cached_property
    def preferences(self) -> Preferences:
        """What this browser chose."""
        return preferences_of(self._request)

    @cached_property
    def reader(self) -> Reader:
        """How the person reads, here and on the command line; a plain reader where nobody can be told from another.

        The page that says what is wrong has a reader too.
        """
        try:
            return kept_reader(self.scope)
        except InputError:
            return Reader()

    @cached_property
    def today(self) -> dt.date:
        """The day that planning starts from; fixed where the pages are served for a fixed day."""
        fixed = getattr(settings, "TWOMARKS_ON", "")
        return dt.date.fromisoformat(fixed) if fixed else clock.today()


def visit_of(request: HttpRequest) -> Visit:
    """Return the visit of a request."""
    return cast("Visit", request.visit)  # type: ignore[attr-defined]


class VisitMiddleware:
    """Hangs the visit on the request."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on with its visit."""
        request.visit = Visit(request)  # type: ignore[attr-defined]
        return self.get_response(request)


def shown_on_every_page(request: HttpRequest) -> Mapping[str, Any]:
    """Return what the base page shows: the six words, the reader, the day, the light."""
    visit = getattr(request, "visit", None) or Visit(request)
    match = request.resolver_match
    here = match.app_name if match else ""
    pages = [
        {
            "name": name,
            "url": reverse(f"{name}:page"),
            "current": ("page" if match and match.url_name == "page" else "true") if name == here else "",
        }
        for name in PAGES
    ]
    reader = visit.reader
    own = any(unit != PRESETS.get(reader.market, {}).get(kind) for kind, unit in reader.units.items())
    return {"pages": pages, "preferences": visit.preferences, "reader": reader, "units_of_own": own, "today": visit.today}
