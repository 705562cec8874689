"""The plain values that keeping hands out, apart from those of the ledgers and documents themselves."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal
from uuid import UUID

from twomarks.model.ledger import Entry, Event, LevelCheck, TopUp
from twomarks.words import Message, Wording

__all__ = [
    "Confirmation",
    "Daybook",
    "FollowUp",
    "HomePlace",
    "Kept",
    "Recorded",
    "Revision",
    "TicksKept",
    "Vehicle",
    "Verified",
    "Workday",
    "WorkdayState",
]

WorkdayState = Literal["started", "closed up", "entered"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirmation(Event):
    """The owner's word that the reading with this root is right."""

    reading: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowUp(Event):
    """A check asked for by an entry: due on a day, at an odometer figure [m], or whichever comes first.

    `words` is the check as the card worded it; `done_on` is empty while it is open, and `result` is what was found.
    """

    vehicle: str
    words: Wording
    due_day: dt.date | None = None
    due_odometer_steps: int | None = None
    done_on: dt.date | None = None
    result: str = ""


@dataclass(frozen=True, slots=True)
class Revision:
    """A document's text as it was saved: its id, kind, key and name, the revision's number and SHA-256."""

    document: UUID
    kind: str
    key: str
    name: str
    number: int
    sha256: str
    text: str


@dataclass(frozen=True, slots=True)
class Vehicle:
    """A vehicle of the household; `id` is the id in its sheet."""

    id: UUID
    name: str
    kind: str
    sha256: str = ""


@dataclass(frozen=True, slots=True)
class Recorded:
    """How many rows were written, and how many were there already."""

    count: int
    skipped: int = 0


@dataclass(frozen=True, slots=True)
class Kept:
    """A row that was written: the root by which it is corrected, its number, and the chain's head after it."""

    root: UUID
    number: int
    chain: str = ""


@dataclass(frozen=True, slots=True)
class TicksKept:
    """What became of a device's ticks.

    `waiting` names, for each device whose ticks came with a gap, the sequence number that is missing: ticks from
    there on were not taken, and the device sends them again together with the missing one.
    """

    kept: int
    known: int
    waiting: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Workday:
    """A workday that was started: its day, its card, and how far it has come; `set_aside` is why it ended unfinished."""

    id: UUID
    day: dt.date
    card: UUID
    vehicle: str
    title: str
    state: WorkdayState
    set_aside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HomePlace:
    """Where the household's vehicles stand, and the record of its climate where there is one."""

    name: str
    latitude: float
    longitude: float
    zone: str
    climate: UUID | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Daybook:
    """What was done to a vehicle and what was seen, newest first."""

    entries: tuple[Entry, ...]
    level_checks: tuple[LevelCheck, ...]
    top_ups: tuple[TopUp, ...]
    follow_ups: tuple[FollowUp, ...]


@dataclass(frozen=True, slots=True)
class Verified:
    """Whether the household's ledgers are whole: rows looked at, the chain's head, and what does not fit."""

    whole: bool
    rows: int
    head: str
    faults: tuple[Message, ...]
    says_nothing_of: tuple[Message, ...]
