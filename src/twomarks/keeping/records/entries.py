"""Daybook entries and the checks they ask for."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.records.workdays import CardRow
from twomarks.keeping.values import FollowUp
from twomarks.model.ledger import Entry, Event

__all__ = ["EntryRow", "FollowUpRow"]


class EntryRow(LedgerRow):
    """What was done."""

    ledger: ClassVar[str] = "entries"
    holds: ClassVar[type[Event]] = Entry

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    card = models.ForeignKey(CardRow, on_delete=models.PROTECT, related_name="+", null=True)
    odometer_steps = models.BigIntegerField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "entry"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return the odometer."""
        return {"odometer_steps": event.odometer_steps}


class FollowUpRow(LedgerRow):
    """A check that an entry asked for; closed by a later row with the same root."""

    ledger: ClassVar[str] = "follow-ups"
    holds: ClassVar[type[Event]] = FollowUp

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    due_day = models.DateField(null=True)
    due_odometer_steps = models.BigIntegerField(null=True)
    done_on = models.DateField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "follow_up"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return when it is due and when it was done."""
        return {"due_day": event.due_day, "due_odometer_steps": event.due_odometer_steps, "done_on": event.done_on}
