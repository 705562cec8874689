"""The tables of coolant, brake fluid, gear oil, battery and idling as typed rows, each with its source and how far it was seen."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from twomarks.reference.tables import Seen, rows

__all__ = [
    "BatteryRow",
    "BrakeFluidRow",
    "CrankingRow",
    "FreezingRow",
    "GearOilClassRow",
    "GlycolRow",
    "IdleRow",
    "battery_at_rest",
    "battery_cranking",
    "battery_freezing",
    "brake_fluids",
    "gear_oil_classes",
    "glycol",
    "idle_hours",
]


@dataclass(frozen=True, slots=True)
class GlycolRow:
    """Freezing point of a mixture of one glycol with water, by volume."""

    volume_percent: float
    freeze_c: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class BrakeFluidRow:
    """One class of brake fluid: its base, the least boiling point new and with 3.7 % water, and its viscosity limits."""

    name: str
    base: Literal["glycol", "silicone"]
    dry_min_c: float
    wet_min_c: float
    kv_minus40_max_mm2_s: float
    kv100_min_mm2_s: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class BatteryRow:
    """A flooded lead-acid battery of six cells at rest at 80 F."""

    charge_percent: float
    rest_voltage_v: float
    specific_gravity: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class FreezingRow:
    """Freezing point of battery acid as one source prints it."""

    specific_gravity: float
    freeze_c: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class CrankingRow:
    """What a battery gives and what an engine asks, each in % of that at 80 F."""

    temp_f: float
    power_percent: float
    needed_percent: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class IdleRow:
    """How many miles one idle hour counts for, as one source states it."""

    stated_by: str
    low_mi_per_idle_hour: float
    high_mi_per_idle_hour: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class GearOilClassRow:
    """One service designation of gear oils, whether it is in use, and what it is meant for."""

    name: str
    in_use: bool
    meant_for: str
    seen: Seen


def _seen(row: dict[str, str]) -> Seen:
    return Seen(row["source"], row["locator"], row["status"])


@cache
def glycol(kind: str) -> tuple[GlycolRow, ...]:
    """Return the freezing points of ``ethylene`` or ``propylene`` glycol, from water up; nothing for another kind."""
    return tuple(
        GlycolRow(float(row["volume_percent"]), float(row["freeze_c"]), _seen(row)) for row in rows("glycol") if row["glycol"] == kind
    )


@cache
def brake_fluids() -> dict[str, BrakeFluidRow]:
    """Return the classes of brake fluid by name, such as ``"DOT 4"``."""
    return {
        row["class"]: BrakeFluidRow(
            row["class"],
            cast("Literal['glycol', 'silicone']", row["base"]),
            float(row["dry_min_c"]),
            float(row["wet_min_c"]),
            float(row["kv_minus40_max_mm2_s"]),
            float(row["kv100_min_mm2_s"]),
            _seen(row),
        )
        for row in rows("brake_fluids")
    }


@cache
def battery_at_rest() -> tuple[BatteryRow, ...]:
    """Return charge, voltage and specific gravity, from flat to full."""
    return tuple(
        BatteryRow(float(row["charge_percent"]), float(row["rest_voltage_v"]), float(row["specific_gravity"]), _seen(row))
        for row in rows("battery")
    )


@cache
def battery_freezing() -> dict[str, tuple[FreezingRow, ...]]:
    """Return the freezing points of battery acid by source, each from the thinnest acid up; the sources disagree."""
    found: dict[str, list[FreezingRow]] = {}
    for row in rows("battery_freezing"):
        found.setdefault(row["source"], []).append(FreezingRow(float(row["specific_gravity"]), float(row["freeze_c"]), _seen(row)))
    return {source: tuple(sorted(points, key=lambda point: point.specific_gravity)) for source, points in found.items()}


@cache
def battery_cranking() -> tuple[CrankingRow, ...]:
    """Return power and need by temperature, coldest first."""
    return tuple(
        CrankingRow(float(row["temp_f"]), float(row["power_percent"]), float(row["needed_percent"]), _seen(row))
        for row in rows("battery_cranking")
    )


@cache
def idle_hours() -> tuple[IdleRow, ...]:
    """Return what fleets state for one idle hour."""
    return tuple(
        IdleRow(row["stated_by"], float(row["low_mi_per_h"]), float(row["high_mi_per_h"]), _seen(row)) for row in rows("idle_hours")
    )


@cache
def gear_oil_classes() -> dict[str, GearOilClassRow]:
    """Return the service designations of gear oils by name."""
    return {
        row["class"]: GearOilClassRow(row["class"], row["in_use"] == "yes", row["meant_for"], _seen(row))
        for row in rows("gear_oil_classes")
    }
