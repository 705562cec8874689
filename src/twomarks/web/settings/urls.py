"""Addresses of the settings."""

from __future__ import annotations

from django.urls import path

from twomarks.web.settings.views import page

__all__ = ["app_name", "urlpatterns"]

app_name = "settings"
urlpatterns = [path("", page, name="page")]
