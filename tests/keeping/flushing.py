"""Emptying a test's database past the append-only triggers; outside tests they are never lifted."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.db import connections, transaction
from django.db.backends.base.operations import BaseDatabaseOperations

__all__ = ["past_triggers"]


@contextmanager
def past_triggers() -> Iterator[None]:
    """While this lasts, Django may empty the tables between tests that commit."""
    kept = BaseDatabaseOperations.execute_sql_flush

    def emptied(self: BaseDatabaseOperations, sql_list: list[str]) -> None:
        using = self.connection.alias
        with transaction.atomic(using=using), connections[using].cursor() as cursor:
            if self.connection.vendor == "postgresql":
                cursor.execute("SET LOCAL session_replication_role = replica")
                _run(cursor, sql_list)
                return
            cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
            lifted = cursor.fetchall()
            _run(cursor, [f"DROP TRIGGER {name}" for name, _ in lifted])
            _run(cursor, sql_list)
            _run(cursor, [statement for _, statement in lifted])

    BaseDatabaseOperations.execute_sql_flush = emptied  # type: ignore[method-assign]
    try:
        yield
    finally:
        BaseDatabaseOperations.execute_sql_flush = kept  # type: ignore[method-assign]


def _run(cursor: Any, statements: list[str]) -> None:
    for statement in statements:
        cursor.execute(statement)
