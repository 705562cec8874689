"""The job card: the one value behind the phone's card and the paper card, frozen when the workday starts."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import Literal

from twomarks.model.ledger import LATER
from twomarks.procedures.concerns import Concern
from twomarks.words import Figure, Message, Wording

__all__ = [
    "CardFinding",
    "CardFluid",
    "CardFollowUp",
    "CardPart",
    "CardPour",
    "CardStep",
    "CardTool",
    "CardWaste",
    "Caution",
    "Gate",
    "GateName",
    "JobCard",
    "Place",
    "PourRow",
    "Revision",
    "Signal",
    "Stub",
]

Signal = Literal["danger", "warning", "caution", "notice"]
Place = Literal["above", "under", "at wheel", "bench", "inside", ""]
GateName = Literal["before under", "before first undo", "before first pour", "before first start", "before first drive", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stub:
    """What stands on the stub of a step. `figure` None is an empty box to be filled in where it is seen.

    `label` says what it is ("torque", "first pour"), `fact` is the path of the fact in the vehicle sheet
    (``fastenings.engine_oil_drain.torque``) that a figure filled in here becomes.
    """

    label: Message
    figure: Figure | None = None
    fact: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution with its signal word, standing before the step's words."""

    signal: Signal
    words: Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFinding:
    """A finding of the rehearsal that stands at its step. `step` is the card-step's id, or "" for the whole card."""

    rule: str
    grade: Literal["harm", "damage", "omission", "advice"]
    basis: Literal["violated", "not shown", "default"]
    step: str
    expected: Message
    found: Message
    remedy: Message
    set_aside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardStep:
    """One step as it is worked.

    `action` is its main one, `moves` all of them in order. `id` is unique on the card, `step` is the permanent id in its
    procedure. `deliberate` steps are confirmed by a deliberate press: they tighten to a figure or a gate rests on them.
    `during` names the card-step of the wait in which this step is done; `after` is where one is when it is done: oil in
    the engine or not, what is open, what is only hand-tight, on what the vehicle stands. `concerns` is what its moves are
    on, by which the branches of when it goes wrong are found; empty on cards from before there were any.
    """

    id: str
    number: int
    procedure: str
    step: str
    action: str
    words: Wording
    moves: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    stubs: tuple[Stub, ...] = ()
    look: Wording | None = None
    accept: Wording | None = None
    reject: Wording | None = None
    condition: Wording | None = None
    place: Place = ""
    active_min: float = 0.0
    wait_min: float = 0.0
    hands_free: bool = False
    during: str = ""
    record: tuple[str, ...] = ()
    deliberate: bool = False
    findings: tuple[CardFinding, ...] = ()
    after: tuple[Message, ...] = ()
    concerns: tuple[Concern, ...] = field(default=(), metadata={LATER: True})


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """A place where the card stops: look-and-say questions before the card-step `before` ("" = after the last)."""

    id: str
    name: GateName
    before: str
    questions: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardTool:
    """A tool that the card needs: name, the figure it must reach (a torque) and what it is for."""

    key: str
    name: Wording
    figure: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPart:
    """A part that goes in: its slot in the sheet, its name, the part number (empty where none is known), how many."""

    slot: str
    name: Wording
    number: Figure | None = None
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFluid:
    """A fluid that goes in: the circuit, the product chosen (its name on the shelf) and the volume to have at hand."""

    circuit: str
    name: Wording
    product: str
    volume: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardWaste:
    """Waste that the job makes: its stream (engine oil, filter, rags) and, for fluids, how much."""

    stream: str
    name: Message
    volume: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PourRow:
    """A reading on the stick (0 lower mark, 1 upper mark) and what to add; a negative figure is to be taken out."""

    reading: float
    add: Figure
    note: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPour:
    """The pour plan as it stands on the card: pours in order, the span between the marks, the tables, the reasons.

    `before_start` is the table for a reading before the first start, the new filter still empty; it is empty where no such
    reading is needed. `rows` is the table for a reading after the first run and the wait.
    """

    circuit: str
    pours: tuple[Figure, ...]
    span: Figure | None
    rows: tuple[PourRow, ...]
    before_start: tuple[PourRow, ...] = ()
    reasons: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFollowUp:
    """A check that is asked for later, after a distance or a number of days, whichever comes first."""

    id: str
    words: Wording
    after_days: float | None = None
    after_km: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """Which text a card was bound from: the document's key or name and the SHA-256 of its text."""

    kind: Literal["vehicle", "procedure", "shelf"]
    key: str
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCard:
    """A workday laid out to be worked from.

    `hazards` are the cautions for the whole of it; `checked` is what a rehearsal looked at, `rests_on` the figures it
    assumed, `not_seen` what no model sees.
    """

    id: str
    title: str
    vehicle: str
    vehicle_kind: str
    day: dt.date
    steps: tuple[CardStep, ...]
    items: tuple[str, ...] = ()
    odometer: Figure | None = None
    gates: tuple[Gate, ...] = ()
    tools: tuple[CardTool, ...] = ()
    parts: tuple[CardPart, ...] = ()
    fluids: tuple[CardFluid, ...] = ()
    waste: tuple[CardWaste, ...] = ()
    pour: CardPour | None = None
    findings: tuple[CardFinding, ...] = ()
    follow_ups: tuple[CardFollowUp, ...] = ()
    active_min: float = 0.0
    elapsed_min: float = 0.0
    revisions: tuple[Revision, ...] = ()
    hazards: tuple[Caution, ...] = ()
    checked: tuple[Message, ...] = ()
    rests_on: tuple[Message, ...] = ()
    not_seen: tuple[Message, ...] = ()
    hang_tag: bool = False
    format: str = field(default="twomarks/card/1")
