"""What the materials cost that a piece of work used: what was poured and fitted, not what was bought."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from twomarks.units import amount_of
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.ledger import Entry
    from twomarks.model.shelf import ShelfList

__all__ = ["Materials", "materials_of"]


@dataclass(frozen=True, slots=True)
class Materials:
    """What materials cost, None where no price of any is known; how it was reckoned, and what has no price."""

    amount: Decimal | None
    reckoned: tuple[Message, ...] = ()
    unpriced: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class _Priced:
    shop: str
    day: dt.date
    price: Decimal
    size_l: float | None

    @property
    def each(self) -> Decimal:
        """The price of one litre, or of one piece."""
        return self.price / Decimal(str(self.size_l)) if self.size_l else self.price


def materials_of(entry: Entry, shelf: ShelfList | None, *, currency: str) -> Materials:
    """Return what the materials of an entry cost: as the owner entered it, else by the shelf list's prices nearest in time.

    A price counts that was taken before the work, the latest; only where there is none, the first one after it.
    """
    if entry.cost_minor is not None:
        if entry.currency != currency:
            amount = Figure(amount_of(entry.cost_minor, entry.currency), entry.currency)
            return Materials(None, unpriced=(say("cost.other_currency", amount=amount),))
        return Materials(amount_of(entry.cost_minor, currency), (say("cost.as_entered"),))
    reckoned: list[Message] = []
    unpriced: list[Message] = []
    total = Decimal(0)
    if entry.volume_in_ml:
        volume = Figure(entry.volume_in_ml / 1000, "L")
        priced = _price(shelf, _oil_key(shelf, entry.product), entry.day, currency)
        if priced is None or priced.size_l is None:
            unpriced.append(say("cost.no_price_fluid", what=entry.product or None, volume=volume))
        else:
            total += _rounded(priced.each * Decimal(entry.volume_in_ml) / 1000, currency)
            price = Figure(priced.price, currency)
            reckoned.append(
                say("cost.fluid", volume=volume, size=Figure(priced.size_l, "L"), price=price, shop=priced.shop, day=priced.day)
            )
    for number in entry.parts:
        priced = _price(shelf, _part_key(shelf, number), entry.day, currency)
        if priced is None:
            unpriced.append(say("cost.no_price_part", what=number))
        else:
            total += priced.price
            reckoned.append(say("cost.part", what=number, price=Figure(priced.price, currency), shop=priced.shop, day=priced.day))
    if not reckoned and not unpriced:
        unpriced.append(say("cost.nothing_noted"))
    return Materials(total if reckoned else None, tuple(reckoned), tuple(unpriced))


def _rounded(amount: Decimal, currency: str) -> Decimal:
    return amount.quantize(amount_of(1, currency))


def _oil_key(shelf: ShelfList | None, product: str) -> str:
    """Return the key of the oil that an entry names by its name and label, or by its name or key alone."""
    for key, oil in (shelf.oils if shelf else {}).items():
        if product in (key, oil.name, f"{oil.name} ({oil.label.text})"):
            return key
    return ""


def _part_key(shelf: ShelfList | None, number: str) -> str:
    for key, part in (shelf.parts if shelf else {}).items():
        if number == key or number in [known.text for known in part.numbers]:
            return key
    return ""


def _price(shelf: ShelfList | None, key: str, day: dt.date, currency: str) -> _Priced | None:
    known = list(_prices(shelf, key, currency)) if key else []
    if not known:
        return None
    before = [one for one in known if one.day <= day]
    nearest = max(one.day for one in before) if before else min(one.day for one in known)
    return min((one for one in known if one.day == nearest), key=lambda one: one.each)


def _prices(shelf: ShelfList | None, key: str, currency: str) -> Iterator[_Priced]:
    for shop in (shelf.shops if shelf else {}).values():
        if shop.currency == currency:
            for price in shop.prices:
                if price.item == key:
                    yield _Priced(shop.name, price.day, price.price, price.size.core if price.size else None)
