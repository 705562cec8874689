"""Small documents, events and a card, all invented, for the tests of what is kept."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from uuid import UUID

from tests.sample_card import sample_card
from twomarks import units
from twomarks.model.ledger import (
    Answer,
    Entry,
    LevelCheck,
    Measurement,
    Quote,
    Reading,
    Snag,
    StockMove,
    Tick,
    TopUp,
    VehicleEvent,
    WasteMove,
)
from twomarks.planning.card import JobCard

__all__ = [
    "ALDER", "ALDER_ID", "CARD_ID", "CLIMATE", "SHELF", "TODAY",
    "answer", "card", "check", "entry", "event", "measurement", "move", "quote", "reading", "snag", "tick", "top_up", "waste",
]  # fmt: skip

TODAY = dt.date(2026, 11, 25)
ALDER_ID = UUID("0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52")
CARD_ID = UUID("5f0a3c1f-8e1d-4a52-8c6c-0b9e4a5e4c63")

ALDER = """# An invented car.
format = "twomarks/vehicle/1"
id = "0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52"
name = "Alder"
kind = "car"

[engine]
fuel = "petrol"

[counters.odometer]
unit = "km"

[circuits.engine_oil]
name = "engine oil"
source = "handbook: invented book, p. 214"
refill_with_filter = "4.3 L"
between_marks = "1.1 L"
level = "dipstick"

[items.engine_oil_and_filter]
name = "engine oil and filter"
procedure = "engine-oil-spin-on"
every = { distance = "12000 km", time = "12 months" }
source = "handbook: invented booklet, p. 9"

[items.brake_fluid]
name = "brake fluid"
every = { time = "24 months" }
source = "handbook: invented booklet, p. 9"

[items.front_pads]
name = "front brake pads"
event = "waded"
source = "handbook: invented booklet, p. 11"

[items.front_pads.measured]
what = "pad"
places = ["left", "right"]
least = "2 mm"
new = "11 mm"
"""

SHELF = """# An invented shelf.
format = "twomarks/shelf/1"
id = "1d7c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a53"
name = "Shelf"

[oils.quiet_brook]
name = "Quiet Brook 5W-30"
label = "SAE 5W-30, ACEA C3"
fluid = "engine oil"
source = "label: invented"
"""


def _days() -> str:
    first = dt.date(1990, 1, 1)
    rows = []
    for count in range(20 * 365):
        day = first + dt.timedelta(days=count)
        low = -14.0 + 12.0 * (1 - abs(day.month - 7) / 6) * 2 - (day.year * 7 + day.day) % 11
        rows.append(f"{day},{low:.1f},{low + 9:.1f}")
    return "\n".join(["date,tmin_c,tmax_c", *rows])


CLIMATE = f"""# An invented place.
format = "twomarks/climate/1"
id = "2d7c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a54"
name = "Invented place"
source = "told: made up for a test"
daily = '''
{_days()}
'''

[place]
latitude = 47.5
longitude = 19.0
zone = "Europe/Budapest"
"""


def reading(day: str, km: float, **more: object) -> Reading:
    return Reading(day=dt.date.fromisoformat(day), steps=units.steps(km, kind="distance"), text=f"{km:g} km", **more)  # type: ignore[arg-type]


def check(day: str = "2026-11-20", permille: int = 400, **more: object) -> LevelCheck:
    return LevelCheck(day=dt.date.fromisoformat(day), circuit="engine_oil", permille=permille, minutes_since_stop=10, **more)  # type: ignore[arg-type]


def top_up(day: str = "2026-11-20", volume_ml: int = 300) -> TopUp:
    return TopUp(day=dt.date.fromisoformat(day), circuit="engine_oil", volume_ml=volume_ml, product="Quiet Brook 5W-30")


def move(amount: int, item: str = "quiet_brook", unit: str = "mL", day: str = "2026-11-01") -> StockMove:
    return StockMove(day=dt.date.fromisoformat(day), item=item, amount=amount, unit=unit, why="bought" if amount > 0 else "used")  # type: ignore[arg-type]


def waste(amount_ml: int, day: str = "2026-11-20") -> WasteMove:
    return WasteMove(day=dt.date.fromisoformat(day), can="red_can", amount_ml=amount_ml, stream="engine oil")


def answer(word: str, question: str = "tool:socket-17", day: str = "2026-11-20") -> Answer:
    return Answer(day=dt.date.fromisoformat(day), question=question, word=word)


def entry(day: str = "2026-11-21", km: float | None = 120_000, **more: object) -> Entry:
    said = {"items": ("engine_oil_and_filter",), "title": "engine oil and filter", "vehicle": "Alder", **more}
    steps = None if km is None else units.steps(km, kind="distance")
    return Entry(day=dt.date.fromisoformat(day), odometer_steps=steps, **said)  # type: ignore[arg-type]


def measurement(day: str = "2026-11-20", mm: float = 6.0, place: str = "left", **more: object) -> Measurement:
    steps = units.steps(mm, kind="length")
    return Measurement(day=dt.date.fromisoformat(day), vehicle="Alder", item="front_pads", place=place, kind="length", steps=steps, **more)  # type: ignore[arg-type]


def event(word: str = "waded", day: str = "2026-11-20") -> VehicleEvent:
    return VehicleEvent(day=dt.date.fromisoformat(day), vehicle="Alder", event=word)


def snag(what: str = "knocks over bumps", how_bad: str = "next workday", day: str = "2026-11-20", **more: object) -> Snag:
    return Snag(day=dt.date.fromisoformat(day), vehicle="Alder", what=what, where="front left", how_bad=how_bad, **more)  # type: ignore[arg-type]


def quote(amount_minor: int = 18_900, item: str = "engine_oil_and_filter", day: str = "2026-11-20") -> Quote:
    return Quote(
        day=dt.date.fromisoformat(day), vehicle="Alder", item=item, amount_minor=amount_minor, currency="EUR", shop="the one in town"
    )


def card(card_id: UUID = CARD_ID) -> JobCard:
    return replace(sample_card(), id=str(card_id), vehicle="Alder")


def tick(sequence: int, target: str, what: str = "done", *, device: str = "phone", words: str = "", card: UUID = CARD_ID) -> Tick:
    return Tick(
        id=UUID(int=(sum(device.encode()) << 64) + sequence),
        card=card,
        target=target,
        what=what,  # type: ignore[arg-type]
        words=words,
        device=device,
        device_sequence=sequence,
        day=TODAY,
    )
