"""An invented household for the tests of the command line: a car, a bare van, a shelf, readings; no climate."""

from __future__ import annotations

import datetime as dt

__all__ = ["ALDER", "BARE", "SHELF", "TODAY", "build"]

TODAY = dt.date(2026, 11, 25)
ALDER = """# An invented car.
format = "twomarks/vehicle/1"
id = "0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52"
name = "Alder"
kind = "car"
[engine]
fuel = "petrol"
keyless = false
[chassis]
parking_brake = "rear wheels"
lifting_points = { value = "sills, behind the notches", source = "handbook: p. 180" }
[counters.odometer]
unit = "km"
[circuits.engine_oil]
source = "handbook: owner's book, p. 214"
refill_with_filter = "4.3 L"
between_marks = { value = "1.1 L", source = "measured: A., 2026-03-02" }
settle = { value = "8 min", source = "practice" }
holds = { value = "SAE 5W-30, ACEA C3", source = "label" }
[[circuits.engine_oil.accepts]]
grades = ["5W-30"]
categories = ["ACEA C3"]
approvals = []
[fastenings.engine_oil_drain]
circuit = "engine_oil"
kind = "sealing"
drive = { value = "hex socket 17 mm", source = "measured: A." }
torque = { value = "38 N·m", source = "handbook: owner's book, p. 216" }
seal = "drain_washer"
[fastenings.oil_filter]
circuit = "engine_oil"
kind = "sealing"
turn = { value = "0.75 turn", source = "stamped: on the filter" }
[slots.drain_washer]
kind = "seal"
numbers = [{ value = "W-1622", source = "supplier: counter" }]
sizes = { value = "16 x 22", source = "measured: A." }
[slots.oil_filter]
kind = "spin-on"
numbers = [{ value = "F-0401", source = "supplier: counter" }]
holds = { value = "0.3 L", source = "supplier: data sheet" }
[items.engine_oil_and_filter]
name = "engine oil and filter"
procedure = "engine-oil-spin-on"
every = { distance = "12000 km", time = "12 months" }
source = "handbook: service booklet, p. 9"
[items.brake_fluid]
name = "brake fluid"
every = { time = "24 months" }
source = "handbook: service booklet, p. 9"
[items.front_tyres]
name = "front tyres"
event = "stood"
[items.front_tyres.measured]
what = "tread"
places = ["left", "right"]
least = { value = "1.6 mm", source = "told: local rules, invented" }
"""
BARE = """# An invented van of which next to nothing is known.
format = "twomarks/vehicle/1"
id = "0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a99"
name = "Bare"
kind = "van"
[engine]
fuel = "diesel"
"""
SHELF = """# An invented shelf.
format = "twomarks/shelf/1"
id = "1d7c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a53"
name = "Shelf"
[oils.quiet_brook]
name = "Quiet Brook 5W-30"
label = { value = "SAE 5W-30, ACEA C3", source = "label" }
[parts.filter]
name = "Oil filter"
numbers = [{ value = "F-0401", source = "label" }]
[cans.old_oil]
name = "Old oil can"
holds = { value = "10 L", source = "stamped" }
stream = "engine oil"
[pans.black]
name = "Black pan"
holds = { value = "8 L", source = "stamped" }
[tools.torque_wrench]
name = "Torque wrench"
low = { value = "20 N·m", source = "stamped" }
high = { value = "110 N·m", source = "stamped" }
[shops.mill]
name = "Shop at the mill"
currency = "EUR"
[[shops.mill.prices]]
item = "quiet_brook"
size = { value = "5 L", source = "supplier" }
price = "41.90"
day = 2026-10-01
"""


def build() -> None:
    """Build the household in the home that is open."""
    from twomarks import units
    from twomarks.keeping.services.documents import save_document
    from twomarks.keeping.services.households import found_household
    from twomarks.keeping.services.readings import record_readings
    from twomarks.model.ledger import Reading

    scope = found_household("Home", "A.")
    for text, where in ((ALDER, "alder.toml"), (BARE, "bare.toml"), (SHELF, "shelf.toml")):
        save_document(scope, text, where=where)
    first = TODAY - dt.timedelta(days=709)
    walked = [
        Reading(day=first + dt.timedelta(days=14 * n), steps=units.steps(120_000 + 420.0 * n, kind="distance"), text=f"{120_000 + 420 * n}")
        for n in range(50)
    ]
    record_readings(scope, "Alder", walked)
