"""What one reader chose: market and units per quantity, tone, full sun, keys; kept in a signed cookie of this browser."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from django.http import HttpRequest, HttpResponse

from twomarks.errors import InputError
from twomarks.words import CHOICES, PRESETS, Reader

__all__ = ["COOKIE", "TONES", "Preferences", "keep_preferences", "preferences_of", "reader_of"]

COOKIE = "twomarks-reader"
TONES = ("auto", "light", "dark")
YEAR_S = 365 * 24 * 3600


@dataclass(frozen=True, slots=True)
class Preferences:
    """The choices; empty `market` and no `units` mean that the person's own hold."""

    market: str = ""
    units: dict[str, str] = field(default_factory=dict)
    tone: str = "auto"
    sun: bool = False
    keys: bool = True


def preferences_of(request: HttpRequest) -> Preferences:
    """Return what the browser's cookie says; a damaged one counts as none."""
    try:
        text = request.get_signed_cookie(COOKIE, default="{}")
        found: dict[str, Any] = json.loads(text or "{}")
        chosen = Preferences(**found)
    except Exception:  # noqa: BLE001 - whatever is wrong with a cookie, the page opens without it
        return Preferences()
    units = {kind: unit for kind, unit in chosen.units.items() if unit in CHOICES.get(kind, ())}
    return Preferences(
        market=chosen.market if chosen.market in PRESETS else "",
        units=units,
        tone=chosen.tone if chosen.tone in TONES else "auto",
        sun=bool(chosen.sun),
        keys=bool(chosen.keys),
    )


def keep_preferences(response: HttpResponse, preferences: Preferences) -> HttpResponse:
    """Put the choices into the browser's cookie."""
    response.set_signed_cookie(COOKIE, json.dumps(asdict(preferences)), max_age=YEAR_S, samesite="Lax", httponly=True)
    return response


def reader_of(preferences: Preferences, person: Reader) -> Reader:
    """Return the reader of these choices; what was not chosen here is the person's own."""
    market = preferences.market or person.market
    own: Mapping[str, str] = person.units if market == person.market else {}
    try:
        return Reader.of(market, units={**own, **preferences.units}, zone=person.zone, currency=person.currency)
    except InputError:
        return person
