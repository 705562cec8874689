"""The append-only triggers: held in the database, so that no program, ours included, changes what was written."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from django.db.backends.base.base import BaseDatabaseWrapper
    from django.db.backends.utils import CursorWrapper

__all__ = ["guarded_tables", "install", "names_expected", "names_in"]

FROZEN_TABLES = ("revision", "workday", "card")
"""Tables beside the ledgers whose rows never change either."""

_SQLITE = {
    "no_update": "CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END",
    "no_delete": (
        "CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} "
        "WHEN NOT EXISTS (SELECT 1 FROM household_being_closed WHERE household = OLD.household_id) "
        "BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    ),
    # A connection without recursive_triggers lets INSERT OR REPLACE take a row away unseen by the delete trigger.
    "no_replace": (
        "CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE {taken}) "
        "BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    ),
}
_POSTGRES_FUNCTION = """
CREATE OR REPLACE FUNCTION keeping_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF TG_OP = 'DELETE' THEN
        IF EXISTS (SELECT 1 FROM household_being_closed WHERE household = OLD.household_id) THEN
            RETURN OLD;
        END IF;
    END IF;
    RAISE EXCEPTION '% is append-only', TG_TABLE_NAME USING ERRCODE = 'integrity_constraint_violation';
END $$
"""
_POSTGRES = {
    "no_change": "CREATE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON {table} FOR EACH ROW EXECUTE FUNCTION keeping_append_only()",
    "no_truncate": "CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} "
    "FOR EACH STATEMENT EXECUTE FUNCTION keeping_append_only()",
}


def guarded_tables() -> tuple[str, ...]:
    """Return every table whose rows are never changed."""
    from twomarks.keeping.records.ledger import ledgers

    return (*FROZEN_TABLES, *(row._meta.db_table for row in ledgers()))


def install(connection: BaseDatabaseWrapper, tables: Iterable[str] | None = None) -> None:
    """Put the triggers on every guarded table that is there; those already there are made anew."""
    present = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(_POSTGRES_FUNCTION)
        for table in guarded_tables() if tables is None else tables:
            if table not in present:
                continue
            taken = "" if connection.vendor == "postgresql" else _taken(cursor, table)
            for ending, statement in (_POSTGRES if connection.vendor == "postgresql" else _SQLITE).items():
                place = f" ON {table}" if connection.vendor == "postgresql" else ""
                cursor.execute(f"DROP TRIGGER IF EXISTS {table}_{ending}{place}")
                cursor.execute(statement.format(table=table, taken=taken))


def _taken(cursor: CursorWrapper, table: str) -> str:
    """Return the condition that a row to be inserted stands where one is already, by any key of a SQLite table."""
    cursor.execute('SELECT name FROM pragma_index_list(%s) WHERE "unique"', [table])
    keys = [["id"]]
    for (index,) in cursor.fetchall():
        cursor.execute("SELECT name FROM pragma_index_info(%s) ORDER BY seqno", [index])
        keys.append([str(row[0]) for row in cursor.fetchall()])
    return " OR ".join("(" + " AND ".join(f"{column} = NEW.{column}" for column in key) + ")" for key in keys)


def names_in(connection: BaseDatabaseWrapper) -> set[str]:
    """Return the names of the triggers in the database."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT tgname FROM pg_trigger WHERE NOT tgisinternal")
        else:
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        return {str(row[0]) for row in cursor.fetchall()}


def names_expected(vendor: str) -> set[str]:
    """Return the names of the triggers that have to be there."""
    endings = _POSTGRES if vendor == "postgresql" else _SQLITE
    return {f"{table}_{ending}" for table in guarded_tables() for ending in endings}
