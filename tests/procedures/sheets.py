"""Three invented vehicles for the tests of procedures: a petrol car, a diesel van, an older 4x4."""

from __future__ import annotations

from functools import cache

from twomarks.model.loading import load_as
from twomarks.model.vehicle import VehicleSheet

CAR = """
# Invented.
format = "twomarks/vehicle/1"
name = "Birch"
kind = "car"
[engine]
fuel = "petrol"
keyless = false
[chassis]
parking_brake = "rear wheels"
lifting_points = { value = "sills, behind the notches", source = "handbook: p. 180" }
[circuits.engine_oil]
source = "handbook: owner's book, p. 214"
refill_with_filter = "4.3 L"
between_marks = { value = "1.1 L", source = "measured: A., 2026-03-02" }
settle = { value = "8 min", source = "practice" }
holds = "SAE 5W-30, ACEA C3"
[[circuits.engine_oil.accepts]]
grades = ["0W-30", "5W-30"]
categories = ["ACEA C3"]
approvals = ["EX 229-5"]
coldest = "-30 C"
[fastenings.engine_oil_drain]
circuit = "engine_oil"
kind = "sealing"
drive = "hex socket 17 mm"
torque = { value = "38 N·m", source = "handbook: owner's book, p. 216", confirmed = "A., 2026-03-02, book in hand" }
seal = "drain_washer"
[fastenings.oil_filter]
circuit = "engine_oil"
kind = "sealing"
turn = { value = "0.75 turn", source = "stamped: on the filter" }
[slots.drain_washer]
numbers = ["W-1622"]
sizes = "16 x 22"
[slots.oil_filter]
kind = "spin-on"
numbers = ["F-0401"]
holds = { value = "0.3 L", source = "supplier: data sheet" }
[items.engine_oil_and_filter]
procedure = "engine-oil-spin-on"
every = { distance = "12000 km", time = "12 months" }
"""

VAN = """
# Invented.
format = "twomarks/vehicle/1"
name = "Sorrel"
kind = "van"
[engine]
fuel = "diesel"
after_treatment = ["dpf"]
turbo = true
[chassis]
parking_brake = "rear wheels"
[circuits.engine_oil]
source = "handbook: owner's book, p. 301"
refill_with_filter = "6.4 L"
between_marks = "1.6 L"
[[circuits.engine_oil.accepts]]
grades = ["5W-30"]
categories = ["ACEA C2"]
[fastenings.sump_bolt]
circuit = "engine_oil"
kind = "sealing"
drive = "hex 13 mm"
seal = "plug_ring"
[fastenings.filter_cap]
circuit = "engine_oil"
kind = "sealing"
drive = "hex 32 mm"
torque = { value = "25 N·m", source = "stamped: on the cap" }
seal = "filter_o_rings"
[slots.plug_ring]
numbers = ["R-11"]
[slots.oil_filter]
kind = "cartridge"
numbers = ["E-77"]
[slots.filter_o_rings]
numbers = ["O-3"]
count = "3"
[items.engine_oil_and_filter]
procedure = "engine-oil-cartridge"
roles = { drain_plug = "sump_bolt" }
"""

OLD = """
# Invented.
format = "twomarks/vehicle/1"
name = "Juniper"
kind = "4x4"
[engine]
fuel = "diesel"
[chassis]
parking_brake = "transmission"
transfer_case = true
[circuits.engine_oil]
refill_with_filter = "7 L"
between_marks = "1.2 L"
[fastenings.engine_oil_drain]
circuit = "engine_oil"
kind = "sealing"
torque = { value = "30 lbf ft", source = "told: another owner" }
[fastenings.oil_filter]
circuit = "engine_oil"
kind = "sealing"
turn = "0.75 turn"
[slots.drain_washer]
kind = "seal"
[slots.oil_filter]
kind = "spin-on"
numbers = ["F-9"]
"""

BARE = """
format = "twomarks/vehicle/1"
name = "Bare"
kind = "car"
[engine]
fuel = "petrol"
"""


@cache
def sheet(text: str) -> VehicleSheet:
    """Return the sheet that `text` holds."""
    return load_as(VehicleSheet, text, where="sheet.toml")
