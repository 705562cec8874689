"""The vehicles and documents of the household."""

from __future__ import annotations

import difflib
from functools import lru_cache
from typing import TYPE_CHECKING, Any
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping.records.documents import DocumentRow, RevisionRow, VehicleRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.keeping.values import Revision, Vehicle

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["documents", "revision", "revisions", "sheet", "sheet_revision", "vehicle", "vehicles"]


@question
def vehicles(scope: Scope) -> tuple[Vehicle, ...]:
    """Return the household's vehicles by name."""
    rows = VehicleRow.objects.filter(household=scope.household).select_related("document").order_by("name")
    return tuple(_vehicle(row) for row in rows)


@question
def vehicle(scope: Scope, name: str) -> Vehicle:
    """Return the vehicle of that name or id."""
    row = vehicle_row(scope, name)
    return Vehicle(row.document.document, row.name, row.kind, _last(row.document).sha256)


@question
def sheet(scope: Scope, vehicle: str) -> VehicleSheet:
    """Return the sheet of a vehicle as it is now."""
    row = vehicle_row(scope, vehicle)
    return document_of(_last(row.document).text, row.name)


@question
def sheet_revision(scope: Scope, vehicle: str) -> Revision:
    """Return the text of a vehicle's sheet as it is now."""
    return revision_of(_last(vehicle_row(scope, vehicle).document))


@question
def documents(scope: Scope, kind: str) -> tuple[Revision, ...]:
    """Return the documents of a kind ("vehicle", "procedure", "shelf", "climate") as they are now, by name."""
    rows = DocumentRow.objects.filter(household=scope.household, kind=kind).order_by("name", "id")
    return tuple(revision_of(_last(row)) for row in rows)


@question
def revisions(scope: Scope, document: UUID) -> tuple[Revision, ...]:
    """Return every revision of a document, oldest first."""
    rows = RevisionRow.objects.filter(household=scope.household, document__document=document).select_related("document")
    found = tuple(revision_of(row) for row in rows.order_by("number"))
    if not found:
        raise InputError("keeping.document_unknown", found=str(document))
    return found


@question
def revision(scope: Scope, sha256: str) -> Revision:
    """Return the revision with that SHA-256, such as a card names."""
    row = RevisionRow.objects.filter(household=scope.household, sha256=sha256).select_related("document").order_by("id").first()
    if row is None:
        raise InputError("keeping.document_unknown", found=sha256)
    return revision_of(row)


def vehicle_row(scope: Scope, name: str) -> VehicleRow:
    """Return the row of the vehicle of that name or id, or refuse with the names there are."""
    rows = VehicleRow.objects.filter(household=scope.household).select_related("document")
    row = rows.filter(name=name).first()
    if row is None:
        try:
            row = rows.filter(document__document=UUID(str(name))).first()
        except ValueError:
            row = None
    if row is None:
        names = tuple(rows.order_by("name").values_list("name", flat=True))
        near = difflib.get_close_matches(str(name), names, 1, 0.5)
        raise InputError("keeping.vehicle_unknown", found=str(name), expected=names, nearest=near[0] if near else "")
    return row


def revision_of(row: RevisionRow) -> Revision:
    """Return a row as a value."""
    document = row.document
    return Revision(document.document, document.kind, document.key, document.name, row.number, row.sha256, row.text)


@lru_cache(maxsize=64)
def document_of(text: str, where: str) -> Any:
    """Return the document that a kept text holds; documents are frozen, so one reading serves many questions."""
    from twomarks.model.loading import load

    return load(text, where=where)


def _last(document: DocumentRow) -> RevisionRow:
    return RevisionRow.objects.filter(document=document).select_related("document").latest("number")


def _vehicle(row: VehicleRow) -> Vehicle:
    return Vehicle(row.document.document, row.name, row.kind, _last(row.document).sha256)
