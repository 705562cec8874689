"""The one base of every ledger table."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar, Self

from django.db import models
from django.db.models import Exists, OuterRef

from twomarks.keeping.records.household import HouseholdRow, PersonRow
from twomarks.model.ledger import Event

__all__ = ["LedgerQuerySet", "LedgerRow", "ledgers"]


class LedgerQuerySet(models.QuerySet["LedgerRow"]):
    """Rows of one ledger."""

    def current(self) -> Self:
        """Keep the rows that hold now: no later number for the same root, and the latest not void."""
        later = self.model._default_manager.filter(household=OuterRef("household"), root=OuterRef("root"), number__gt=OuterRef("number"))
        return self.filter(~Exists(later), void=False)


class LedgerRow(models.Model):
    """A row that is never changed.

    `number` counts over all ledgers of the household. The first row's `root` is its own `public_id`; a correction
    carries that root and the whole new content, or is void. `part_of` is the root of the daybook entry that the row
    came with. `payload` is the canonical text of the row, `chain` the SHA-256 over the household's chain so far and it.
    """

    ledger: ClassVar[str] = ""
    holds: ClassVar[type[Event]] = Event

    public_id = models.UUIDField(default=uuid.uuid4, editable=False)
    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+", db_index=False)
    person = models.ForeignKey(PersonRow, on_delete=models.PROTECT, related_name="+", db_index=False)
    number = models.BigIntegerField()
    root = models.UUIDField()
    part_of = models.UUIDField(null=True)
    void = models.BooleanField(default=False)
    day = models.DateField()
    day_from = models.DateField(null=True)
    day_to = models.DateField(null=True)
    at = models.DateTimeField(null=True)
    zone = models.CharField(max_length=64, default="", blank=True)
    text = models.TextField(default="", blank=True)
    note = models.TextField(default="", blank=True)
    written_at = models.DateTimeField()
    payload = models.TextField()
    chain = models.CharField(max_length=64)

    objects = LedgerQuerySet.as_manager()

    class Meta:
        abstract = True
        ordering = ["number"]
        constraints = [
            models.UniqueConstraint(fields=["household", "public_id"], name="%(class)s_id"),
            models.UniqueConstraint(fields=["household", "number"], name="%(class)s_number"),
            models.CheckConstraint(condition=models.Q(number__gt=0), name="%(class)s_counts"),
            models.CheckConstraint(
                condition=models.Q(day_from__isnull=True, day_to__isnull=True)
                | models.Q(day_from__isnull=False, day_to__isnull=False, day_from__lte=models.F("day"), day_to__gte=models.F("day")),
                name="%(class)s_days",
            ),
        ]
        indexes = [models.Index(fields=["root", "number"], name="%(class)s_root")]

    def __str__(self) -> str:
        return f"{self.ledger} {self.number}"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return the columns of this ledger's own, as the event says them."""
        raise NotImplementedError


def ledgers() -> tuple[type[LedgerRow], ...]:
    """Return every ledger table, by the name of its ledger."""
    return tuple(sorted(LedgerRow.__subclasses__(), key=lambda row: row.ledger))
