from __future__ import annotations

from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.state import StateApps

from twomarks.keeping import triggers

TABLES = (
    "answer",
    "card",
    "confirmation",
    "entry",
    "follow_up",
    "level_check",
    "reading",
    "revision",
    "stock_move",
    "tick",
    "top_up",
    "waste_move",
    "workday",
)


def install(_: StateApps, editor: BaseDatabaseSchemaEditor) -> None:
    triggers.install(editor.connection, TABLES)


class Migration(migrations.Migration):
    dependencies = [("keeping", "0002_append_only")]
    operations = [migrations.RunPython(install, migrations.RunPython.noop)]
