"""Counter readings, judged, and what they say about the days to come."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import TYPE_CHECKING

from twomarks.keeping.questions.values import current
from twomarks.keeping.questions.vehicles import sheet, vehicle_row
from twomarks.keeping.records.readings import ConfirmationRow, ReadingRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.model.ledger import Reading

if TYPE_CHECKING:
    from twomarks.planning.usage import History, UsageForecast

__all__ = ["history", "readings", "usage"]

_COLUMNS = ("day", "day_from", "day_to", "at", "zone", "text", "note", "root", "number", "steps", "counter", "kind")


@question
def readings(scope: Scope, vehicle: str, counter: str | None = None) -> tuple[Reading, ...]:
    """Return the readings of a vehicle, of one counter or of all, by day; those the owner confirmed say so."""
    row = vehicle_row(scope, vehicle)
    confirmed = set(current(scope, ConfirmationRow, vehicle=row).values_list("reading", flat=True))
    narrowed = {"vehicle": row} if counter is None else {"vehicle": row, "counter": counter}
    found = (Reading(**dict(zip(_COLUMNS, said, strict=True))) for said in current(scope, ReadingRow, **narrowed).values_list(*_COLUMNS))
    return tuple(sorted((_confirmed(reading, confirmed) for reading in found), key=lambda reading: (reading.day, reading.number)))


@question
def history(scope: Scope, vehicle: str, today: dt.date, counter: str = "odometer") -> History:
    """Return the readings of one counter, judged: which to trust, which are doubtful and why."""
    from twomarks.planning.usage import judge

    return judge(readings(scope, vehicle, counter), today=today)


@question
def usage(scope: Scope, vehicle: str, today: dt.date, counter: str = "odometer") -> UsageForecast:
    """Return where a counter will probably stand in the days to come."""
    from twomarks.planning.usage import forecast, prior_of

    document = sheet(scope, vehicle)
    prior = prior_of(kind=document.kind, fuel=document.engine.fuel) if counter == "odometer" else None
    return forecast(history(scope, vehicle, today, counter), today=today, prior=prior)


def _confirmed(reading: Reading, roots: set[object]) -> Reading:
    if reading.root not in roots:
        return reading
    return dataclasses.replace(reading, confirmed=True)
