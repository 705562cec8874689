"""Several things that are entered at once: all of them are kept, or none is."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from twomarks.keeping.scope import Scope
from twomarks.keeping.services.answers import record_answers
from twomarks.keeping.services.noticed import record_event, record_measurement, record_quote, record_snag
from twomarks.keeping.services.readings import record_reading
from twomarks.keeping.services.worked import Worked, record_work
from twomarks.keeping.storing import service
from twomarks.keeping.values import Kept
from twomarks.model.ledger import Answer, Measurement, Quote, Reading, Snag, VehicleEvent

__all__ = ["Entered", "EnteredKept", "record_entered"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """What is entered at once, in the order in which it is kept: what happened, the work, then what was measured after it."""

    events: tuple[VehicleEvent, ...] = ()
    reading: Reading | None = None
    work: Worked | None = None
    measurements: tuple[Measurement, ...] = ()
    snags: tuple[Snag, ...] = ()
    quotes: tuple[Quote, ...] = ()
    answers: tuple[Answer, ...] = ()


@dataclass(frozen=True, slots=True)
class EnteredKept:
    """What was kept: the entry of work where there was one, and the rows beside it in their order."""

    work: Kept | None
    rows: tuple[Kept, ...]


@service
def record_entered(scope: Scope, vehicle: str, entered: Entered, *, force: bool = False, today: dt.date | None = None) -> EnteredKept:
    """Keep all that was entered, or nothing.

    An event is kept before the work, so that the work answers it; a measured value after it, so that it is one of the
    renewed part.
    """
    rows = [record_event(scope, vehicle, event, today=today) for event in entered.events]
    if entered.reading is not None:
        rows.append(record_reading(scope, vehicle, entered.reading, force=force, today=today))
    work = None if entered.work is None else record_work(scope, vehicle, entered.work, force=force, today=today)
    rows += [record_measurement(scope, vehicle, one, today=today) for one in entered.measurements]
    rows += [record_snag(scope, vehicle, snag, today=today) for snag in entered.snags]
    rows += [record_quote(scope, vehicle, quote, today=today) for quote in entered.quotes]
    if entered.answers:
        record_answers(scope, entered.answers, today=today)
    return EnteredKept(work, tuple(rows))
