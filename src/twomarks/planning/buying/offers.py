"""What shops offer: containers of a product, each with its size and, where it is known, its price."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

__all__ = ["Offer"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A container on offer: of which product, in which shop, what it holds, and its price where one is known."""

    key: str
    product: str
    shop: str = ""
    size_ml: int
    price: Decimal | None = None
    currency: str = ""
    day: dt.date | None = None
