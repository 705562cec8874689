"""Who reads: language, market, and the unit they want for each kind of quantity."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from twomarks.errors import InputError
from twomarks.units import KINDS, MARKETS, UNITS

__all__ = ["CHOICES", "PRESETS", "Reader"]

_METRIC = {"distance": "km", "volume": "L", "torque": "N.m", "temperature": "C", "pressure": "bar", "economy": "L/100km", "length": "mm"}
PRESETS: dict[str, dict[str, str]] = {
    "metric": _METRIC,
    "au": {**_METRIC, "pressure": "kPa"},
    "uk": {**_METRIC, "distance": "mi", "pressure": "psi"},
    "us": {**_METRIC, "distance": "mi", "volume": "us qt", "torque": "lbf.ft", "temperature": "F", "pressure": "psi"},
}
CHOICES: dict[str, tuple[str, ...]] = {
    "distance": ("km", "mi"),
    "volume": ("L", "us qt", "imp qt"),
    "torque": ("N.m", "lbf.ft", "kgf.m"),
    "temperature": ("C", "F"),
    "pressure": ("bar", "kPa", "psi"),
    "length": ("mm", "in"),
}
"""The kinds a reader may choose a unit for, and the units offered."""


@dataclass(frozen=True, slots=True)
class Reader:
    """Language, market (for terms and for typed units), a unit per kind, time zone and currency of one person."""

    language: str = "en"
    market: str = "metric"
    units: Mapping[str, str] = field(default_factory=lambda: MappingProxyType(_METRIC))
    zone: str = "UTC"
    currency: str = "EUR"
    decimal: str | None = "."

    @classmethod
    def of(cls, market: str, *, units: Mapping[str, str] | None = None, zone: str = "UTC", currency: str = "EUR") -> Reader:
        """Return the reader of a preset ("uk", "us", "au", "metric"), with some units chosen differently."""
        if market not in MARKETS:
            raise InputError("reader.market", found=market, expected=MARKETS)
        chosen = dict(PRESETS[market])
        for kind, unit in (units or {}).items():
            if kind not in KINDS or unit not in UNITS or UNITS[unit].kind != kind:
                raise InputError("reader.unit", where=kind, found=unit, expected=CHOICES.get(kind, ()))
            chosen[kind] = unit
        return cls(market=market, units=MappingProxyType(chosen), zone=zone, currency=currency)

    def unit_for(self, unit: str) -> str:
        """Return the unit in which this reader wants a figure that is held in `unit`."""
        kind = UNITS[unit].kind
        if kind == "daily distance":
            return "mi/day" if self.units.get("distance") == "mi" else "km/day"
        return self.units.get(kind, unit)
