"""Adding a vehicle by its sheet."""

from __future__ import annotations

from twomarks.errors import InputError
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.documents import save_document
from twomarks.keeping.storing import service
from twomarks.keeping.values import Vehicle

__all__ = ["add_vehicle"]


@service
def add_vehicle(scope: Scope, text: str, *, where: str = "") -> Vehicle:
    """Keep a vehicle sheet, and return its vehicle; a sheet whose id is known is a new revision of that vehicle."""
    from twomarks.keeping.questions.vehicles import vehicle

    revision = save_document(scope, text, where=where)
    if revision.kind != "vehicle":
        raise InputError("keeping.id_of_another", where=where, found=revision.kind, expected="vehicle")
    return vehicle(scope, str(revision.document))
