"""Copies of the database, made while it is in use, and rotated."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from pathlib import Path

from twomarks.errors import StorageError
from twomarks.keeping import clock
from twomarks.keeping.home import Home

__all__ = ["back_up", "back_up_once_a_day", "backups"]

KEPT_DAILY = 7
KEPT_BEFORE_MIGRATION = 5


def back_up(home: Home, *, why: str) -> Path:
    """Copy the database into the backup folder and return the copy; `why` is "daily" or "before-N".

    The copy is whole even while others write; it takes its name only when it is safely on the disk.

    Raises
    ------
    StorageError
        Where the copy cannot be made; what was there stays as it was.
    """
    name = f"{clock.now():%Y%m%dT%H%M%S}-{why}.sqlite3"
    copy = home.backups / name
    part = home.backups / f".part-{os.getpid()}-{name}"
    try:
        home.backups.mkdir(exist_ok=True)
        with (
            contextlib.closing(sqlite3.connect(home.database.as_uri() + "?mode=rw", uri=True, timeout=20.0)) as source,
            contextlib.closing(sqlite3.connect(part)) as target,
        ):
            source.backup(target)
        _flush(part)
        part.replace(copy)
    except (OSError, sqlite3.Error) as error:
        found = error.strerror if isinstance(error, OSError) else str(error)
        raise StorageError("storage.no_backup", where=str(home.backups), found=found or type(error).__name__) from None
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
    _rotate(home)
    return copy


def backups(home: Home) -> tuple[Path, ...]:
    """Return the copies that there are, oldest first."""
    if not home.backups.is_dir():
        return ()
    return tuple(sorted(path for path in home.backups.iterdir() if path.suffix == ".sqlite3" and not path.name.startswith(".")))


def back_up_once_a_day(home: Home) -> Path | None:
    """Copy the database unless that was done today; return the copy, or None."""
    today = f"{clock.now():%Y%m%d}"
    if any(copy.name.startswith(today) for copy in backups(home)):
        return None
    return back_up(home, why="daily")


def _rotate(home: Home) -> None:
    copies = backups(home)
    daily = [copy for copy in copies if copy.stem.endswith("-daily")]
    others = [copy for copy in copies if not copy.stem.endswith("-daily")]
    for old in (*daily[:-KEPT_DAILY], *others[:-KEPT_BEFORE_MIGRATION]):
        with contextlib.suppress(OSError):
            old.unlink()


def _flush(path: Path) -> None:
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
