"""Every ledger table stands on the one base, keeps its triggers, and is never changed."""

from __future__ import annotations

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, models, transaction

from tests.keeping.samples import answer, card, check, entry, event, measurement, move, quote, reading, snag, tick, top_up, waste
from twomarks.keeping import triggers
from twomarks.keeping.records.ledger import LedgerRow, ledgers
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import answers, entries, levels, noticed, readings, shelf, ticks, workdays
from twomarks.keeping.services.households import close_household

NAMED = {
    *("answer", "confirmation", "entry", "follow_up", "level_check", "measurement", "quote", "reading", "snag", "stock_move", "tick"),
    *("top_up", "vehicle_event", "waste_move"),
}


@pytest.fixture
def filled(scope: Scope) -> Scope:
    """A household with at least one row in every ledger and every frozen table."""
    kept = readings.record_reading(scope, "Alder", reading("2026-10-01", 118_000), force=True)
    readings.confirm_reading(scope, "Alder", kept.root)
    levels.record_level_check(scope, "Alder", check())
    levels.record_top_up(scope, "Alder", top_up())
    shelf.record_stock_moves(scope, [move(5000)])
    shelf.record_waste_move(scope, waste(100))
    answers.record_answers(scope, [answer("have")])
    noticed.record_measurement(scope, "Alder", measurement())
    noticed.record_event(scope, "Alder", event())
    noticed.record_snag(scope, "Alder", snag())
    noticed.record_quote(scope, "Alder", quote())
    workdays.start_workday(scope, card())
    ticks.record_ticks(scope, [tick(1, card().steps[0].id)])
    entries.record_entry(scope, "Alder", entry(follow_ups=("look under it",)))
    return scope


def test_the_ledgers_are_those_that_were_meant() -> None:
    assert {row._meta.db_table for row in ledgers()} == NAMED
    assert all(row.ledger and row.holds for row in ledgers())


@pytest.mark.parametrize("row", ledgers(), ids=lambda row: row.ledger)
def test_a_ledger_has_all_of_the_base(row: type[LedgerRow]) -> None:
    base = {field.name for field in LedgerRow._meta.local_fields}
    assert base <= {field.name for field in row._meta.fields}
    assert {"household", "number", "root", "payload", "chain", "void", "day", "text"} <= base
    assert ["root", "number"] in [list(index.fields) for index in row._meta.indexes]
    unique = [list(rule.fields) for rule in row._meta.constraints if isinstance(rule, models.UniqueConstraint)]
    assert ["household", "number"] in unique
    assert ["household", "public_id"] in unique


def test_every_table_of_ours_but_three_has_a_household() -> None:
    for table in apps.get_app_config("keeping").get_models():
        if table._meta.db_table in ("household", "household_being_closed"):
            continue
        household = table._meta.get_field("household")
        assert not household.null, table


def test_unique_rules_are_per_household() -> None:
    for table in apps.get_app_config("keeping").get_models():
        for rule in table._meta.constraints:
            if isinstance(rule, models.UniqueConstraint):
                assert rule.fields[0] in ("household", "document"), rule
        others = [field.name for field in table._meta.fields if field.unique and not field.primary_key]
        assert others in ([], ["document"]), table


@pytest.mark.django_db
def test_every_guarded_table_has_its_triggers() -> None:
    assert triggers.names_expected(connection.vendor) <= triggers.names_in(connection)


@pytest.mark.django_db
def test_triggers_come_back_after_a_migration_that_remade_a_table() -> None:
    lost = next(name for name in sorted(triggers.names_expected(connection.vendor)) if name.startswith("reading_"))
    with connection.cursor() as cursor:
        cursor.execute(f"DROP TRIGGER {lost}" + (" ON reading" if connection.vendor == "postgresql" else ""))
    assert lost not in triggers.names_in(connection)
    models.signals.post_migrate.send(
        sender=apps.get_app_config("keeping"), app_config=apps.get_app_config("keeping"), verbosity=0, interactive=False, using="default"
    )
    assert triggers.names_expected(connection.vendor) <= triggers.names_in(connection)


@pytest.mark.parametrize("table", [*sorted(NAMED), *triggers.FROZEN_TABLES])
def test_a_guarded_row_is_never_changed(filled: Scope, table: str) -> None:
    connection.check_constraints()
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT count(*) FROM {table}")
        assert cursor.fetchone()[0] > 0
        by_vendor = {"sqlite": f"INSERT OR REPLACE INTO {table} SELECT * FROM {table}", "postgresql": f"TRUNCATE {table} CASCADE"}
        for statement in (f"UPDATE {table} SET id = id", f"DELETE FROM {table}", by_vendor[connection.vendor]):
            with pytest.raises(IntegrityError, match="append-only"), transaction.atomic():
                cursor.execute(statement)


@pytest.mark.parametrize("table", [*sorted(NAMED), *triggers.FROZEN_TABLES])
@pytest.mark.parametrize("key", ["id", "public"])
def test_a_guarded_row_is_not_replaced_on_a_connection_that_was_never_set_up(filled: Scope, table: str, key: str) -> None:
    if connection.vendor != "sqlite":
        pytest.skip("only SQLite replaces rows")
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA recursive_triggers=OFF")
        try:
            columns = [row[1] for row in cursor.execute(f"PRAGMA table_info({table})").fetchall()]
            values = [column if key == "id" or column != "id" else "NULL" for column in columns]
            with pytest.raises(IntegrityError, match="append-only"), transaction.atomic():
                cursor.execute(f"INSERT OR REPLACE INTO {table} SELECT {', '.join(values)} FROM {table}")
        finally:
            cursor.execute("PRAGMA recursive_triggers=ON")


def test_closing_a_household_takes_all_of_it_and_nothing_else(filled: Scope, other: Scope) -> None:
    shelf.record_stock_moves(other, [move(1000)])
    close_household(filled)
    with connection.cursor() as cursor:
        for table in apps.get_app_config("keeping").get_models():
            if table._meta.db_table in ("household", "household_being_closed"):
                continue
            assert not table._default_manager.filter(household=filled.household).exists(), table
        cursor.execute("SELECT count(*) FROM household_being_closed")
        assert cursor.fetchone()[0] == 0
    with pytest.raises(IntegrityError, match="append-only"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("DELETE FROM stock_move")
