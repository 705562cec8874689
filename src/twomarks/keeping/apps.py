"""What Django needs to know of this room."""

from __future__ import annotations

from typing import Any

from django.apps import AppConfig
from django.db.models.signals import post_migrate

__all__ = ["KeepingConfig"]


class KeepingConfig(AppConfig):
    """The room of what is kept."""

    name = "twomarks.keeping"
    label = "keeping"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Put the triggers back and write the schema number after every migration."""
        post_migrate.connect(_after_migrating, sender=self, dispatch_uid="keeping.after_migrating")


def _after_migrating(using: str, **_: Any) -> None:
    from django.db import connections

    from twomarks.keeping import schema, triggers

    triggers.install(connections[using])
    schema.write_number(connections[using])
