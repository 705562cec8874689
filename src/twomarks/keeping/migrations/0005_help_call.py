from __future__ import annotations

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("keeping", "0004_noticed"),
    ]

    operations = [
        migrations.CreateModel(
            name="HelpCallRow",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("number", models.CharField(blank=True, default="", max_length=24)),
                ("address", models.CharField(blank=True, default="", max_length=240)),
                (
                    "household",
                    models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name="+", to="keeping.householdrow"),
                ),
            ],
            options={
                "db_table": "help_call",
                "constraints": [models.UniqueConstraint(fields=("household",), name="help_call_one")],
            },
        ),
    ]
