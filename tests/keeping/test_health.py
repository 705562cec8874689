"""The look at a home: what is wrong is seen, what is right is called so, copies are dated by their names."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from django.db import connection

from twomarks.keeping import clock, health
from twomarks.keeping.home import Home

pytestmark = pytest.mark.django_db


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path, tmp_path / "twomarks.sqlite3")


def test_a_new_home_is_whole_and_has_no_copy_yet(home: Home) -> None:
    found = health.health(home)
    assert (found.damage, found.triggers_missing, found.newest_copy_days) == ((), (), None)
    assert found.triggers > 0
    assert found.free_mb > 0


def test_a_lost_trigger_is_named(home: Home) -> None:
    if connection.vendor == "postgresql":
        pytest.skip("triggers are dropped by another statement there")
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER entry_no_delete")
    assert health.health(home).triggers_missing == ("entry_no_delete",)


def test_the_newest_copy_is_dated_by_its_name(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    if connection.vendor == "postgresql":
        pytest.skip("copies on a server are its owner's")
    monkeypatch.setattr(clock, "now", lambda: dt.datetime(2026, 11, 5, 20, tzinfo=dt.UTC))
    home.backups.mkdir()
    (home.backups / "20261101T080000-daily.sqlite3").touch()
    (home.backups / "20261103T080000-before-3.sqlite3").touch()
    found = health.health(home)
    assert (found.copies, found.newest_copy_days) == (2, 2.5)
