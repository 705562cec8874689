"""Addresses of the daybook."""

from __future__ import annotations

from django.urls import path

from twomarks.web.daybook import noticed, views

__all__ = ["app_name", "urlpatterns"]

app_name = "daybook"
urlpatterns = [
    path("", views.page, name="page"),
    path("<str:vehicle>/", views.vehicle_page, name="vehicle"),
    path("<str:vehicle>/confirm/<uuid:reading>/", views.confirm, name="confirm"),
    path("<str:vehicle>/check/<uuid:check>/", views.check_done, name="check"),
    path("<str:vehicle>/enter/", views.enter, name="enter"),
    path("<str:vehicle>/level/", views.level, name="level"),
    path("<str:vehicle>/noticed/", noticed.page, name="noticed"),
    path("<str:vehicle>/noticed/event/", noticed.event, name="event"),
    path("<str:vehicle>/noticed/snag/", noticed.snag, name="snag"),
    path("<str:vehicle>/noticed/measured/", noticed.measured, name="measured"),
    path("<str:vehicle>/noticed/use/", noticed.use, name="use"),
    path("<str:vehicle>/odometer/", views.odometer, name="odometer"),
]
