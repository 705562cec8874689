"""What was measured, what happened to a vehicle, what was noticed, and what a workshop asks."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Event, Measurement, Quote, Snag, VehicleEvent

__all__ = ["MeasurementRow", "QuoteRow", "SnagRow", "VehicleEventRow"]


class MeasurementRow(LedgerRow):
    """A value measured of a service item at one place, in the ledger step of its kind."""

    ledger: ClassVar[str] = "measurements"
    holds: ClassVar[type[Event]] = Measurement

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    item = models.CharField(max_length=64)
    place = models.CharField(max_length=120, default="", blank=True)
    kind = models.CharField(max_length=32)
    steps = models.BigIntegerField()
    odometer_steps = models.BigIntegerField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "measurement"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return item, place, kind, steps and odometer."""
        return {
            "item": event.item,
            "place": event.place,
            "kind": event.kind,
            "steps": event.steps,
            "odometer_steps": event.odometer_steps,
        }


class VehicleEventRow(LedgerRow):
    """Something that calls for work out of turn."""

    ledger: ClassVar[str] = "events"
    holds: ClassVar[type[Event]] = VehicleEvent

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    event = models.CharField(max_length=64)
    odometer_steps = models.BigIntegerField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "vehicle_event"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return the word of the event and the odometer."""
        return {"event": event.event, "odometer_steps": event.odometer_steps}


class SnagRow(LedgerRow):
    """Something noticed; open until an entry names its root."""

    ledger: ClassVar[str] = "snags"
    holds: ClassVar[type[Event]] = Snag

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    how_bad = models.CharField(max_length=16)

    class Meta(LedgerRow.Meta):
        db_table = "snag"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return how bad it is."""
        return {"how_bad": event.how_bad}


class QuoteRow(LedgerRow):
    """What a workshop asks for an item."""

    ledger: ClassVar[str] = "quotes"
    holds: ClassVar[type[Event]] = Quote

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    item = models.CharField(max_length=64)
    amount_minor = models.BigIntegerField()
    currency = models.CharField(max_length=3)

    class Meta(LedgerRow.Meta):
        db_table = "quote"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return item, amount and currency."""
        return {"item": event.item, "amount_minor": event.amount_minor, "currency": event.currency}
