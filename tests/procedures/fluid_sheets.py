"""Three invented vehicles with gear units, cooling and brakes: a petrol car, a diesel van, an older 4x4."""

from __future__ import annotations

__all__ = ["ALL", "CAR", "OLD", "VAN"]

_UNITS = ("gearbox", "transfer_case", "rear_axle", "front_axle")


def _unit(name: str, refill: str, torque: str, extra: str = "") -> str:
    return f"""
[circuits.{name}]
source = "handbook: p. 30"
refill = "{refill}"
level = "overflow"
{extra}
[[circuits.{name}.accepts]]
grades = ["75W-90"]
categories = ["API GL-5"]
[fastenings.{name}_fill]
circuit = "{name}"
kind = "sealing"
drive = "hex socket 10 mm"
torque = "{torque}"
seal = "{name}_fill_ring"
[fastenings.{name}_drain]
circuit = "{name}"
kind = "sealing"
drive = "hex socket 10 mm"
torque = "{torque}"
seal = "{name}_drain_ring"
[slots.{name}_fill_ring]
numbers = ["R-{refill[0]}1"]
sizes = "18 x 24"
[slots.{name}_drain_ring]
numbers = ["R-{refill[0]}2"]
sizes = "18 x 24"
"""


def _wet(coolant: str, brake: str, bleed_tap: str = "") -> str:
    return f"""
[circuits.coolant]
source = "handbook: p. 33"
refill = "{coolant}"
mixture = "50 %"
[[circuits.coolant.accepts]]
approvals = ["EX 240-1"]
[circuits.brake]
source = "handbook: p. 35"
refill = "{brake}"
order = "rear right, rear left, front right, front left"
[[circuits.brake.accepts]]
categories = ["DOT 4"]
[fastenings.coolant_drain]
circuit = "coolant"
kind = "sealing"
drive = "spring clip"
[fastenings.brake_bleed]
circuit = "brake"
kind = "sealing"
drive = "hex 11 mm"
torque = "10 N·m"
{bleed_tap}
"""


_BLEED_TAP = """[fastenings.coolant_bleed]
circuit = "coolant"
kind = "sealing"
drive = "slot"
"""


def _vehicle(name: str, kind: str, engine: str, chassis: str) -> str:
    return f'# Invented.\nformat = "twomarks/vehicle/1"\nname = "{name}"\nkind = "{kind}"\n[engine]\n{engine}\n[chassis]\n{chassis}\n'


_AXLE_ITEM = """
[items.axle_in_front]
procedure = "axle-oil"
every = { time = "48 months" }
roles = { oil = "front_axle", fill_plug = "front_axle_fill", drain_plug = "front_axle_drain" }
"""

CAR = (
    _vehicle(
        "Larch", "car", 'fuel = "petrol"\nkeyless = false', 'parking_brake = "rear wheels"\nsuspension = "steel"\ntransfer_case = true'
    )
    + _unit("gearbox", "2.1 L", "27 N·m", 'below_hole = "5 mm"')
    + _unit("transfer_case", "0.8 L", "24 N·m")
    + _unit("rear_axle", "1.2 L", "49 N·m", 'limited_slip = "none"')
    + _wet("5.6 L", "0.9 L")
)

VAN = (
    _vehicle("Osier", "van", 'fuel = "diesel"\nafter_treatment = ["dpf"]\nturbo = true', 'parking_brake = "rear wheels"')
    + _unit("gearbox", "2.4 L", "35 N·m")
    + _unit("transfer_case", "1.1 L", "30 N·m")
    + _unit("rear_axle", "1.6 L", "55 N·m", 'limited_slip = "clutches: oil marked LS"')
    + _wet("9.5 L", "1.1 L", _BLEED_TAP)
)

OLD = (
    _vehicle("Medlar", "4x4", 'fuel = "diesel"', 'parking_brake = "transmission"\ntransfer_case = true\nsuspension = "steel"')
    + "".join(
        _unit(name, f"{number}.2 L", "50 N·m", 'limited_slip = "none"' if "axle" in name else "") for number, name in enumerate(_UNITS, 1)
    )
    + _wet("11 L", "0.7 L")
    + _AXLE_ITEM
)

ALL = (CAR, VAN, OLD)
