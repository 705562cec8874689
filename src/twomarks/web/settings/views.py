"""The settings page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from twomarks.keeping.services.households import change_reader
from twomarks.web.preferences import keep_preferences
from twomarks.web.settings.forms import SettingsForm
from twomarks.web.visit import visit_of

__all__ = ["page"]


@require_http_methods(["GET", "HEAD", "POST"])
def page(request: HttpRequest) -> HttpResponse:
    """Show the choices; keep how the person reads in the household, light and keys in this browser."""
    visit = visit_of(request)
    form = SettingsForm(request.POST if request.method == "POST" else None, reader=visit.reader, preferences=visit.preferences)
    if request.method == "POST" and form.is_valid():
        change_reader(visit.scope, form.chosen_reader())
        return keep_preferences(redirect("settings:page"), form.chosen_preferences())
    return render(request, "settings/page.html", {"form": form}, status=400 if form.errors else 200)
