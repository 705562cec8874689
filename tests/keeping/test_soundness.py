"""The look at the database itself: what is wrong is seen, what is right is called so."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from django.db import connection

from twomarks.keeping import soundness as looked
from twomarks.keeping.home import Home
from twomarks.keeping.schema import number_of_this_version

pytestmark = pytest.mark.django_db


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.setattr(looked, "number_in", lambda _: number_of_this_version())
    return Home(tmp_path, tmp_path / "twomarks.sqlite3")


def test_a_new_database_is_sound(home: Home) -> None:
    found = looked.soundness(home)
    assert found.sound
    assert found.last_backup is None
    assert found.free_bytes > 0


def test_a_lost_trigger_is_named(home: Home) -> None:
    if connection.vendor == "postgresql":
        pytest.skip("triggers are dropped by another statement there")
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER entry_no_delete")
    found = looked.soundness(home)
    assert not found.sound
    assert found.missing_triggers == ("entry_no_delete",)


def test_an_older_schema_is_not_sound(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    if connection.vendor == "postgresql":
        pytest.skip("the schema number stands in a SQLite file")
    monkeypatch.setattr(looked, "number_in", lambda _: 1)
    assert not looked.soundness(home).sound


def test_the_last_backup_is_dated_by_its_name(home: Home) -> None:
    home.backups.mkdir()
    (home.backups / "20261101T080000-daily.sqlite3").touch()
    (home.backups / "20261103T080000-before-3.sqlite3").touch()
    assert looked.soundness(home).last_backup == dt.date(2026, 11, 3)
