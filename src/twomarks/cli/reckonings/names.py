"""Which calculations there are: name -> the module of this package that holds it, in the order of the overview."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

from twomarks.cli.chosen import nearest
from twomarks.errors import InputError

if TYPE_CHECKING:
    from twomarks.cli.reckonings.calculation import Calculation

__all__ = ["NAMES", "asks_key", "calculation", "line_key"]

NAMES: dict[str, str] = {
    "convert": "conversion",
    "climate": "climate",
    "volume-at": "volume",
    "pan-volume": "volume",
    "drain": "volume",
    "first-pour": "level",
    "add-table": "level",
    "level": "level",
    "oil-use": "level",
    "span": "calibration",
    "run-down": "calibration",
    "viscosity-index": "viscosity",
    "viscosity-from-index": "viscosity",
    "viscosity-at": "viscosity",
    "temperature-at": "viscosity",
    "density-at": "viscosity",
    "blend": "blending",
    "blend-share": "blending",
    "fuel-dilution": "blending",
    "grade": "grades",
    "grade-limits": "grades",
    "category": "categories",
    "clutch-class": "categories",
    "label": "categories",
    "oil": "oil",
    "torque": "torque",
    "wrench": "torque",
    "adapter": "torque",
    "thread": "torque",
    "coolant": "circuits",
    "coolant-refill": "circuits",
    "coolant-after": "circuits",
    "brake-fluid": "circuits",
    "gear-oil": "circuits",
    "tyre": "circuits",
    "battery": "circuits",
    "idle-hours": "counters",
    "hours": "counters",
    "fuel": "counters",
    "fuel-use": "counters",
}


def line_key(name: str) -> str:
    """Return the key of the one line that says what a calculation answers."""
    return f"{_prefix(name)}.line_{_key(name)}"


def asks_key(name: str, key: str) -> str:
    """Return the key of the words that say what `key` of a calculation means."""
    return f"{_prefix(name)}.asks_{_key(name)}_{_key(key)}"


def _prefix(name: str) -> str:
    return f"reckon_{NAMES[name]}"


def _key(name: str) -> str:
    return name.replace("-", "_")


def calculation(name: str) -> Calculation:
    """Return the calculation `name`, loading its module now.

    Raises
    ------
    InputError
        Where there is none of that name, with the nearest that there is.
    """
    if name not in NAMES:
        raise InputError("reckon.unknown", where="reckon", found=name, nearest=nearest(name, NAMES) or None)
    module = importlib.import_module(f"twomarks.cli.reckonings.{NAMES[name]}")
    found: Calculation = next(one for one in module.CALCULATIONS if one.name == name)
    return found
