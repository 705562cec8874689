"""What is known of the conditions that steps rest on: it holds, it does not, or nobody has said."""

from __future__ import annotations

from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import Choices

__all__ = ["condition_values"]


def condition_values(sheet: VehicleSheet, choices: Choices) -> dict[str, bool | None]:
    """Return for each condition whether it holds for this vehicle and these choices, None where it is not known."""
    plan = choices.pour
    return {
        "raised": _raised(sheet) if choices.raised is None else choices.raised,
        "undertray": _undertray(sheet) if choices.undertray is None else choices.undertray,
        "keyless": getattr(sheet.engine, "keyless", None),
        "transfer_case": _transfer_case(sheet),
        "transmission_brake": _brake_is(sheet, "transmission"),
        "air_suspension": _air_suspension(sheet),
        "two_pours": None if plan is None else len(plan.pours) > 1,
        "top_up": None,
        "electric_brake": _brake_is(sheet, "electric"),
        "front_brake": _brake_is(sheet, "front wheels"),
        "rear_brake": _brake_is(sheet, "rear wheels"),
        "hybrid": _hybrid(sheet),
    }


def _raised(sheet: VehicleSheet) -> bool | None:
    """Return whether it is raised; on air springs it is where nobody has said, since they do not hold it over anybody."""
    said = sheet.chassis.raised_to_drain
    return said if said is not None else _air_suspension(sheet) or None


def _undertray(sheet: VehicleSheet) -> bool | None:
    said = sheet.chassis.undertray
    return said if said is not None else ("undertray" in sheet.fastenings) or None


def _transfer_case(sheet: VehicleSheet) -> bool | None:
    if "transfer_case" in sheet.circuits or getattr(sheet.chassis, "transfer_case", None):
        return True
    return None if sheet.kind == "4x4" else False


def _brake_is(sheet: VehicleSheet, acts_on: str) -> bool | None:
    brake = getattr(sheet.chassis, "parking_brake", None)
    return None if brake is None else getattr(brake, "text", brake) == acts_on


def _hybrid(sheet: VehicleSheet) -> bool | None:
    fuel = str(getattr(sheet.engine.fuel, "text", sheet.engine.fuel) or "")
    return fuel in ("hybrid", "electric") if fuel else None


def _air_suspension(sheet: VehicleSheet) -> bool | None:
    said = sheet.chassis.suspension
    if said is None:
        return False if sheet.kind == "motorcycle" else None
    return said.text == "air"
