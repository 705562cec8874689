"""What was done and seen, and what is still to be looked at."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

from twomarks import units
from twomarks.keeping.questions.values import current, events
from twomarks.keeping.questions.vehicles import vehicle_row
from twomarks.keeping.records.entries import EntryRow, FollowUpRow
from twomarks.keeping.records.levels import LevelCheckRow, TopUpRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.keeping.values import Daybook, FollowUp
from twomarks.model.ledger import Entry, LevelCheck, TopUp

if TYPE_CHECKING:
    from twomarks.planning.due import Done

__all__ = ["daybook", "done", "follow_ups"]


@question
def daybook(scope: Scope, vehicle: str) -> Daybook:
    """Return entries, level checks, top-ups and follow-ups of a vehicle, newest first."""
    row = vehicle_row(scope, vehicle)
    return Daybook(
        entries=events(Entry, current(scope, EntryRow, vehicle=row))[::-1],
        level_checks=events(LevelCheck, current(scope, LevelCheckRow, vehicle=row))[::-1],
        top_ups=events(TopUp, current(scope, TopUpRow, vehicle=row))[::-1],
        follow_ups=events(FollowUp, current(scope, FollowUpRow, vehicle=row))[::-1],
    )


@question
def follow_ups(scope: Scope, vehicle: str | None = None, *, still_open: bool | None = None) -> tuple[FollowUp, ...]:
    """Return the checks that entries asked for, soonest first: all, or those still open (True) or done (False)."""
    narrowed = {} if vehicle is None else {"vehicle": vehicle_row(scope, vehicle)}
    found = events(FollowUp, current(scope, FollowUpRow, **narrowed))
    chosen = [check for check in found if still_open is None or (check.done_on is None) == still_open]
    return tuple(sorted(chosen, key=lambda check: (check.due_day is None, check.due_day or check.day, check.number)))


@question
def filled_with(scope: Scope, vehicle: str, items: Collection[str]) -> str:
    """Return the label of the fluid that the last entry of one of these items says was filled, "" where there is none."""
    entries = events(Entry, current(scope, EntryRow, vehicle=vehicle_row(scope, vehicle)))
    of_these = [entry for entry in entries if entry.volume_in_ml and set(entry.items) & set(items)]
    product = next((entry.product for entry in reversed(of_these) if entry.product), "")
    name, bracket, label = product.partition(" (")
    return label.removesuffix(")") if bracket else name


@question
def done(scope: Scope, vehicle: str) -> Mapping[str, Done]:
    """Return when each service item was last done, by its key."""
    from twomarks.planning.due import Done

    last: dict[str, Done] = {}
    for entry in events(Entry, current(scope, EntryRow, vehicle=vehicle_row(scope, vehicle))):
        about = (entry.day_from, entry.day_to) if entry.day_from is not None and entry.day_to is not None else None
        odometer = None if entry.odometer_steps is None else units.from_steps(entry.odometer_steps, kind="distance")
        for item in entry.items:
            last[item] = Done(day=entry.day, odometer_km=odometer, about=about, number=entry.number)
    return last
