"""Home against the workshop: what an item cost at home the last time, and what a workshop asks for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from twomarks.planning.cost.work import CostedWork
from twomarks.units import amount_of
from twomarks.words import Message, say

if TYPE_CHECKING:
    from twomarks.model.ledger import Quote

__all__ = ["AgainstWorkshop", "against_workshop", "last_cost"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AgainstWorkshop:
    """One item that a workshop was asked about; `saved` is below nothing where the workshop is cheaper."""

    item: str
    quote: Decimal
    quote_currency: str
    shop: str
    home: CostedWork | None = None
    saved: Decimal | None = None
    why_not: Message | None = None


def last_cost(works: Sequence[CostedWork], item: str) -> CostedWork | None:
    """Return the last work that did this item alone and whose whole cost is known: shared work cannot be shared out."""
    alone = [work for work in works if work.items == (item,) and work.total is not None and not work.materials.unpriced]
    return max(alone, key=lambda work: work.day, default=None)


def against_workshop(works: Sequence[CostedWork], quotes: Mapping[str, Quote], *, currency: str) -> tuple[AgainstWorkshop, ...]:
    """Return each item with a quote, and what doing it at home saves."""
    found = []
    for item, quote in sorted(quotes.items()):
        asked = amount_of(quote.amount_minor, quote.currency)
        home = last_cost(works, item)
        why_not, saved = None, None
        if quote.currency != currency:
            why_not = say("cost.quote_other_currency", expected=currency)
        elif home is None or home.total is None:
            done = any(item in work.items for work in works)
            why_not = say("cost.not_priced_at_home" if done else "cost.not_done_at_home")
        else:
            saved = asked - home.total
        found.append(
            AgainstWorkshop(item=item, quote=asked, quote_currency=quote.currency, shop=quote.shop, home=home, saved=saved, why_not=why_not)
        )
    return tuple(found)
