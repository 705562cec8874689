"""The shelf list (``twomarks/shelf/1``): what exists in the household and in the shops; how much is in the ledgers."""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Iterator, Mapping
from decimal import Decimal, InvalidOperation
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from twomarks.errors import InputError
from twomarks.model.facts import (
    BaseNumberFact,
    DensityFact,
    DynamicViscosityFact,
    KinematicViscosityFact,
    Line,
    Name,
    Part,
    ShareFact,
    TemperatureFact,
    TextFact,
    TorqueFact,
    VolumeFact,
    fault,
    listed,
    shown,
)
from twomarks.model.service_items import Key
from twomarks.model.vehicle import UUID, TextFacts

__all__ = ["Can", "DataSheet", "Oil", "Pan", "Price", "ShelfList", "ShelfPart", "Shop", "Tool", "shelf_faults"]

FORMAT = "twomarks/shelf/1"


class DataSheet(Part):
    """What a product's data sheet states; `ccs` and `mrv` are the viscosities cranked and pumped at, each with its temperature."""

    kv40: KinematicViscosityFact | None = None
    kv100: KinematicViscosityFact | None = None
    density15: DensityFact | None = None
    hths: DynamicViscosityFact | None = None
    ccs: DynamicViscosityFact | None = None
    ccs_at: TemperatureFact | None = None
    mrv: DynamicViscosityFact | None = None
    mrv_at: TemperatureFact | None = None
    ash: ShareFact | None = None
    tbn: BaseNumberFact | None = None

    @model_validator(mode="after")
    def _is_thinner_when_hot(self) -> DataSheet:
        if self.kv40 is not None and self.kv100 is not None and self.kv100.core >= self.kv40.core:
            raise fault(InputError("oil.sheet_crossed", kv40=self.kv40.core, kv100=self.kv100.core))
        return self


class Oil(Part):
    """A fluid: its name, its label as typed, and what its data sheet states."""

    name: Name
    fluid: Literal["engine oil", "gear oil", "brake fluid", "coolant", "other"] = "engine oil"
    label: TextFact
    data: DataSheet | None = None


class ShelfPart(Part):
    """A part kept in stock, under all the numbers that name it."""

    name: Name
    numbers: TextFacts = ()
    sizes: TextFact | None = None


class Tool(Part):
    """A tool; a torque wrench says the range it is marked with."""

    name: Name
    kind: TextFact | None = None
    drive: TextFact | None = None
    low: TorqueFact | None = None
    high: TorqueFact | None = None


class Pan(Part):
    """A drain pan."""

    name: Name
    holds: VolumeFact


class Can(Part):
    """A waste can, for one stream."""

    name: Name
    holds: VolumeFact
    stream: Name


def _amount(value: object) -> object:
    if not isinstance(value, str):
        raise fault(InputError("model.price", found=shown(value), example="41.90"))
    try:
        amount = Decimal(value)
    except InvalidOperation:
        raise fault(InputError("model.price", found=shown(value), example="41.90")) from None
    if not amount.is_finite() or amount < 0 or amount > 100_000 or -int(amount.as_tuple().exponent) > 2:
        raise fault(InputError("model.price", found=shown(value), example="41.90"))
    return amount


Money = Annotated[Decimal, BeforeValidator(_amount, json_schema_input_type=str)]


class Price(Part):
    """What one container, or one piece of a part, cost in a shop on a day."""

    item: Key
    size: VolumeFact | None = None
    price: Money
    day: dt.date


class Shop(Part):
    """A shop: its currency, what a delivery costs (absent: fetched), its prices with their day."""

    name: Name
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
    delivery: Money | None = None
    prices: Annotated[tuple[Price, ...], BeforeValidator(listed)] = ()


class ShelfList(Part):
    """What the household has and where it buys."""

    format: Annotated[str, Field(pattern=r"^twomarks/shelf/1(\.\d+)?$")]
    id: Annotated[str, Field(pattern=UUID)] | None = None
    name: Line
    oils: dict[Key, Oil] = {}
    parts: dict[Key, ShelfPart] = {}
    tools: dict[Key, Tool] = {}
    pans: dict[Key, Pan] = {}
    cans: dict[Key, Can] = {}
    shops: dict[Key, Shop] = {}


def shelf_faults(document: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    """Yield path and fault of everything in a shelf list's raw tables that single fields cannot see."""
    known = {key for name in ("oils", "parts") if isinstance(tables := document.get(name), dict) for key in tables}
    shops = document.get("shops")
    for shop, table in shops.items() if isinstance(shops, dict) else ():
        prices = table.get("prices") if isinstance(table, dict) else None
        for number, price in enumerate(prices if isinstance(prices, list) else ()):
            item = price.get("item") if isinstance(price, dict) else None
            if isinstance(item, str) and item not in known:
                near = difflib.get_close_matches(item, known, 1, 0.6)
                refusal = InputError("model.reference", found=item, expected=tuple(sorted(known)), nearest="".join(near))
                yield ("shops", shop, "prices", number, "item"), refusal
