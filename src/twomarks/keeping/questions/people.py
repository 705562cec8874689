"""Who asks, and how they read."""

from __future__ import annotations

import json

from twomarks.errors import InputError
from twomarks.keeping.records.household import HouseholdRow, PersonRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.words import Reader

__all__ = ["household_name", "last_number", "people", "reader"]


@question
def household_name(scope: Scope) -> str:
    """Return the household's name."""
    return _household(scope).name


@question
def last_number(scope: Scope) -> int:
    """Return the number of the household's last ledger row: whatever was worked out under another one is old."""
    return _household(scope).last_number


@question
def people(scope: Scope) -> tuple[str, ...]:
    """Return the names of the household's people."""
    return tuple(PersonRow.objects.filter(household=scope.household).order_by("name").values_list("name", flat=True))


@question
def reader(scope: Scope) -> Reader:
    """Return how the asking person reads."""
    row = PersonRow.objects.filter(household=scope.household, id=scope.person).first()
    if row is None:
        raise InputError("keeping.scope_unknown", found=str(scope.person))
    units = {str(kind): str(unit) for kind, unit in json.loads(row.units).items()}
    return Reader(language=row.language, market=row.market, units=units, zone=row.zone, currency=row.currency)


def _household(scope: Scope) -> HouseholdRow:
    row = HouseholdRow.objects.filter(id=scope.household).first()
    if row is None:
        raise InputError("keeping.scope_unknown", found=str(scope.household))
    return row
