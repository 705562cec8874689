"""What was measured, what happened to a vehicle, what was noticed, and what a workshop asks."""

from __future__ import annotations

import dataclasses
import datetime as dt
import difflib
from typing import TYPE_CHECKING, TypeVar

from twomarks.errors import InputError
from twomarks.keeping.questions.vehicles import sheet, vehicle_row
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.records.noticed import MeasurementRow, QuoteRow, SnagRow, VehicleEventRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import Kept
from twomarks.model.ledger import HOW_BAD, Measurement, Quote, Snag, VehicleEvent

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["record_event", "record_measurement", "record_quote", "record_snag"]

Noticed = TypeVar("Noticed", Measurement, VehicleEvent, Snag, Quote)


@service
def record_measurement(scope: Scope, vehicle: str, measurement: Measurement, *, today: dt.date | None = None) -> Kept:
    """Keep a measured value.

    Raises
    ------
    InputError
        Where the sheet has no such item, measures nothing of it, or measures it in another kind or at other places.
    """
    document = sheet(scope, vehicle)
    _refuse_unknown_item(document, measurement.item)
    measured = document.items[measurement.item].measured
    limit = None if measured is None else measured.least or measured.most
    if measured is None or limit is None or limit.quantity is None:
        known = tuple(key for key, item in document.items.items() if item.measured is not None)
        raise InputError("keeping.not_measured", where=vehicle, found=measurement.item, expected=known)
    if measurement.kind != limit.quantity.kind:
        raise InputError("units.kind", where=measurement.item, found=measurement.text, expected=limit.quantity.kind, example=limit.text)
    if measured.places and measurement.place not in measured.places:
        raise InputError("keeping.place_unknown", where=measurement.item, found=measurement.place, expected=measured.places)
    return _kept(scope, vehicle, MeasurementRow, measurement, today)


@service
def record_event(scope: Scope, vehicle: str, event: VehicleEvent, *, today: dt.date | None = None) -> Kept:
    """Keep that something happened which calls for work out of turn."""
    if not event.event.strip():
        raise InputError("keeping.words_needed", where="event")
    return _kept(scope, vehicle, VehicleEventRow, event, today)


@service
def record_snag(scope: Scope, vehicle: str, snag: Snag, *, today: dt.date | None = None) -> Kept:
    """Keep something that was noticed; it stays open until an entry closes it."""
    if not snag.what.strip():
        raise InputError("keeping.words_needed", where="snag")
    if snag.how_bad not in HOW_BAD:
        raise InputError("keeping.how_bad", where="snag", found=snag.how_bad, expected=HOW_BAD)
    return _kept(scope, vehicle, SnagRow, snag, today)


@service
def record_quote(scope: Scope, vehicle: str, quote: Quote, *, today: dt.date | None = None) -> Kept:
    """Keep what a workshop asks for an item; the latest one holds."""
    document = sheet(scope, vehicle)
    if document.items:
        _refuse_unknown_item(document, quote.item)
    if quote.amount_minor <= 0:
        raise InputError("keeping.amount", where=quote.item, found=quote.amount_minor)
    return _kept(scope, vehicle, QuoteRow, quote, today)


def _kept(scope: Scope, vehicle: str, row: type[LedgerRow], event: Noticed, today: dt.date | None) -> Kept:
    found = vehicle_row(scope, vehicle)
    not_in_the_future([event], today)
    event = dataclasses.replace(event, vehicle=str(found.document.document))
    (written,) = append(scope, [NewRow(row=row, event=event, links={"vehicle": found})])
    return Kept(written.root, written.number)


def _refuse_unknown_item(document: VehicleSheet, item: str) -> None:
    if item not in document.items:
        near = difflib.get_close_matches(item, document.items, 1, 0.5)
        raise InputError("keeping.item_unknown", where=document.name, found=item, nearest=near[0] if near else "")
