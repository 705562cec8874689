"""Addresses of the first two minutes."""

from __future__ import annotations

from django.urls import path

from twomarks.web.start import views

__all__ = ["app_name", "urlpatterns"]

app_name = "start"
urlpatterns = [
    path("", views.page, name="page"),
    path("<str:vehicle>/general/", views.general, name="general"),
    path("<str:vehicle>/", views.answer, name="answer"),
]
