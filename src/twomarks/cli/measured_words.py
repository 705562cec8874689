"""A measured value as it is said, "front left tread 4.2 mm": which item, at which place, how much."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from twomarks import units
from twomarks.errors import InputError
from twomarks.units import Quantity

if TYPE_CHECKING:
    from twomarks.model.service_items import Measured, ServiceItem
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.words import Reader

__all__ = ["measured_in", "said_like"]

WHERE = "--measured"
_FIGURE = re.compile(r"(?P<words>.*?)\s+(?P<figure>[-\u2212]?\d[\d.,]*(?:\s+\d+/\d+)?(?:/\d+)?\s*\D*)", re.DOTALL)


def measured_in(text: str, sheet: VehicleSheet, reader: Reader) -> tuple[str, str, Quantity]:
    """Return the item's key, the place and the value that `text` says.

    The words before the figure name the item by its key, its name or what is measured of it, and the place; in any order.

    Raises
    ------
    InputError
        Where there is no figure, nothing on the sheet is named by the words, or more than one thing is.
    """
    found = _FIGURE.fullmatch(text.strip())
    expected = tuple(said_like(sheet))
    if found is None:
        raise InputError("enter.measured", where=WHERE, found=text, expected=expected)
    words = _words(found["words"])
    hits = {(key, place): size for key, place, size in _matches(words, sheet)}
    longest = max(hits.values(), default=0)
    named = [hit for hit, size in hits.items() if size == longest]
    if len(named) != 1:
        raise InputError("enter.measured_which" if named else "enter.measured", where=WHERE, found=text, expected=expected)
    key, place = named[0]
    kind = _kind(sheet.items[key].measured)
    value = units.quantity(found["figure"], market=reader.market, decimal=reader.decimal, where=WHERE)
    if value.kind != kind:
        raise InputError("units.kind", where=WHERE, found=found["figure"], expected=kind, example=units.UNITS[units.KINDS[kind].core].shown)
    return key, place, value


def said_like(sheet: VehicleSheet) -> Iterator[str]:
    """Yield each thing that the sheet measures, place by place, as it can be said."""
    for key, item in sheet.items.items():
        if item.measured is not None and not item.retired:
            what = item.measured.what or item.name or key.replace("_", " ")
            yield from (f"{place} {what}".strip() for place in item.measured.places or ("",))


def _matches(words: list[str], sheet: VehicleSheet) -> Iterator[tuple[str, str, int]]:
    for key, item in sheet.items.items():
        if item.measured is None or item.retired:
            continue
        for label in _labels(key, item, item.measured):
            if not label or not set(label) <= set(words):
                continue
            rest = sorted(words)
            for word in label:
                rest.remove(word)
            for place in item.measured.places or (" ".join(word for word in words if word in rest),):
                # A word that the label and the place share may be said once: "front pads, front left".
                if rest == sorted(_words(place)) or (item.measured.places and set(words) == {*label, *_words(place)}):
                    yield key, place, len(label)


def _labels(key: str, item: ServiceItem, measured: Measured) -> Iterator[list[str]]:
    yield from (_words(text) for text in (key, item.name, measured.what))


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", text.replace("_", " ").casefold())


def _kind(measured: Measured | None) -> str:
    limit = None if measured is None else measured.least or measured.most
    assert limit is not None
    assert limit.quantity is not None
    return limit.quantity.kind
