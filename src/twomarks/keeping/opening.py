"""Opening a home: the folder, the schema number, the backup, the migration in a process of its own, then Django."""

from __future__ import annotations

import contextlib
import os
import sys
from pathlib import Path

from twomarks.errors import StorageError
from twomarks.keeping.backup import back_up, back_up_once_a_day
from twomarks.keeping.home import DATABASE_VARIABLE, HOME_VARIABLE, Home, home_of
from twomarks.keeping.schema import number_in, number_of_this_version

__all__ = ["backup_then_migrate", "open_home", "prepare_folder"]


def open_home(folder: Path | None, *, settings: str, migration_settings: str, daily_backup: bool = True) -> Home:
    """Open the home in `folder` (None: the platform's own place) under Django's `settings`, and return it.

    A missing database is made and an older one is backed up and brought up to date, both under `migration_settings`
    in a process of their own, so that this one never loads what only migrations need.

    Raises
    ------
    StorageError
        Where the folder cannot be written, the disk is full, the database is damaged or of a newer version.
    """
    home = prepare_folder(folder)
    os.environ[HOME_VARIABLE] = str(home.folder)
    if not os.environ.get("TWOMARKS_POSTGRES"):
        found, mine = number_in(home.database), number_of_this_version()
        if found > mine:
            raise StorageError("storage.newer", where=str(home.database), found=found, expected=mine)
        if found < mine:
            backup_then_migrate(home, found=found, settings=migration_settings)
        elif daily_backup:
            back_up_once_a_day(home)
    os.environ["DJANGO_SETTINGS_MODULE"] = settings
    from django.apps import apps
    from django.conf import settings as chosen

    # Not django.setup(): its logging and address parts cost a fifth of a command's start, and no command uses them.
    if not apps.ready:
        apps.populate(chosen.INSTALLED_APPS)
    return home


def prepare_folder(folder: Path | None) -> Home:
    """Make the home folder and this computer's secret where they are missing; refuse where they cannot be written."""
    home = home_of(folder)
    if os.path.exists(home.secret) and os.access(home.folder, os.W_OK | os.X_OK):
        return home
    import secrets
    import tempfile

    try:
        home.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not os.access(home.folder, os.W_OK | os.X_OK):
            raise PermissionError(13, os.strerror(13), str(home.folder))
        if not home.secret.exists():
            handle, part = tempfile.mkstemp(prefix=".part-", dir=home.folder)
            with os.fdopen(handle, "w", encoding="ascii") as file:
                file.write(secrets.token_urlsafe(48))
            os.replace(part, home.secret)
    except OSError as error:
        raise StorageError("storage.folder", where=str(home.folder), found=error.strerror or type(error).__name__) from None
    return home


def backup_then_migrate(home: Home, *, found: int, settings: str) -> None:
    """Bring the database of `home` to this version's schema; a new one takes its place only when it is whole."""
    if found > 0:
        back_up(home, why=f"before-{number_of_this_version()}")
        _migrate(home, home.database, settings)
        return
    part = home.database.with_name(f".part-{os.getpid()}-{home.database.name}")
    try:
        _migrate(home, part, settings)
        if number_in(home.database) == 0:  # another process may have been quicker
            _clear(home.database, keep_main=True)
            part.replace(home.database)
    except OSError as error:
        raise StorageError("storage.not_written", where=str(home.database), found=error.strerror or type(error).__name__) from None
    finally:
        _clear(part)


def _migrate(home: Home, database: Path, settings: str) -> None:
    import subprocess

    environment = {
        **os.environ,
        HOME_VARIABLE: str(home.folder),
        DATABASE_VARIABLE: str(database),
        "DJANGO_SETTINGS_MODULE": settings,
        "PYTHONPATH": os.pathsep.join(part for part in sys.path if part),
    }
    done = subprocess.run(
        [sys.executable, "-m", "django", "migrate", "--skip-checks", "--no-input", "--verbosity", "0"],
        env=environment,
        check=False,
        capture_output=True,
        text=True,
        errors="replace",
        stdin=subprocess.DEVNULL,
    )
    if done.returncode != 0:
        said = done.stderr.strip().splitlines() or done.stdout.strip().splitlines() or [str(done.returncode)]
        full = "disk is full" in said[-1] or "disk I/O error" in said[-1]
        raise StorageError("storage.full" if full else "storage.no_migration", where=str(home.database), found=said[-1])


def _clear(database: Path, *, keep_main: bool = False) -> None:
    for ending in ("-wal", "-shm", "-journal", *(() if keep_main else ("",))):
        with contextlib.suppress(OSError):
            database.with_name(database.name + ending).unlink(missing_ok=True)
