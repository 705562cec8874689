"""Opening a home for a command: the light settings for its own work, the full ones for migrations in a child process."""

from __future__ import annotations

from pathlib import Path

from twomarks.keeping.home import Home

__all__ = ["COMMAND_SETTINGS", "FULL_SETTINGS", "open_home"]

COMMAND_SETTINGS = "twomarks.app.settings.command"
FULL_SETTINGS = "twomarks.app.settings.full"


def open_home(folder: Path | None, *, settings: str = COMMAND_SETTINGS) -> Home:
    """Open the home in `folder` under Django's `settings`; None is the platform's own place."""
    from twomarks.keeping.opening import open_home as opened

    return opened(folder, settings=settings, migration_settings=FULL_SETTINGS)
