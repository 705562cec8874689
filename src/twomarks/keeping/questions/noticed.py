"""What was measured, what happened, what was noticed and is still open, what workshops ask, and how a vehicle is driven."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.keeping.questions.shelf import answers
from twomarks.keeping.questions.values import current, events
from twomarks.keeping.questions.vehicles import vehicle, vehicle_row
from twomarks.keeping.records.entries import EntryRow
from twomarks.keeping.records.noticed import MeasurementRow, QuoteRow, SnagRow, VehicleEventRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.model.ledger import Entry, Measurement, Quote, Snag, VehicleEvent

__all__ = ["measurements", "quotes", "snags", "stated_use", "use_question", "vehicle_events"]


@question
def measurements(scope: Scope, vehicle: str) -> tuple[Measurement, ...]:
    """Return what was measured on a vehicle, oldest first."""
    return events(Measurement, current(scope, MeasurementRow, vehicle=vehicle_row(scope, vehicle)))


@question
def vehicle_events(scope: Scope, vehicle: str) -> tuple[VehicleEvent, ...]:
    """Return what happened to a vehicle that calls for work, oldest first."""
    return events(VehicleEvent, current(scope, VehicleEventRow, vehicle=vehicle_row(scope, vehicle)))


@question
def snags(scope: Scope, vehicle: str | None = None, *, still_open: bool = True) -> tuple[Snag, ...]:
    """Return what was noticed and no entry has closed, the worst first; with `still_open` False also what was closed."""
    narrowed = {} if vehicle is None else {"vehicle": vehicle_row(scope, vehicle)}
    found = events(Snag, current(scope, SnagRow, **narrowed))
    if found and still_open:
        closed = {root for entry in events(Entry, current(scope, EntryRow, **narrowed)) for root in entry.snags}
        found = tuple(snag for snag in found if snag.root not in closed)
    worst = ("do not drive", "next workday", "watch")
    return tuple(sorted(found, key=lambda snag: (worst.index(snag.how_bad), snag.day, snag.number)))


@question
def quotes(scope: Scope, vehicle: str) -> Mapping[str, Quote]:
    """Return the latest quote for each item of a vehicle."""
    return {quote.item: quote for quote in events(Quote, current(scope, QuoteRow, vehicle=vehicle_row(scope, vehicle)))}


def use_question(vehicle_id: str, condition: str) -> str:
    """Return the key under which the answer about one condition of a vehicle's use is kept."""
    return f"use:{vehicle_id}:{condition}"


@question
def stated_use(scope: Scope, name: str) -> Mapping[str, str]:
    """Return how the owner answered that a vehicle is driven: how often each thing that is hard use."""
    start = use_question(str(vehicle(scope, name).id), "")
    return {asked.removeprefix(start): word for asked, word in answers(scope).items() if asked.startswith(start)}
