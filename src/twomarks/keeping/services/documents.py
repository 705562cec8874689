"""Saving a document: the text as given is a new revision; every earlier one stays."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping import clock
from twomarks.keeping.card_text import sha256_of
from twomarks.keeping.questions.values import current, event_of
from twomarks.keeping.records.documents import DocumentRow, RevisionRow, VehicleRow
from twomarks.keeping.records.entries import EntryRow
from twomarks.keeping.records.levels import LevelCheckRow, TopUpRow
from twomarks.keeping.records.noticed import MeasurementRow, QuoteRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import service
from twomarks.keeping.values import Revision

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["save_document"]


@service
def save_document(scope: Scope, text: str, *, where: str) -> Revision:
    """Keep a document (vehicle sheet, procedure, shelf list, climate record) and return the revision that holds now.

    A text without an id gets one; a known id is a new revision; the very same text again changes nothing. A vehicle
    sheet with a new id is a new vehicle.

    Raises
    ------
    DocumentError
        All faults of the text at once; nothing was kept.
    InputError
        Where the id is known for another kind, the name or key is taken, or a key that the daybook mentions is gone.
    """
    from twomarks.model.loading import kind_of, load
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.model.writing import with_id

    document = load(text, where=where)
    kind = kind_of(document)
    if document.id is None:
        made = uuid.uuid4()
        text = with_id(text, made)
        document = load(text, where=where)
    known = _as_uuid(document.id, where)
    key = str(getattr(document, "key", "") or "")
    name = str(getattr(document, "name", "") or getattr(document, "title", "") or key)
    row = DocumentRow.objects.filter(household=scope.household, document=known).first()
    if row is None:
        _refuse_taken(scope, kind, key, name, where)
        row = DocumentRow.objects.create(household_id=scope.household, document=known, kind=kind, key=key, name=name)
        if isinstance(document, VehicleSheet):
            _refuse_taken_name(scope, name, where)
            VehicleRow.objects.create(household_id=scope.household, document=row, name=name, kind=document.kind)
    else:
        _refuse_changed_kind(row, kind, key, where)
        if isinstance(document, VehicleSheet):
            _refuse_lost_keys(scope, row, document, where)
            _rename(scope, row, name, document.kind, where)
        if row.name != name:
            DocumentRow.objects.filter(pk=row.pk).update(name=name)
    return _revision(scope, row, text)


def _revision(scope: Scope, row: DocumentRow, text: str) -> Revision:
    last = RevisionRow.objects.filter(document=row).order_by("-number").first()
    sha256 = sha256_of(text)
    if last is None or last.sha256 != sha256:
        last = RevisionRow.objects.create(
            household_id=scope.household,
            document=row,
            number=1 if last is None else last.number + 1,
            sha256=sha256,
            text=text,
            person=scope.person,
            written_at=clock.now(),
        )
    return Revision(row.document, row.kind, row.key, row.name, last.number, last.sha256, last.text)


def _as_uuid(found: object, where: str) -> UUID:
    try:
        return found if isinstance(found, UUID) else UUID(str(found))
    except ValueError:
        raise InputError("keeping.id_expected", where=where, found=str(found)) from None


def _refuse_taken(scope: Scope, kind: str, key: str, name: str, where: str) -> None:
    rows = DocumentRow.objects.filter(household=scope.household, kind=kind)
    if kind == "shelf" and rows.exists():
        raise InputError("keeping.one_shelf", where=where, found=name)
    if key and rows.filter(key=key).exists():
        raise InputError("keeping.key_taken", where=where, found=key)


def _refuse_taken_name(scope: Scope, name: str, where: str) -> None:
    taken = VehicleRow.objects.select_related("document").filter(household=scope.household, name=name).first()
    if taken is not None:
        raise InputError("keeping.name_taken", where=where, what="vehicle", found=name, id=str(taken.document.document))


def _refuse_changed_kind(row: DocumentRow, kind: str, key: str, where: str) -> None:
    if row.kind != kind:
        raise InputError("keeping.id_of_another", where=where, found=kind, expected=row.kind)
    if row.key != key:
        raise InputError("keeping.key_changed", where=where, found=key, expected=row.key)


def _rename(scope: Scope, row: DocumentRow, name: str, kind: str, where: str) -> None:
    vehicle = VehicleRow.objects.get(household=scope.household, document=row)
    if vehicle.name != name:
        _refuse_taken_name(scope, name, where)
    if (vehicle.name, vehicle.kind) != (name, kind):
        VehicleRow.objects.filter(pk=vehicle.pk).update(name=name, kind=kind)


def _refuse_lost_keys(scope: Scope, row: DocumentRow, sheet: VehicleSheet, where: str) -> None:
    """Refuse a sheet that has lost a key which the ledgers mention: it is retired or renamed, never removed."""
    vehicle = VehicleRow.objects.get(household=scope.household, document=row)
    circuits = {
        circuit
        for table in (LevelCheckRow, TopUpRow)
        for circuit in current(scope, table, vehicle=vehicle).values_list("circuit", flat=True)
    }
    items = {item for entry in current(scope, EntryRow, vehicle=vehicle) for item in getattr(event_of(entry), "items", ())}
    for table in (MeasurementRow, QuoteRow):
        items |= set(current(scope, table, vehicle=vehicle).values_list("item", flat=True))
    for group, mentioned, parts in (("circuits", circuits, sheet.circuits), ("items", items, sheet.items)):
        kept = {str(key) for key in parts} | {str(was) for part in parts.values() for was in getattr(part, "was", ()) or ()}
        for key in sorted(mentioned - kept):
            raise InputError("keeping.key_mentioned", where=where, found=f"{group}.{key}")
