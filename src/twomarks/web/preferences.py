"""What one browser was told: tone, full sun, keys; kept in a signed cookie. Units and market are the person's, not a browser's."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse

__all__ = ["COOKIE", "TONES", "Preferences", "keep_preferences", "preferences_of"]

COOKIE = "twomarks-reader"
TONES = ("auto", "light", "dark")
YEAR_S = 365 * 24 * 3600


@dataclass(frozen=True, slots=True)
class Preferences:
    """The choices."""

    tone: str = "auto"
    sun: bool = False
    keys: bool = True


def preferences_of(request: HttpRequest) -> Preferences:
    """Return what the browser's cookie says; a damaged one counts as none."""
    try:
        text = request.get_signed_cookie(COOKIE, default="{}")
        found: dict[str, Any] = json.loads(text or "{}")
        tone, sun, keys = found.get("tone"), found.get("sun", False), found.get("keys", True)
    except Exception:  # noqa: BLE001 - whatever is wrong with a cookie, the page opens without it
        return Preferences()
    return Preferences(tone=tone if tone in TONES else "auto", sun=bool(sun), keys=bool(keys))


def keep_preferences(response: HttpResponse, preferences: Preferences) -> HttpResponse:
    """Put the choices into the browser's cookie."""
    response.set_signed_cookie(COOKIE, json.dumps(asdict(preferences)), max_age=YEAR_S, samesite="Lax", httponly=True)
    return response
