"""Addresses of the vehicle sheets."""

from __future__ import annotations

from django.urls import path

from twomarks.web.vehicles import views

__all__ = ["app_name", "urlpatterns"]

app_name = "vehicles"
urlpatterns = [
    path("", views.page, name="page"),
    path("<str:vehicle>/", views.sheet_page, name="sheet"),
]
