"""Opening a home: made whole or not at all, backed up before it changes, refused in words when it cannot be."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import resource
import shutil
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from twomarks import packaged
from twomarks.errors import StorageError
from twomarks.keeping import backup, clock, opening, schema
from twomarks.keeping.home import Home, home_of

ROOT = Path(__file__).resolve().parents[2]
COMMAND, FULL = "twomarks.app.settings.command", "twomarks.app.settings.full"
OPEN = f"""
from pathlib import Path
from twomarks.keeping.opening import open_home
open_home(Path(FOLDER), settings={COMMAND!r}, migration_settings={FULL!r})
"""
FOUND = "from twomarks.keeping.services.households import find_scope, found_household\n"


def run(folder: Path, code: str, *, limit_bytes: int | None = None) -> subprocess.CompletedProcess[str]:
    """Run a program on the home in `folder`, as a command would be, in a process of its own."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("TWOMARKS_", "DJANGO_"))}
    told = "from twomarks.errors import StorageError\ntry:\n" + "\n".join(f"    {line}" for line in (OPEN + code).splitlines() if line)
    told += "\nexcept StorageError as error:\n    print('REFUSED', error.key, error.values)\n"
    limited = None
    if limit_bytes is not None:
        most = limit_bytes

        def limited() -> None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    return subprocess.run(
        [sys.executable, "-c", f"FOLDER = {str(folder)!r}\n{told}"],
        env={**environment, "PYTHONPATH": str(ROOT / "src")},
        capture_output=True,
        text=True,
        preexec_fn=limited,
        timeout=120,
    )


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home with a household, made once."""
    folder = tmp_path_factory.mktemp("home")
    done = run(folder, FOUND + "print(found_household('Home', 'A.').role)")
    assert (done.stdout, done.stderr, done.returncode) == ("owner\n", "", 0)
    return folder


@pytest.fixture
def folder(made: Path, tmp_path: Path) -> Path:
    """A copy of the made home."""
    shutil.copytree(made, tmp_path / "home")
    return tmp_path / "home"


def test_a_missing_database_is_made_whole_and_opened(made: Path) -> None:
    home = home_of(made)
    assert schema.number_in(home.database) == schema.number_of_this_version() > 0
    assert sorted(path.name for path in made.iterdir()) == ["secret", "twomarks.sqlite3"]
    assert home.secret.stat().st_mode & 0o077 == 0
    with contextlib.closing(sqlite3.connect(home.database)) as connection, connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_opening_again_finds_the_household_and_loads_nothing_of_the_pages(folder: Path) -> None:
    names = ("django.contrib.auth", "django.contrib.contenttypes", "django.db.migrations", "twomarks.web", "numpy", "pydantic")
    done = run(folder, FOUND + f"print(find_scope().role)\nimport sys\nprint([name for name in {names} if name in sys.modules])")
    assert (done.stdout, done.stderr) == ("owner\n[]\n", "")


def test_sqlite_is_set_up_as_the_ledgers_need(folder: Path) -> None:
    code = """
from django.db import connection
with connection.cursor() as cursor:
    for name in ("journal_mode", "synchronous", "foreign_keys", "recursive_triggers"):
        cursor.execute(f"PRAGMA {name}")
        print(cursor.fetchone()[0])
