"""Figures as they are typed on the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twomarks import units
from twomarks.errors import InputError

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.words import Reader

__all__ = ["odometer_steps", "volume_ml"]


def odometer_steps(text: str, *, sheet: VehicleSheet, reader: Reader) -> int:
    """Return an odometer reading in ledger steps; without a unit it is in the one that the sheet names for its odometer."""
    counter = sheet.counters.get("odometer")
    read = units.quantity(
        text,
        kind="distance",
        market=reader.market,
        decimal=reader.decimal,
        default_unit=counter.unit if counter else None,
        where="--odometer",
    )
    if read.steps < 0:
        raise InputError("cli.below_nothing", where="--odometer", found=text, example="148210 km")
    return read.steps


def volume_ml(text: str, *, where: str, reader: Reader) -> int:
    """Return an amount of fluid in millilitres; less than one is refused."""
    amount = units.quantity(text, kind="volume", market=reader.market, decimal=reader.decimal, where=where).steps
    if amount <= 0:
        raise InputError("cli.nothing", where=where, found=text, example="4.2 L")
    return amount
