"""Documents and their revisions; the vehicle that a sheet describes."""

from __future__ import annotations

from django.db import models

from twomarks.keeping.records.household import HouseholdRow

__all__ = ["DocumentRow", "RevisionRow", "VehicleRow"]


class DocumentRow(models.Model):
    """A document by the id that stands in its text."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+", db_index=False)
    document = models.UUIDField()
    kind = models.CharField(max_length=16)
    key = models.CharField(max_length=120, default="", blank=True)
    name = models.CharField(max_length=200)

    class Meta:
        db_table = "document"
        constraints = [
            models.UniqueConstraint(fields=["household", "document"], name="document_id"),
            models.UniqueConstraint(fields=["household", "kind", "key"], name="document_key", condition=~models.Q(key="")),
            models.CheckConstraint(condition=models.Q(kind__in=["vehicle", "procedure", "shelf", "climate"]), name="document_kind"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.name}"


class RevisionRow(models.Model):
    """A document's text as it was saved once; never changed."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+")
    document = models.ForeignKey(DocumentRow, on_delete=models.PROTECT, related_name="revisions", db_index=False)
    number = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)
    text = models.TextField()
    person = models.UUIDField()
    written_at = models.DateTimeField()

    class Meta:
        db_table = "revision"
        constraints = [models.UniqueConstraint(fields=["document", "number"], name="revision_number")]

    def __str__(self) -> str:
        return f"{self.document_id}: {self.number}"


class VehicleRow(models.Model):
    """A vehicle of the household: the row that names its sheet."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+", db_index=False)
    document = models.OneToOneField(DocumentRow, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=32)
    retired = models.BooleanField(default=False)

    class Meta:
        db_table = "vehicle"
        constraints = [models.UniqueConstraint(fields=["household", "name"], name="vehicle_name")]

    def __str__(self) -> str:
        return self.name
