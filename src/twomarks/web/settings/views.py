"""The settings page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.services.help import settle_help
from twomarks.keeping.services.households import change_reader
from twomarks.web.preferences import keep_preferences
from twomarks.web.settings.forms import SettingsForm
from twomarks.web.visit import Visit, visit_of
from twomarks.words import message_of
from twomarks.words import render as render_message

__all__ = ["page"]


def _help_kept(visit: Visit, form: SettingsForm) -> bool:
    """Keep whom to call and where one is; what is refused is told at its field."""
    try:
        settle_help(visit.scope, number=form.cleaned_data["help_number"], address=form.cleaned_data["help_address"])
    except InputError as error:
        form.add_error("help_number", render_message(message_of(error), visit.reader))
        return False
    return True


@require_http_methods(["GET", "HEAD", "POST"])
def page(request: HttpRequest) -> HttpResponse:
    """Show the choices; keep how the person reads in the household, light and keys in this browser."""
    visit = visit_of(request)
    form = SettingsForm(
        request.POST if request.method == "POST" else None,
        reader=visit.reader,
        preferences=visit.preferences,
        call=questions.help_call(visit.scope),
    )
    if request.method == "POST" and form.is_valid() and _help_kept(visit, form):
        change_reader(visit.scope, form.chosen_reader())
        return keep_preferences(redirect("settings:page"), form.chosen_preferences())
    return render(request, "settings/page.html", {"form": form}, status=400 if form.errors else 200)
