"""The schema number: how many of our own migrations a database has seen, kept where one cheap read finds it.

Django's own check loads every migration; a command must know within a millisecond whether the database is its own age.
"""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from twomarks import packaged
from twomarks.errors import InputError, StorageError

if TYPE_CHECKING:
    from django.db.backends.base.base import BaseDatabaseWrapper

__all__ = ["MIGRATION_FOLDERS", "number_in", "number_of_this_version", "write_number"]

MIGRATION_FOLDERS = {"keeping": "keeping/migrations", "accounts": "web/accounts/migrations"}
"""Label of each of our apps that has tables -> where its migrations lie; none is ever removed or squashed."""


def number_of_this_version() -> int:
    """Return the number of migrations that this version has."""
    count = 0
    for folder in MIGRATION_FOLDERS.values():
        with contextlib.suppress(InputError):  # a package without pages has no accounts
            count += sum(name[0].isdigit() for name in packaged.names(folder, ".py"))
    return count


def number_in(database: Path) -> int:
    """Return the schema number of a SQLite file; 0 where there is no file, or an empty one.

    Raises
    ------
    StorageError
        Where the file cannot be read, or is no database.
    """
    if not database.exists():
        return 0
    try:
        with contextlib.closing(sqlite3.connect(database.as_uri() + "?mode=rw", uri=True, timeout=20.0)) as connection:
            return int(connection.execute("PRAGMA user_version").fetchone()[0])
    except sqlite3.Error as error:
        raise StorageError("storage.no_database", where=str(database), found=str(error)) from None


def write_number(connection: BaseDatabaseWrapper) -> None:
    """Write the number of our own migrations applied so far into a SQLite database."""
    if connection.vendor != "sqlite":
        return
    labels = tuple(MIGRATION_FOLDERS)
    with connection.cursor() as cursor:
        if "django_migrations" not in connection.introspection.table_names(cursor):
            return
        marks = ", ".join(["%s"] * len(labels))
        cursor.execute(f"SELECT count(*) FROM django_migrations WHERE app IN ({marks})", labels)
        count = int(cursor.fetchone()[0])
        cursor.execute(f"PRAGMA user_version = {count}")
