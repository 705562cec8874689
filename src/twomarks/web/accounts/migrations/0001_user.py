"""The user model stands in the first migration, since it cannot be swapped later."""

from __future__ import annotations

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Makes the table of users."""

    initial = True
    dependencies = [("keeping", "0001_what_is_kept")]
    operations = [
        migrations.CreateModel(
            name="User",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("last_login", models.DateTimeField(blank=True, null=True, verbose_name="last login")),
                ("name", models.CharField(max_length=120, unique=True)),
                ("is_active", models.BooleanField(default=True)),
                (
                    "person",
                    models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name="+", to="keeping.personrow"),
                ),
            ],
            options={"db_table": "account"},
        ),
    ]
