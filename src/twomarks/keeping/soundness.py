"""Whether the database, its triggers, its backups and the disk are as they should be; looks at no household's content."""

from __future__ import annotations

import datetime as dt
import shutil
from dataclasses import dataclass

from django.db import connection

from twomarks.keeping import triggers
from twomarks.keeping.backup import backups
from twomarks.keeping.home import Home
from twomarks.keeping.schema import number_in, number_of_this_version
from twomarks.keeping.storing import storage_errors

__all__ = ["Soundness", "soundness"]


@dataclass(frozen=True, slots=True)
class Soundness:
    """What was found; `faults` are the database's own words, empty where it finds itself whole."""

    schema: int
    schema_expected: int
    faults: tuple[str, ...]
    missing_triggers: tuple[str, ...]
    last_backup: dt.date | None
    free_bytes: int

    @property
    def sound(self) -> bool:
        """Whether nothing is wrong with the database itself."""
        return self.schema == self.schema_expected and not self.faults and not self.missing_triggers


def soundness(home: Home) -> Soundness:
    """Return how the database of `home`, which is open, its backups and the disk are."""
    faults: tuple[str, ...] = ()
    number = expected = number_of_this_version()
    with storage_errors():
        if connection.vendor == "sqlite":
            number = number_in(home.database)
            with connection.cursor() as cursor:
                cursor.execute("PRAGMA integrity_check")
                found = [str(row[0]) for row in cursor.fetchall()]
                cursor.execute("PRAGMA foreign_key_check")
                found += [f"{table}: {row}" for table, row, *_ in cursor.fetchall()]
            faults = tuple(fault for fault in found if fault != "ok")
        missing = triggers.names_expected(connection.vendor) - triggers.names_in(connection)
        copies = backups(home)
        free = shutil.disk_usage(home.folder).free
    last = dt.datetime.strptime(copies[-1].name[:8], "%Y%m%d").date() if copies else None  # noqa: DTZ007
    return Soundness(number, expected, faults, tuple(sorted(missing)), last, free)
