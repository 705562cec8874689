"""How the home is: its database, schema, triggers, room on the disk and copies; for `selfcheck`."""

from __future__ import annotations

import contextlib
import datetime as dt
import shutil
from dataclasses import dataclass

from twomarks.keeping import clock
from twomarks.keeping.backup import backups
from twomarks.keeping.home import Home
from twomarks.keeping.schema import number_of_this_version
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import storage_errors

__all__ = ["Health", "health", "scopes"]

OWN_COPIES = "sqlite"
_STAMP = "%Y%m%dT%H%M%S"


@dataclass(frozen=True, slots=True, kw_only=True)
class Health:
    """What was seen of a home. `damage` is what the database says of itself, empty where it is whole.

    `schema` and `copies` are None on a database server, whose upkeep is its owner's; `newest_copy_days` is None where
    there is no copy yet.
    """

    kind: str
    damage: tuple[str, ...]
    schema: int | None
    schema_expected: int
    triggers_missing: tuple[str, ...]
    triggers: int
    free_mb: int
    copies: int | None
    newest_copy_days: float | None


def health(home: Home) -> Health:
    """Return how the open home is; nothing is changed."""
    from django.db import connection

    from twomarks.keeping import triggers

    with storage_errors():
        expected = triggers.names_expected(connection.vendor)
        missing = tuple(sorted(expected - triggers.names_in(connection)))
        schema: int | None = None
        damage: tuple[str, ...] = ()
        if connection.vendor == OWN_COPIES:
            with connection.cursor() as cursor:
                cursor.execute("PRAGMA user_version")
                schema = int(cursor.fetchone()[0])
                cursor.execute("PRAGMA quick_check")
                damage = tuple(str(row[0]) for row in cursor.fetchall() if row[0] != "ok")
                cursor.execute("PRAGMA foreign_key_check")
                damage += tuple(f"{row[0]} {row[1]}" for row in cursor.fetchall())
        copies = backups(home) if connection.vendor == OWN_COPIES else None
        return Health(
            kind=connection.vendor,
            damage=damage,
            schema=schema,
            schema_expected=number_of_this_version(),
            triggers_missing=missing,
            triggers=len(expected),
            free_mb=shutil.disk_usage(home.folder).free // 1_000_000,
            copies=None if copies is None else len(copies),
            newest_copy_days=_age_days(copies[-1].name) if copies else None,
        )


def scopes() -> tuple[tuple[str, Scope], ...]:
    """Return the name of every household here with a scope that may read it."""
    from twomarks.keeping.records.household import PersonRow

    with storage_errors():
        people = PersonRow.objects.select_related("household").order_by("household__name", "household_id", "name")
        first = {row.household_id: (row.household.name, Scope(row.household_id, row.id, "reader")) for row in reversed(people)}
    return tuple(first.values())[::-1]


def _age_days(name: str) -> float | None:
    with contextlib.suppress(ValueError):
        made = dt.datetime.strptime(name.partition("-")[0], _STAMP).replace(tzinfo=dt.UTC)
        return (clock.now() - made) / dt.timedelta(days=1)
    return None