print(connection.transaction_mode)
"""
    assert run(folder, code).stdout.split() == ["wal", "2", "1", "1", "IMMEDIATE"]


def test_a_newer_database_is_refused_in_words_and_left_alone(folder: Path) -> None:
    home = home_of(folder)
    newer = schema.number_of_this_version() + 1
    with contextlib.closing(sqlite3.connect(home.database)) as connection, connection:
        connection.execute(f"PRAGMA user_version = {newer}")
    before = home.database.read_bytes()
    done = run(folder, "")
    assert done.stdout.startswith("REFUSED storage.newer")
    assert f"'found': {newer}" in done.stdout
    assert home.database.read_bytes() == before


LATER_TABLES = ("help_call", "measurement", "quote", "snag", "vehicle_event")
"""The tables that migrations after the second made."""


def test_an_older_database_is_backed_up_and_brought_up_to_date(folder: Path) -> None:
    home = home_of(folder)
    with contextlib.closing(sqlite3.connect(home.database)) as connection, connection:
        connection.execute("DELETE FROM django_migrations WHERE app = 'keeping' AND name > '0002'")
        for table in LATER_TABLES:
            connection.execute(f"DROP TABLE {table}")
        connection.execute("PRAGMA user_version = 1")
    done = run(folder, FOUND + "print(find_scope().role)")
    assert (done.stdout, done.stderr) == ("owner\n", "")
    assert schema.number_in(home.database) == schema.number_of_this_version()
    (copy,) = backup.backups(home)
    assert f"before-{schema.number_of_this_version()}" in copy.name
    with contextlib.closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (1,)
        assert connection.execute("SELECT name FROM household").fetchall() == [("Home",)]


def test_a_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    (tmp_path / "twomarks.sqlite3").write_bytes(b"this is not a database at all, only some text" * 100)
    assert run(tmp_path, "").stdout.startswith("REFUSED storage.no_database")


def test_a_folder_that_cannot_be_one_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StorageError) as refused:
        opening.prepare_folder(tmp_path / "file" / "home")
    assert refused.value.key == "storage.folder"


def test_a_folder_that_may_not_be_written_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening.os, "access", lambda *_: False)
    with pytest.raises(StorageError) as refused:
        opening.prepare_folder(tmp_path)
    assert refused.value.key == "storage.folder"
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_while_the_database_is_made_leaves_nothing_behind(tmp_path: Path) -> None:
    done = run(tmp_path, "", limit_bytes=100_000)
    assert done.stdout.startswith("REFUSED storage.full"), done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["secret"]


def test_a_full_disk_while_writing_keeps_nothing_of_it(folder: Path) -> None:
    backup.back_up_once_a_day(home_of(folder))
    size = home_of(folder).database.stat().st_size
    code = FOUND + (
        "from twomarks.keeping import questions\n"
        "from twomarks.keeping.services.answers import record_answers\n"
        "from twomarks.model.ledger import Answer\n"
        "import datetime as dt\n"
        "scope = find_scope()\n"
        "answers = [Answer(day=dt.date(2026, 11, 1), question=f'tool:{n}', word='x' * 150, note='y' * 400) for n in range(3000)]\n"
        "record_answers(scope, answers, today=dt.date(2026, 11, 25))\n"
    )
    done = run(folder, code, limit_bytes=size + 50_000)
    assert done.stdout.startswith("REFUSED storage.full"), (done.stdout, done.stderr)
    again = run(folder, FOUND + "from twomarks.keeping import questions\nprint(questions.last_number(find_scope()))")
    assert again.stdout == "0\n"
    with contextlib.closing(sqlite3.connect(home_of(folder).database)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_the_database_is_copied_once_a_day_and_old_copies_go(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    home = home_of(folder)
    first = dt.datetime(2026, 11, 1, 8, tzinfo=dt.UTC)
    for day in range(10):
        for hour in (0, 5):
            at = first + dt.timedelta(days=day, hours=hour)
            monkeypatch.setattr(clock, "now", lambda at=at: at)
            backup.back_up_once_a_day(home)
    copies = [copy.name for copy in backup.backups(home)]
    assert copies == [f"202611{day:02d}T080000-daily.sqlite3" for day in range(4, 11)]
    with contextlib.closing(sqlite3.connect(home.backups / copies[-1])) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_copy_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    home = Home(tmp_path, tmp_path / "twomarks.sqlite3")
    with pytest.raises(StorageError) as refused:
        backup.back_up(home, why="daily")
    assert refused.value.key == "storage.no_backup"
    assert backup.backups(home) == ()
    assert not any(path.name.startswith(".part-") for path in home.backups.iterdir())


def test_two_that_open_a_new_home_at_once_both_find_it(tmp_path: Path) -> None:
    code = f"FOLDER = {str(tmp_path)!r}\n{OPEN}"
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("TWOMARKS_", "DJANGO_"))}
    both = [
        subprocess.Popen(
            [sys.executable, "-c", code], env={**environment, "PYTHONPATH": str(ROOT / "src")}, stderr=subprocess.PIPE, text=True
        )
        for _ in range(2)
    ]
    assert [(one.communicate(timeout=120)[1], one.returncode) for one in both] == [("", 0), ("", 0)]
    assert schema.number_in(home_of(tmp_path).database) == schema.number_of_this_version()


def test_two_that_write_at_once_wait_for_each_other_and_leave_one_whole_record(folder: Path) -> None:
    code = FOUND + (
        "from twomarks.keeping.services.answers import record_answers\n"
        "from twomarks.model.ledger import Answer\n"
        "import datetime as dt\n"
        "for turn in range(40): record_answers(find_scope(), [Answer(day=dt.date(2026, 11, 1), question=f'tool:{turn}', word='have')])\n"
        "print('done')"
    )
    with ThreadPoolExecutor(2) as both:
        assert [done.stdout for done in both.map(lambda _: run(folder, code), range(2))] == ["done\n", "done\n"]
    asked = "from twomarks.keeping import questions\nfound = questions.verify(find_scope())\nprint(found.whole, found.rows)"
    assert run(folder, FOUND + asked).stdout == "True 80\n"


def test_every_folder_of_migrations_counts_towards_the_schema_number() -> None:
    source = ROOT / "src" / "twomarks"
    folders = {path.parent.relative_to(source).as_posix() for path in source.glob("**/migrations/__init__.py")}
    assert folders == set(schema.MIGRATION_FOLDERS.values())
    counted = sum(len([name for name in packaged.names(folder, ".py") if name[0].isdigit()]) for folder in folders)
    assert schema.number_of_this_version() == counted


def test_the_home_is_where_it_was_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TWOMARKS_HOME", str(tmp_path / "named"))
    assert home_of(None).folder == tmp_path / "named"
    assert home_of(tmp_path).database == tmp_path / "twomarks.sqlite3"
    monkeypatch.delenv("TWOMARKS_HOME")
    assert home_of(None).folder.name == "twomarks"
