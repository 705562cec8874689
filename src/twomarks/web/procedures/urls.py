"""Addresses of the procedures."""

from __future__ import annotations

from django.urls import path

from twomarks.web.procedures import views

__all__ = ["app_name", "urlpatterns"]

app_name = "procedures"
urlpatterns = [
    path("", views.page, name="page"),
    path("<str:key>/", views.procedure_page, name="procedure"),
]
