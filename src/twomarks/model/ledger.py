"""The plain values of the ledgers: what happened, on the owner's day, in whole steps of its kind."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import Literal, get_args
from uuid import UUID

from twomarks import units

__all__ = [
    "HOW_BAD",
    "LATER",
    "Answer",
    "AnswerWord",
    "Entry",
    "FilledFigure",
    "HowBad",
    "LevelCheck",
    "Measurement",
    "Quote",
    "Reading",
    "Snag",
    "StockMove",
    "Tick",
    "TickWhat",
    "TopUp",
    "VehicleEvent",
    "WasteMove",
]

AnswerWord = Literal["have", "have not", "do not know"]
HowBad = Literal["do not drive", "next workday", "watch"]
HOW_BAD: tuple[HowBad, ...] = get_args(HowBad)
LATER = "later"
"""Marks a field that came after rows were written: while it is empty, no text of a row names it."""
TickWhat = Literal["done", "undone", "left out", "answer", "figure", "differs", "set aside"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """What every row of a ledger has: the owner's day, the text as typed, its place in the household's order.

    `day` is the day that planning uses; with `day_from` and `day_to` the owner knew it only about, and `day` is the
    middle. `root` names the first row that this one corrects; `number` is the household's running number.
    """

    day: dt.date
    day_from: dt.date | None = None
    day_to: dt.date | None = None
    at: dt.datetime | None = None
    zone: str = ""
    text: str = ""
    note: str = ""
    root: UUID | None = None
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(Event):
    """A dated value of a counter (odometer, hours, fuel); `steps` in the ledger step of `kind` (metres, seconds, mL).

    `confirmed` is True when the owner has said that a flagged reading is right.
    """

    steps: int
    counter: str = "odometer"
    kind: str = "distance"
    confirmed: bool = False

    @property
    def value(self) -> float:
        """The reading in the core unit of its kind [km, min, L]."""
        return units.from_steps(self.steps, kind=self.kind)


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelCheck(Event):
    """A dipstick reading: `permille` is 0 at the lower mark and 1000 at the upper, outside that beyond the marks."""

    circuit: str
    permille: int
    minutes_since_stop: int | None = None
    odometer_steps: int | None = None
    conditions: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TopUp(Event):
    """Fluid added between services."""

    circuit: str
    volume_ml: int
    product: str = ""
    odometer_steps: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement(Event):
    """What was measured of a service item (tread, pad, water in the fluid) at one place, in ledger steps of `kind`."""

    vehicle: str
    item: str
    place: str = ""
    kind: str
    steps: int
    odometer_steps: int | None = None

    @property
    def value(self) -> float:
        """The measured value in the core unit of its kind [mm, %, V, C, bar]."""
        return units.from_steps(self.steps, kind=self.kind)


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleEvent(Event):
    """Something that calls for work out of turn: waded, overheated, dust, towed far, stood for months."""

    vehicle: str
    event: str
    odometer_steps: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Snag(Event):
    """Something noticed: what, where on the vehicle, how bad. It is closed by the entry that names its root."""

    vehicle: str
    what: str
    where: str = ""
    how_bad: HowBad = "next workday"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote(Event):
    """What a workshop asks for an item, in whole minor units of `currency`, as the owner entered it."""

    vehicle: str
    item: str
    amount_minor: int
    currency: str
    shop: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockMove(Event):
    """Stock in (positive) or out (negative): mL of a fluid or pieces of a part, under its key in the shelf list."""

    item: str
    amount: int
    unit: Literal["mL", "piece"]
    why: Literal["bought", "used", "counted", "thrown away", "given away"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WasteMove(Event):
    """Waste into a can (positive) or handed in (negative) [mL], by the can's key in the shelf list."""

    can: str
    amount_ml: int
    stream: str
    where_to: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer(Event):
    """A one-question answer: `question` is a stable key such as ``tool:socket-17``; `word` or free `text`."""

    question: str
    word: AnswerWord | str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick(Event):
    """What was marked on a card: `target` is the card-step's or the gate's id.

    `device` and `device_sequence` order the ticks of one device; `words` are needed when something is left out or
    set aside.
    """

    id: UUID
    card: UUID
    target: str
    what: TickWhat
    words: str = ""
    person: str = ""
    device: str = ""
    device_sequence: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledFigure:
    """A figure that was taken down during the work: the path of the fact, or a name, and the text as typed."""

    what: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry(Event):
    """What was done: items closed, counter, what went in and came out, findings, follow-ups.

    `cost_minor` is what the materials that were used cost, as the owner reckons it, in whole minor units of `currency`;
    `minutes` the owner's own time. `snags` are the roots of those that it closes.
    """

    vehicle: str
    items: tuple[str, ...]
    title: str = ""
    odometer_steps: int | None = None
    product: str = ""
    volume_in_ml: int | None = None
    volume_out_ml: int | None = None
    level_permille: int | None = None
    parts: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    figures: tuple[FilledFigure, ...] = field(default=())
    follow_ups: tuple[str, ...] = ()
    cost_minor: int | None = None
    currency: str = ""
    card: UUID | None = None
    minutes: int | None = field(default=None, metadata={LATER: True})
    snags: tuple[UUID, ...] = field(default=(), metadata={LATER: True})
