"""The home folder: where the database, its backups and the secret of this computer lie."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import platformdirs

__all__ = ["DATABASE_VARIABLE", "HOME_VARIABLE", "Home", "home_of"]

HOME_VARIABLE = "TWOMARKS_HOME"
DATABASE_VARIABLE = "TWOMARKS_DATABASE"


@dataclass(frozen=True, slots=True)
class Home:
    """A home folder and the places in it."""

    folder: Path
    database: Path

    @property
    def backups(self) -> Path:
        """The folder of the rotated copies of the database."""
        return self.folder / "backups"

    @property
    def secret(self) -> Path:
        """The file of the random text that signs this computer's cookies."""
        return self.folder / "secret"


def home_of(folder: Path | None) -> Home:
    """Return the home in `folder`; None means ``TWOMARKS_HOME``, else the platform's own place for a user's data."""
    if folder is None:
        named = os.environ.get(HOME_VARIABLE)
        folder = Path(named) if named else platformdirs.user_data_path("twomarks", appauthor=False)
        database = os.environ.get(DATABASE_VARIABLE)
        if database:
            return Home(folder.absolute(), Path(database).absolute())
    folder = folder.expanduser().absolute()
    return Home(folder, folder / "twomarks.sqlite3")
