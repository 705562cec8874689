"""Level checks and top-ups."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Event, LevelCheck, TopUp

__all__ = ["LevelCheckRow", "TopUpRow"]


class LevelCheckRow(LedgerRow):
    """A reading on the stick, in thousandths of the span between the marks."""

    ledger: ClassVar[str] = "level checks"
    holds: ClassVar[type[Event]] = LevelCheck

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    circuit = models.CharField(max_length=64)
    permille = models.IntegerField()
    minutes_since_stop = models.IntegerField(null=True)
    odometer_steps = models.BigIntegerField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "level_check"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return circuit, reading, time since stop and odometer."""
        return {
            "circuit": event.circuit,
            "permille": event.permille,
            "minutes_since_stop": event.minutes_since_stop,
            "odometer_steps": event.odometer_steps,
        }


class TopUpRow(LedgerRow):
    """Fluid added between services."""

    ledger: ClassVar[str] = "top-ups"
    holds: ClassVar[type[Event]] = TopUp

    vehicle = models.ForeignKey(VehicleRow, on_delete=models.PROTECT, related_name="+")
    circuit = models.CharField(max_length=64)
    volume_ml = models.BigIntegerField()
    product = models.CharField(max_length=200, default="", blank=True)
    odometer_steps = models.BigIntegerField(null=True)

    class Meta(LedgerRow.Meta):
        db_table = "top_up"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return circuit, volume, product and odometer."""
        return {
            "circuit": event.circuit,
            "volume_ml": event.volume_ml,
            "product": event.product,
            "odometer_steps": event.odometer_steps,
        }
