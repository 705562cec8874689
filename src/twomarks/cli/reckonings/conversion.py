"""A quantity in every unit of its kind."""

from __future__ import annotations

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import InputError
from twomarks.words import Message, say

__all__ = ["CALCULATIONS"]

PLACES = 6


def _convert(given: Given) -> Reckoned:
    """Answer with the quantity in the unit asked for, or in all of its kind."""
    read = given.quantity("value")
    core = units.KINDS[read.kind].core
    wanted = given.text("to")
    into = [units.unit_of(wanted, kind=read.kind, market=given.market, where="to")] if wanted else _others(read)
    if not into:
        raise InputError("reckon_conversion.only_unit", where="value", found=units.UNITS[read.unit].shown)
    values = {unit.code: units.in_unit(read.core, unit=core, to=unit.code) for unit in into}
    typed = units.written(units.in_unit(read.core, unit=core, to=read.unit), unit=read.unit, decimals=PLACES)
    lines: list[Message] = [
        say("reckon_conversion.is", typed=_short(typed), value=units.written(value, unit=code, decimals=_places(value)))
        for code, value in values.items()
    ]
    rows = [{"unit": units.UNITS[code].shown, "value": value} for code, value in values.items()]
    return Reckoned(tuple(lines), {"kind": read.kind, "in_units": rows}, ("exact_units",))


def _others(read: units.Quantity) -> list[units.Unit]:
    return [unit for unit in units.UNITS.values() if unit.kind == read.kind and unit.code != read.unit]


def _short(text: str) -> str:
    number, space, unit = text.partition("\u00a0")
    return (number.rstrip("0").rstrip(".") if "." in number else number) + space + unit


def _places(value: float) -> int:
    """Return how many decimals show five figures of `value`."""
    magnitude = len(str(int(abs(value)))) if abs(value) >= 1 else 0
    return max(0, min(PLACES, 5 - magnitude))


CALCULATIONS = (Calculation("convert", _convert, (Asked("value", "quantity", "18 lbf ft"), Asked("to", "text", "N m", needed=False))),)
