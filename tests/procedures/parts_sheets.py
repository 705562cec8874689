"""The three invented vehicles of the tests, with their wheels, brakes, battery, filters and belt."""

from __future__ import annotations

from tests.procedures import sheets

_PARTS = """
[fastenings.wheel_nuts]
kind = "clamping"
drive = "hex 19 mm"
torque = { value = "120 N·m", source = "handbook: p. 300" }
[fastenings.battery_clamp]
kind = "clamping"
torque = { value = "10 N·m", source = "handbook: p. 301" }
[fastenings.battery_negative]
kind = "clamping"
drive = "hex 10 mm"
torque = { value = "6 N·m", source = "handbook: p. 301" }
[fastenings.battery_positive]
kind = "clamping"
drive = "hex 10 mm"
torque = { value = "6 N·m", source = "handbook: p. 301" }
[fastenings.front_caliper_bolts]
kind = "clamping"
drive = "hex 13 mm"
torque = { value = "32 N·m", source = "handbook: p. 302" }
[fastenings.rear_caliper_bolts]
kind = "clamping"
drive = "hex 13 mm"
torque = { value = "30 N·m", source = "handbook: p. 302" }
[slots.battery]
kind = "battery"
numbers = ["B-60"]
sizes = "60 Ah, positive on the right"
[slots.air_filter]
kind = "element"
numbers = ["A-7"]
[slots.front_brake_pads]
numbers = ["P-1"]
[slots.rear_brake_pads]
numbers = ["P-2"]
[slots.aux_belt]
kind = "belt"
numbers = ["6-1200"]
"""
_DIESEL = """
[fastenings.fuel_filter]
kind = "sealing"
turn = { value = "0.75 turn", source = "stamped: on the filter" }
[fastenings.fuel_filter_drain]
kind = "sealing"
[slots.fuel_filter]
kind = "spin-on"
numbers = ["D-2"]
"""

_BLEED = """
[fastenings.fuel_bleed]
kind = "sealing"
"""

CAR = sheets.CAR + _PARTS
VAN = sheets.VAN.replace('"rear wheels"', '"electric"') + _PARTS + _DIESEL
OLD = sheets.OLD + _PARTS + _DIESEL + _BLEED
HYBRID = (
    CAR.replace('fuel = "petrol"', 'fuel = "hybrid"')
    .replace("keyless = false", "keyless = true")
    .replace('parking_brake = "rear wheels"', 'parking_brake = "front wheels"')
)
ESTATE = CAR.replace('fuel = "petrol"', 'fuel = "diesel"').replace("keyless = false", "keyless = true") + _DIESEL
VEHICLES = {"car": CAR, "van": VAN, "4x4": OLD, "hybrid": HYBRID, "diesel estate": ESTATE}
