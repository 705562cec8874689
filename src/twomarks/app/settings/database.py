"""Where the household's rows live: SQLite in the home folder, or PostgreSQL by one environment variable."""

from __future__ import annotations

import os
from typing import Any

from twomarks.keeping.home import home_of

__all__ = ["databases"]

_ON_CONNECTING = "PRAGMA journal_mode=WAL;PRAGMA synchronous=FULL;PRAGMA foreign_keys=ON;PRAGMA recursive_triggers=ON;"


def databases() -> dict[str, dict[str, Any]]:
    """Return Django's table of databases.

    ``TWOMARKS_POSTGRES`` holds a connection in libpq's form (``host=/run/postgresql dbname=twomarks user=club``).
    """
    club = os.environ.get("TWOMARKS_POSTGRES")
    if club:
        named = dict(part.split("=", 1) for part in club.split())
        return {
            "default": {
                "ENGINE": "django.db.backends.postgresql",
                "NAME": named.get("dbname", "twomarks"),
                "USER": named.get("user", ""),
                "PASSWORD": named.get("password", ""),
                "HOST": named.get("host", ""),
                "PORT": named.get("port", ""),
                "CONN_MAX_AGE": None,
            }
        }
    return {
        "default": {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": str(home_of(None).database),
            "CONN_MAX_AGE": None,
            "OPTIONS": {
                "timeout": 20.0,
                # Without IMMEDIATE a reader that turns writer is refused at once instead of waiting its turn.
                "transaction_mode": "IMMEDIATE",
                # Without recursive_triggers INSERT OR REPLACE walks past the append-only triggers.
                "init_command": _ON_CONNECTING,
            },
        }
    }
