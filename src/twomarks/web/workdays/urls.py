"""Addresses of the workdays and their cards."""

from __future__ import annotations

from django.urls import path

from twomarks.web.workdays import views

__all__ = ["app_name", "urlpatterns"]

app_name = "workdays"
urlpatterns = [
    path("", views.page, name="page"),
    path("of/<str:vehicle>/", views.prepare_page, name="prepare"),
    path("of/<str:vehicle>/answers/", views.answer, name="answer"),
    path("of/<str:vehicle>/start/", views.start, name="start"),
    path("of/<str:vehicle>/walk/", views.walk, name="walk"),
    path("card/<uuid:card>/", views.card_page, name="card"),
    path("card/<uuid:card>/ticks/", views.ticks_of, name="ticks"),
    path("card/<uuid:card>/paper/", views.paper, name="paper"),
]
