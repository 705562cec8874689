"""The addresses of the pages, one name per page group."""

from __future__ import annotations

from django.urls import include, path

from twomarks.web.start.views import first
from twomarks.web.workdays.views import worker

__all__ = ["handler404", "handler500", "urlpatterns"]

handler404 = "twomarks.web.faults.found_nothing"
handler500 = "twomarks.web.faults.went_wrong"

urlpatterns = [
    path("", first, name="first"),
    path("worker.js", worker, name="worker"),
    path("start/", include("twomarks.web.start.urls")),
    path("due/", include("twomarks.web.due.urls")),
    path("vehicles/", include("twomarks.web.vehicles.urls")),
    path("procedures/", include("twomarks.web.procedures.urls")),
    path("workdays/", include("twomarks.web.workdays.urls")),
    path("shelf/", include("twomarks.web.shelf.urls")),
    path("daybook/", include("twomarks.web.daybook.urls")),
    path("settings/", include("twomarks.web.settings.urls")),
]
