"""Invented documents for the tests of documents, and how their faults are read."""

from __future__ import annotations

from twomarks.errors import DocumentError, InputError
from twomarks.model.loading import load

BARE = """format = "twomarks/vehicle/1"
name = "Sedge"
kind = "car"
[engine]
fuel = "petrol"
"""

SEVEN_FAULTS = """format = "twomarks/vehicle/1"
name = "Sedge"
kind = "vann"
[engine]
fuel = "petrol"
keyless = "no"
[circuits.engine_oil]
capacity = "4.3 L"
refill_with_filtr = "4.3 L"
between_marks = { value = "1 qt", source = "told: a neighbour" }
settle = 8
[fastenings.plug]
kind = "sealing"
circuit = "engin_oil"
"""


def faults(text: str) -> tuple[InputError, ...]:
    """Return the faults of a text that must have some."""
    try:
        load(text, where="sedge.toml")
    except DocumentError as error:
        return error.faults
    raise AssertionError(text)


def only_fault(text: str) -> InputError:
    """Return the one fault of a text."""
    found = faults(text)
    assert [fault.key for fault in found] == [found[0].key]
    return found[0]


def vehicle(more: str) -> str:
    """Return a bare vehicle with `more` below it."""
    return f"{BARE}{more}\n"
