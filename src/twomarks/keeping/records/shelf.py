"""What came onto the shelf and left it; what went into the waste cans and out of them."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Event, StockMove, WasteMove

__all__ = ["StockMoveRow", "WasteMoveRow"]


class StockMoveRow(LedgerRow):
    """Stock in (positive) or out (negative), in mL or pieces."""

    ledger: ClassVar[str] = "stock moves"
    holds: ClassVar[type[Event]] = StockMove

    item = models.CharField(max_length=120)
    amount = models.BigIntegerField()
    unit = models.CharField(max_length=8)
    why = models.CharField(max_length=16)

    class Meta(LedgerRow.Meta):
        db_table = "stock_move"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return item, amount, unit and reason."""
        return {"item": event.item, "amount": event.amount, "unit": event.unit, "why": event.why}


class WasteMoveRow(LedgerRow):
    """Waste into a can (positive) or handed in (negative), in mL."""

    ledger: ClassVar[str] = "waste moves"
    holds: ClassVar[type[Event]] = WasteMove

    can = models.CharField(max_length=120)
    amount_ml = models.BigIntegerField()
    stream = models.CharField(max_length=64)
    where_to = models.CharField(max_length=200, default="", blank=True)

    class Meta(LedgerRow.Meta):
        db_table = "waste_move"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return can, amount, stream and where it went."""
        return {"can": event.can, "amount_ml": event.amount_ml, "stream": event.stream, "where_to": event.where_to}
