"""The shelf, read-only: what exists, how much of it there is, room in the waste cans, prices with their day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from twomarks.keeping import questions
from twomarks.planning.readiness import CAN_SHARE
from twomarks.web.visit import visit_of
from twomarks.words import Figure

__all__ = ["ShelfLine", "page"]


@dataclass(frozen=True, slots=True)
class ShelfLine:
    """One thing on the shelf: its name, a note, and how much of it there is."""

    name: str
    note: str
    amount: Figure | None


def _litres(amount_ml: int | None) -> Figure | None:
    return None if amount_ml is None else Figure(amount_ml / 1000, "L")


def _said(value: Any) -> str:
    return str(getattr(value, "text", value) or "")


def _numbers(value: Any) -> str:
    return ", ".join(_said(number) for number in getattr(value, "numbers", ()) or ())


@require_safe
def page(request: HttpRequest) -> HttpResponse:
    """Show the shelf."""
    visit = visit_of(request)
    shelf = questions.shelf(visit.scope)
    if shelf is None:
        return render(request, "shelf/page.html", {"shelf": None})
    stock = questions.stock(visit.scope)
    content = questions.cans(visit.scope)
    cans = []
    for key, can in shelf.cans.items():
        holds_l = can.holds.core
        room = Figure(max(CAN_SHARE * holds_l - content.get(key, 0) / 1000, 0.0), "L")
        cans.append({"name": can.name, "stream": _said(can.stream), "content": _litres(content.get(key, 0)), "room": room})
    prices = [
        {
            "shop": shop.name,
            "item": _name(shelf, price.item),
            "size": price.size,
            "price": price.price,
            "currency": shop.currency,
            "day": price.day,
        }
        for shop in shelf.shops.values()
        for price in shop.prices
    ]
    figures = {
        "shelf": shelf,
        "oils": [ShelfLine(oil.name, _said(oil.label), _litres(stock.get(key))) for key, oil in shelf.oils.items()],
        "parts": [
            ShelfLine(part.name, _numbers(part), Figure(float(stock[key]), "") if key in stock else None)
            for key, part in shelf.parts.items()
        ],
        "tools": [tool.name for tool in shelf.tools.values()],
        "pans": [ShelfLine(pan.name, "", pan.holds.figure) for pan in shelf.pans.values()],
        "cans": cans,
        "prices": prices,
    }
    return render(request, "shelf/page.html", figures)


def _name(shelf: Any, key: str) -> str:
    thing = shelf.oils.get(key) or shelf.parts.get(key)
    return str(thing.name) if thing else key
