"""Counter readings, and the owner's word that a flagged one is right."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.values import Confirmation
from twomarks.model.ledger import Event, Reading

__all__ = ["ConfirmationRow", "ReadingRow"]


class ReadingRow(LedgerRow):
    """A dated value of a counter, in the ledger step of its kind."""

    ledger: ClassVar[str] = "readings"
    holds: ClassVar[type[Event]] = Reading

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    counter = models.CharField(max_length=32)
    kind = models.CharField(max_length=32)
    steps = models.BigIntegerField()

    class Meta(LedgerRow.Meta):
        db_table = "reading"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return counter, kind and steps."""
        return {"counter": event.counter, "kind": event.kind, "steps": event.steps}


class ConfirmationRow(LedgerRow):
    """The owner says that a reading is right although it was flagged."""

    ledger: ClassVar[str] = "confirmations"
    holds: ClassVar[type[Event]] = Confirmation

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    reading = models.UUIDField()

    class Meta(LedgerRow.Meta):
        db_table = "confirmation"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return the root of the reading."""
        return {"reading": event.reading}
