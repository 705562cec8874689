"""An invented household for the tests of the pages: one car with a sheet, readings, a shelf, an entry and a started card."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from tests.sample_card import sample_card
from twomarks import units
from twomarks.keeping.scope import Scope
from twomarks.model.ledger import Entry, LevelCheck, Reading, StockMove, WasteMove
from twomarks.planning.card import Caution, JobCard
from twomarks.procedures.concerns import Concern
from twomarks.words import Wording, say

__all__ = ["TODAY", "TWO_MARKS", "Household", "founded", "furnished", "worked_card"]

TODAY = dt.date(2026, 11, 25)
TWO_MARKS = "Alder"
SHEET = """# An invented car.
format = "twomarks/vehicle/1"
id = "0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52"
name = "Alder"
kind = "car"
make = { value = "Invented", source = "memory" }

[engine]
fuel = "petrol"

[chassis]
parking_brake = "rear wheels"

[counters.odometer]
unit = "km"

[circuits.engine_oil]
name = "engine oil"
source = "handbook: owner's book, p. 214"
refill_with_filter = "4.3 L"
between_marks = { value = "1.1 L", source = "measured: A., 2026-03-02" }
level = "dipstick"
settle = { value = "8 min", source = "practice" }
holds = { value = "Quiet Brook 5W-30 ACEA C3", source = "label" }
[[circuits.engine_oil.accepts]]
grades = ["5W-30"]
categories = ["ACEA C3"]

[fastenings.engine_oil_drain]
name = "drain plug"
circuit = "engine_oil"
kind = "sealing"
drive = { value = "hex 17 mm", source = "told: another owner" }
torque = { value = "38 N·m", source = "handbook: owner's book, p. 216", confirmed = "A., 2026-03-02, book in hand" }
seal = "drain_washer"

[slots.drain_washer]
name = "drain washer"
kind = "seal"

[slots.oil_filter]
name = "oil filter"
kind = "spin-on"

[items.engine_oil_and_filter]
name = "engine oil and filter"
procedure = "engine-oil-spin-on"
every = { distance = "12000 km", time = "12 months" }
source = "handbook: service booklet, p. 9"

[items.brake_fluid]
name = "brake fluid"
every = { time = "24 months" }
source = "handbook: service booklet, p. 9"

[items.air_filter]
name = "air filter"
every = { distance = "30000 km" }
source = "handbook: service booklet, p. 9"
"""
SHELF = """# An invented shelf.
format = "twomarks/shelf/1"
id = "1d7c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a53"
name = "Shelf"

[oils.quiet_brook]
name = "Quiet Brook 5W-30"
label = { value = "5W-30, ACEA C3", source = "label" }

[parts.filter]
name = "Oil filter"
numbers = [{ value = "ZZ-1184", source = "supplier: invented" }]

[cans.old_oil]
name = "Old oil can"
holds = { value = "10 L", source = "stamped" }
stream = "engine oil"

[pans.black]
name = "Black pan"
holds = { value = "8 L", source = "stamped" }
"""


CONCERNS = {
    "drain": (Concern("drain", "engine", "engine"), Concern("drain", "drain", "engine")),
    "tighten": (Concern("tighten", "drain", "engine"),),
    "pour": (Concern("pour", "engine", "engine"),),
    "run_engine": (Concern("run_engine", "lamp"),),
}
"""What some steps of the card built by hand are on, so that they lead to what may go wrong at them."""


@dataclass(frozen=True, slots=True)
class Household:
    """Its scope, and the card that was started."""

    scope: Scope
    card: str


def founded() -> Scope:
    """Return a household in which nothing is kept yet."""
    from twomarks.keeping.services.households import found_household

    return found_household("Home", "A.")


def worked_card() -> JobCard:
    """Return the card built by hand, with its cautions and where one is after each step: on stands from the third on."""
    card = sample_card()
    stands = say("rehearsal.stands_stands"), say("rehearsal.stands_wheels")
    steps = tuple(
        replace(step, after=(say("rehearsal.oil_in"), stands[step.number < 3]), concerns=CONCERNS.get(step.action, ()))
        for step in card.steps
    )
    jack = Caution(signal="danger", words=Wording("A vehicle that slips off a jack kills."))
    return replace(card, steps=steps, hazards=(jack,), rests_on=(say("rehearsal.no_pan"),))


def furnished() -> Household:
    """Return a household with a car that has been driven, serviced and is being worked on."""
    from twomarks.keeping.services.documents import save_document
    from twomarks.keeping.services.entries import record_entry
    from twomarks.keeping.services.levels import record_level_check
    from twomarks.keeping.services.readings import record_readings
    from twomarks.keeping.services.shelf import record_stock_moves, record_waste_move
    from twomarks.keeping.services.workdays import start_workday

    scope = founded()
    save_document(scope, SHEET, where="alder.toml")
    save_document(scope, SHELF, where="shelf.toml")
    first = TODAY - dt.timedelta(days=700)
    walked = [Reading(day=first + dt.timedelta(days=14 * n), steps=units.steps(120_000 + 420.0 * n, kind="distance")) for n in range(49)]
    wrong = Reading(day=TODAY - dt.timedelta(days=20), steps=units.steps(1_400.0, kind="distance"), text="1400")
    record_readings(scope, TWO_MARKS, [*walked, wrong])
    done = TODAY - dt.timedelta(days=330)
    record_entry(
        scope,
        TWO_MARKS,
        Entry(
            day=done,
            vehicle=TWO_MARKS,
            items=("engine_oil_and_filter",),
            title="Oil and filter",
            odometer_steps=units.steps(131_200.0, kind="distance"),
            volume_in_ml=4100,
        ),
        force=True,
        today=TODAY,
    )
    record_stock_moves(scope, [StockMove(day=done, item="quiet_brook", amount=5000, unit="mL", why="bought")], today=TODAY)
    record_waste_move(scope, WasteMove(day=done, can="old_oil", amount_ml=4000, stream="engine oil"), today=TODAY)
    record_level_check(scope, TWO_MARKS, LevelCheck(day=TODAY - dt.timedelta(days=30), circuit="engine_oil", permille=700), today=TODAY)
    started = start_workday(scope, worked_card())
    return Household(scope, str(started.card))
