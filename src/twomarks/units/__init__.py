"""Text to numbers with units and back; the only room that knows spellings, markets and ledger steps."""

from twomarks.units.money import amount_of, digits_of, minor_of
from twomarks.units.number import number, split_number
from twomarks.units.quantity import Quantity, from_steps, in_unit, quantity, steps, unit_of, written
from twomarks.units.table import KINDS, MARKETS, UNITS, Kind, Unit

__all__ = [
    "KINDS",
    "MARKETS",
    "UNITS",
    "Kind",
    "Quantity",
    "Unit",
    "amount_of",
    "digits_of",
    "from_steps",
    "in_unit",
    "minor_of",
    "number",
    "quantity",
    "split_number",
    "steps",
    "unit_of",
    "written",
]
