"""Addresses of the page of what is due."""

from __future__ import annotations

from django.urls import path

from twomarks.web.due import views

__all__ = ["app_name", "urlpatterns"]

app_name = "due"
urlpatterns = [
    path("", views.page, name="page"),
]
