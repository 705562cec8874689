"""One running number over all ledgers of a household, one chain, corrections under a root."""

from __future__ import annotations

from uuid import uuid4

import pytest
from django.db import connection

from tests.keeping.samples import answer, check, move, reading, top_up, waste
from twomarks.errors import InputError
from twomarks.keeping import questions, triggers
from twomarks.keeping.questions.values import current, written
from twomarks.keeping.records.household import HouseholdRow
from twomarks.keeping.records.ledger import ledgers
from twomarks.keeping.records.levels import LevelCheckRow
from twomarks.keeping.records.shelf import StockMoveRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import answers, corrections, levels, readings, shelf


def fill(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", [reading("2026-01-01", 100_000), reading("2026-02-01", 101_000)])
    levels.record_level_check(scope, "Alder", check())
    shelf.record_stock_moves(scope, [move(5000), move(2, item="washer", unit="piece")])
    answers.record_answers(scope, [answer("have"), answer("have not", question="pan:big")])
    levels.record_top_up(scope, "Alder", top_up())
    shelf.record_waste_move(scope, waste(4000))


def test_numbers_run_on_over_all_ledgers(scope: Scope, other: Scope) -> None:
    fill(scope)
    fill(other)
    numbers = sorted(row.number for table in ledgers() for row in written(scope, table))
    assert numbers == list(range(1, 10))
    assert questions.last_number(scope) == 9


def test_a_first_row_is_its_own_root(scope: Scope) -> None:
    fill(scope)
    assert all(row.root == row.public_id for table in ledgers() for row in written(scope, table))


def test_a_correction_carries_the_root_and_the_whole_new_content(scope: Scope) -> None:
    first = levels.record_level_check(scope, "Alder", check(permille=400))
    second = levels.record_level_check(scope, "Alder", check(permille=500, root=first.root))
    assert second.root == first.root
    assert second.number > first.number
    (now,) = questions.daybook(scope, "Alder").level_checks
    assert (now.permille, now.root, now.number) == (500, first.root, second.number)
    assert written(scope, LevelCheckRow).count() == 2


def test_a_withdrawn_row_no_longer_counts_and_stays_readable(scope: Scope) -> None:
    shelf.record_stock_moves(scope, [move(5000), move(1000)])
    root = written(scope, StockMoveRow).last().root
    corrections.withdraw_row(scope, "stock moves", root)
    assert questions.stock(scope) == {"quiet_brook": 5000}
    assert written(scope, StockMoveRow).count() == 3
    with pytest.raises(InputError) as refused:
        corrections.withdraw_row(scope, "stock moves", root)
    assert refused.value.key == "keeping.row_unknown"


def test_a_root_that_is_not_there_is_refused(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        levels.record_level_check(scope, "Alder", check(root=uuid4()))
    assert refused.value.key == "keeping.row_unknown"
    assert questions.last_number(scope) == 0


def test_a_person_of_another_household_writes_nothing(scope: Scope, other: Scope) -> None:
    with pytest.raises(InputError) as refused:
        answers.record_answers(Scope(scope.household, other.person), [answer("have")])
    assert refused.value.key == "keeping.scope_unknown"
    assert questions.answers(scope) == {}


def test_one_who_may_only_read_writes_nothing(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        answers.record_answers(Scope(scope.household, scope.person, "reader"), [answer("have")])
    assert refused.value.key == "keeping.may_not_write"
    assert questions.answers(scope) == {}


def test_a_whole_record_is_found_whole(scope: Scope) -> None:
    fill(scope)
    found = questions.verify(scope)
    assert (found.whole, found.rows, found.faults) == (True, 9, ())
    assert found.head == questions.chain_head(scope)
    assert [message.key for message in found.says_nothing_of] == ["keeping.proves_not_truth", "keeping.proves_not_age"]


def test_an_empty_record_is_whole(scope: Scope) -> None:
    assert questions.verify(scope).whole


def test_an_earlier_head_is_found_as_the_beginning(scope: Scope) -> None:
    fill(scope)
    head = questions.chain_head(scope)
    shelf.record_stock_moves(scope, [move(1000)])
    assert questions.verify(scope, earlier_head=head).whole
    broken = questions.verify(scope, earlier_head="0" * 64)
    assert [fault.key for fault in broken.faults] == ["keeping.not_its_beginning"]


@pytest.mark.parametrize(
    ("statement", "keys"),
    [
        ("UPDATE stock_move SET amount = 9000 WHERE item = 'quiet_brook'", {"keeping.row_differs"}),
        (
            "UPDATE stock_move SET payload = replace(payload, '5000', '9000'), amount = 9000 WHERE item = 'quiet_brook'",
            {"keeping.chain_broken"},
        ),
        ("DELETE FROM level_check", {"keeping.row_missing", "keeping.chain_broken"}),
        ("DELETE FROM waste_move", {"keeping.row_missing"}),
        ("UPDATE reading SET day = '2025-01-01' WHERE number = 1", {"keeping.row_differs"}),
        ("UPDATE answer SET void = true WHERE question = 'pan:big'", {"keeping.row_differs"}),
    ],
)
def test_tampering_past_the_triggers_is_seen(scope: Scope, statement: str, keys: set[str]) -> None:
    fill(scope)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SET LOCAL session_replication_role = replica")
        else:
            for name in triggers.names_in(connection):
                cursor.execute(f"DROP TRIGGER {name}")
        cursor.execute(statement)
    found = questions.verify(scope)
    assert not found.whole
    assert {fault.key for fault in found.faults} == keys


def test_the_counter_never_goes_back(scope: Scope) -> None:
    fill(scope)
    before = HouseholdRow.objects.get(id=scope.household).last_number
    with pytest.raises(InputError):
        shelf.record_stock_moves(scope, [move(-9999)])
    assert HouseholdRow.objects.get(id=scope.household).last_number == before
    assert current(scope, StockMoveRow).count() == 2
