"""Addresses of the shelf."""

from __future__ import annotations

from django.urls import path

from twomarks.web.shelf import views

__all__ = ["app_name", "urlpatterns"]

app_name = "shelf"
urlpatterns = [
    path("", views.page, name="page"),
]
