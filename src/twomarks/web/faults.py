"""One place where an error of a lower room becomes a page: what was found, what was expected, and the way back."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from twomarks.errors import DocumentError, InputError, MissingFactError, StorageError, TwomarksError
from twomarks.words import Reader, message_of
from twomarks.words import render as said

__all__ = ["FaultMiddleware", "fault_page", "found_nothing", "went_wrong"]

STATUS: tuple[tuple[type[TwomarksError], int], ...] = ((StorageError, 503), (MissingFactError, 409), (InputError, 400))


def fault_page(request: HttpRequest, error: TwomarksError, *, status: int = 0) -> HttpResponse:
    """Return the page that says what is wrong."""
    reader = getattr(getattr(request, "visit", None), "reader", None) or Reader()
    code = status or next((number for kind, number in STATUS if isinstance(error, kind)), 400)
    faults = tuple(said(message_of(fault), reader) for fault in error.faults) if isinstance(error, DocumentError) else ()
    figures = {"words": said(message_of(error), reader), "faults": faults, "status": code}
    return render(request, "look/fault.html", figures, status=code)


def found_nothing(request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001 - the framework hands it over by name
    """Return the page for an address that nothing stands at."""
    return render(request, "look/fault.html", {"status": 404}, status=404)


def went_wrong(request: HttpRequest) -> HttpResponse:
    """Return the page for a fault of our own."""
    return render(request, "look/fault.html", {"status": 500}, status=500)


class FaultMiddleware:
    """Turns every exception of Twomarks into its page."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Answer an exception of Twomarks; any other is the framework's."""
        return fault_page(request, exception) if isinstance(exception, TwomarksError) else None
