"""Workdays, their frozen job cards, and the ticks on them."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.household import HouseholdRow
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Event, Tick

__all__ = ["CardRow", "TickRow", "WorkdayRow"]


class WorkdayRow(models.Model):
    """A workday that was started."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+")
    public_id = models.UUIDField()
    day = models.DateField()
    person = models.UUIDField()
    started_at = models.DateTimeField()

    class Meta:
        db_table = "workday"
        constraints = [models.UniqueConstraint(fields=["household", "public_id"], name="workday_id")]

    def __str__(self) -> str:
        return f"{self.day}"


class CardRow(models.Model):
    """A job card as it was when its workday started; never changed."""

    household = models.ForeignKey(HouseholdRow, on_delete=models.PROTECT, related_name="+", db_index=False)
    workday = models.ForeignKey(WorkdayRow, on_delete=models.PROTECT, related_name="+")
    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    public_id = models.UUIDField()
    title = models.CharField(max_length=200)
    text = models.TextField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        db_table = "card"
        constraints = [models.UniqueConstraint(fields=["household", "public_id"], name="card_id")]

    def __str__(self) -> str:
        return self.title


class TickRow(LedgerRow):
    """What was marked on a card; its `public_id` is the tick's own, made on the device."""

    ledger: ClassVar[str] = "ticks"
    holds: ClassVar[type[Event]] = Tick

    card = models.ForeignKey(CardRow, on_delete=models.PROTECT, related_name="+")
    target = models.CharField(max_length=120)
    what = models.CharField(max_length=16)
    device = models.CharField(max_length=64)
    device_sequence = models.BigIntegerField()

    class Meta(LedgerRow.Meta):
        db_table = "tick"
        constraints = [
            *LedgerRow.Meta.constraints,
            models.UniqueConstraint(fields=["household", "device", "device_sequence"], name="tick_device_order"),
        ]

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return target, what was marked, device and its sequence."""
        return {"target": event.target, "what": event.what, "device": event.device, "device_sequence": event.device_sequence}
