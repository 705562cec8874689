"""Founding a household, its people, how they read, and closing it for good."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TypeVar

from django.db import connection, transaction

from twomarks.errors import InputError
from twomarks.keeping.records.derived import DerivedRow
from twomarks.keeping.records.documents import DocumentRow, RevisionRow, VehicleRow
from twomarks.keeping.records.household import HelpCallRow, HomePlaceRow, HouseholdBeingClosed, HouseholdRow, PersonRow
from twomarks.keeping.records.ledger import ledgers
from twomarks.keeping.records.workdays import CardRow, WorkdayRow
from twomarks.keeping.scope import Role, Scope
from twomarks.keeping.storing import service, storage_errors
from twomarks.words import Reader

__all__ = ["add_person", "change_reader", "close_household", "find_scope", "found_household", "found_where_none"]

FIRST_HOUSEHOLD, FIRST_PERSON = "Home", "Owner"
Row = TypeVar("Row", HouseholdRow, PersonRow)


def found_household(name: str, person_name: str, *, reader: Reader | None = None) -> Scope:
    """Make a household with its first person, and return that person's scope."""
    with storage_errors(), transaction.atomic():
        household = HouseholdRow.objects.create(name=_named(name, "household"))
        person = PersonRow.objects.create(household=household, name=_named(person_name, "person"), **_columns(reader or Reader()))
    return Scope(household.id, person.id)


def find_scope(*, household: str | None = None, person: str | None = None) -> Scope:
    """Return the scope of a person by names; a name may be left out while there is only one to choose from.

    Raises
    ------
    InputError
        Where there is none, none of that name, or several and none named.
    """
    with storage_errors():
        home = _choose("household", list(HouseholdRow.objects.order_by("name")), household)
        found = _choose("person", list(PersonRow.objects.filter(household=home).order_by("name")), person)
    return Scope(home.id, found.id, found.role)  # type: ignore[arg-type]


def found_where_none(*, household: str | None = None, person: str | None = None) -> Scope:
    """Return the scope of a person by names, as `find_scope` does; in a home without a household, make the first one."""
    try:
        return find_scope(household=household, person=person)
    except InputError as error:
        if error.key != "keeping.none_yet":
            raise
    return found_household(household or FIRST_HOUSEHOLD, person or FIRST_PERSON)


@service
def add_person(scope: Scope, name: str, *, role: Role = "member", reader: Reader | None = None) -> Scope:
    """Add a person to the household, and return their scope."""
    name = _named(name, "person")
    if PersonRow.objects.filter(household=scope.household, name=name).exists():
        raise InputError("keeping.name_taken", what="person", found=name)
    person = PersonRow.objects.create(household_id=scope.household, name=name, role=role, **_columns(reader or Reader()))
    return Scope(scope.household, person.id, role)


@service
def change_reader(scope: Scope, reader: Reader) -> None:
    """Keep how the asking person reads: market, units by kind, zone, currency."""
    changed = PersonRow.objects.filter(household=scope.household, id=scope.person).update(**_columns(reader))
    if not changed:
        raise InputError("keeping.scope_unknown", found=str(scope.person))


@service
def close_household(scope: Scope) -> None:
    """Delete everything of the household; only its owner may.

    The delete triggers let the rows of a household go only while it stands in `household_being_closed`.
    """
    if scope.role != "owner":
        raise InputError("keeping.may_not_write")
    HouseholdBeingClosed.objects.create(household=scope.household)
    for row in sorted(ledgers(), key=lambda row: any(field.name == "card" for field in row._meta.fields), reverse=True):
        row._default_manager.filter(household=scope.household).delete()
    for table in (CardRow, WorkdayRow, VehicleRow, RevisionRow, DocumentRow, HelpCallRow, HomePlaceRow, DerivedRow, PersonRow):
        table._default_manager.filter(household=scope.household).delete()
    HouseholdRow.objects.filter(id=scope.household).delete()
    HouseholdBeingClosed.objects.filter(household=scope.household).delete()
    connection.check_constraints()


def _columns(reader: Reader) -> dict[str, str]:
    units: Mapping[str, str] = reader.units
    return {
        "language": reader.language,
        "market": reader.market,
        "units": json.dumps(dict(units), sort_keys=True),
        "zone": reader.zone,
        "currency": reader.currency,
    }


def _named(name: str, what: str) -> str:
    name = " ".join(name.split())
    if not name or len(name) > 120:
        raise InputError("keeping.name_needed", what=what, found=name[:40], expected=120)
    return name


def _choose(what: str, rows: list[Row], name: str | None) -> Row:
    chosen = rows if name is None else [row for row in rows if name in (row.name, str(row.id))]
    names = tuple(row.name for row in rows)
    if not rows:
        raise InputError("keeping.none_yet", what=what)
    if not chosen:
        raise InputError("keeping.name_unknown", what=what, found=name, expected=names)
    if len(chosen) > 1:
        raise InputError("keeping.which_one", what=what, expected=names)
    return chosen[0]
