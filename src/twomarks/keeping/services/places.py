"""Where the household's vehicles stand."""

from __future__ import annotations

from twomarks.errors import InputError
from twomarks.keeping.clock import today
from twomarks.keeping.records.household import HomePlaceRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.documents import save_document
from twomarks.keeping.storing import service
from twomarks.keeping.values import HomePlace

__all__ = ["settle_place"]


@service
def settle_place(
    scope: Scope, *, name: str, latitude: float, longitude: float, zone: str, climate: str | None = None, where: str = ""
) -> HomePlace:
    """Keep the home place; `climate` is the text of a climate record, kept as a document. There is one home place."""
    name = " ".join(name.split())
    if not name or len(name) > 120:
        raise InputError("keeping.name_needed", what="place", found=name[:40], expected=120)
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise InputError("keeping.nowhere", found=(latitude, longitude))
    today(zone)
    row = HomePlaceRow.objects.filter(household=scope.household).first() or HomePlaceRow(household_id=scope.household)
    row.name, row.latitude, row.longitude, row.zone = name, float(latitude), float(longitude), zone
    if climate is not None:
        revision = save_document(scope, climate, where=where)
        if revision.kind != "climate":
            raise InputError("keeping.id_of_another", where=where, found=revision.kind, expected="climate")
        row.climate = revision.document
    row.save()
    return HomePlace(name=row.name, latitude=row.latitude, longitude=row.longitude, zone=row.zone, climate=row.climate)
