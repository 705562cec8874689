"""Answers kept so that they need not be worked out again; may be dropped at any time."""

from __future__ import annotations

from django.db import models

from twomarks.keeping.records.household import HouseholdRow

__all__ = ["DerivedRow"]


class DerivedRow(models.Model):
    """The JSON of one answer under the SHA-256 of everything that it rests on."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.CASCADE, related_name="+", db_index=False)
    what = models.CharField(max_length=64)
    about = models.CharField(max_length=64, default="", blank=True)
    key = models.CharField(max_length=64)
    answer = models.TextField()

    class Meta:
        db_table = "derived"
        constraints = [models.UniqueConstraint(fields=["household", "what", "about", "key"], name="derived_key")]

    def __str__(self) -> str:
        return f"{self.what} {self.about}"
