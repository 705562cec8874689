"""`selfcheck`: a whole home is in order; a row that was changed, a trigger that is gone and an empty home are seen."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
from pathlib import Path

import pytest

from tests.cli.shell import Done, Shell, once


def state(done: Done, thing: str) -> str:
    found: str = next(one["state"] for one in done.answer["looked_at"] if one["thing"] == thing)
    return found


@pytest.fixture
def home(made: Path, tmp_path: Path) -> Path:
    """A copy of the made home, nobody using it."""
    return Path(shutil.copytree(made, tmp_path / "home"))


def changed(home: Path, *statements: str) -> None:
    with contextlib.closing(sqlite3.connect(home / "twomarks.sqlite3")) as connection, connection:
        for statement in statements:
            connection.execute(statement)


def test_a_whole_home_is_in_order(shell: Shell) -> None:
    done = shell.run("selfcheck", "--json")
    assert (done.code, done.answer["in_order"]) == (0, True)
    things = [one["thing"] for one in done.answer["looked_at"]]
    assert things == ["database", "schema", "triggers", "disk", "backups", "ledgers", "fonts", "procedures", "schemas", "texts"]


def test_a_trigger_that_is_gone_is_seen(home: Path) -> None:
    changed(home, "DROP TRIGGER reading_no_update")
    done = once(home, "selfcheck", "--json")
    assert (done.code, state(done, "triggers"), done.answer["in_order"]) == (1, "not in order", False)
    assert "reading_no_update" in done.out


def test_a_row_that_was_changed_behind_the_triggers_is_seen(home: Path) -> None:
    with contextlib.closing(sqlite3.connect(home / "twomarks.sqlite3")) as connection:
        made = connection.execute("SELECT sql FROM sqlite_master WHERE name = 'reading_no_update'").fetchone()[0]
    changed(home, "DROP TRIGGER reading_no_update", "UPDATE reading SET steps = steps - 1 WHERE number = 7", made)
    done = once(home, "selfcheck", "--json")
    assert (done.code, state(done, "ledgers"), state(done, "triggers")) == (1, "not in order", "in order")


def test_a_missing_row_is_seen(home: Path) -> None:
    with contextlib.closing(sqlite3.connect(home / "twomarks.sqlite3")) as connection:
        made = connection.execute("SELECT sql FROM sqlite_master WHERE name = 'reading_no_delete'").fetchone()[0]
    changed(home, "DROP TRIGGER reading_no_delete", "DELETE FROM reading WHERE number = 7", made)
    done = once(home, "selfcheck")
    assert done.code == 1
    assert "Rows are missing: 7 to 7." in done.said


def test_a_home_without_household_is_in_order_and_says_so(tmp_path: Path) -> None:
    done = once(tmp_path / "home", "selfcheck")
    assert (done.code, done.err) == (0, "")
    assert "no household yet" in done.said


def test_a_file_that_is_no_database_is_refused_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "twomarks.sqlite3").write_bytes(b"no database " * 200)
    done = once(tmp_path, "selfcheck")
    assert (done.code, done.out, done.err.count("\n")) == (2, "", 1)
