"""Counter readings: a typed one is refused when it cannot be right, a file of them is kept whole and judged later."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Sequence
from uuid import UUID

from twomarks import units
from twomarks.errors import InputError
from twomarks.keeping import clock
from twomarks.keeping.questions.values import written
from twomarks.keeping.questions.vehicles import vehicle_row
from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.readings import ConfirmationRow, ReadingRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, latest, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import Confirmation, Kept, Recorded
from twomarks.model.ledger import Reading
from twomarks.words import Figure

__all__ = ["confirm_reading", "record_reading", "record_readings"]


@service
def record_readings(scope: Scope, vehicle: str, readings: Sequence[Reading]) -> Recorded:
    """Keep the readings of a file, faults and all; those that are there already are skipped.

    Doubtful readings are flagged when they are asked for, never refused here: a file is history, and says what it says.
    """
    row = vehicle_row(scope, vehicle)
    known = {
        (day, at, counter, steps)
        for day, at, counter, steps in written(scope, ReadingRow, vehicle=row).values_list("day", "at", "counter", "steps")
    }
    fresh = []
    for reading in readings:
        said = (reading.day, reading.at, reading.counter, reading.steps)
        if reading.root is None and said in known:
            continue
        known.add(said)
        fresh.append(_new(row, reading))
    append(scope, fresh)
    return Recorded(len(fresh), len(readings) - len(fresh))


@service
def record_reading(scope: Scope, vehicle: str, reading: Reading, *, force: bool = False, today: dt.date | None = None) -> Kept:
    """Keep one typed reading.

    Raises
    ------
    InputError
        Where its day has not come yet, or it lies below the last good reading or above the next one and `force` was
        not given.
    """
    row = vehicle_row(scope, vehicle)
    not_in_the_future([reading], today)
    if not force:
        refuse_out_of_order(scope, vehicle, reading, today=today)
    (kept,) = append(scope, [_new(row, reading)])
    return Kept(kept.root, kept.number)


@service
def confirm_reading(scope: Scope, vehicle: str, root: UUID, *, day: dt.date | None = None, note: str = "") -> Kept:
    """Keep the owner's word that a flagged reading is right."""
    row = vehicle_row(scope, vehicle)
    doubted = latest(scope, ReadingRow, root)
    if doubted.vehicle_id != row.pk:  # type: ignore[attr-defined]
        raise InputError("keeping.row_unknown", found=str(root), what=ReadingRow.ledger)
    event = Confirmation(day=day or clock.today(), reading=root, note=note)
    (kept,) = append(scope, [NewRow(row=ConfirmationRow, event=event, links={"vehicle": row})])
    return Kept(kept.root, kept.number)


def refuse_out_of_order(scope: Scope, vehicle: str, reading: Reading, *, today: dt.date | None = None) -> None:
    """Refuse a reading below the last good one of its counter, or above the next one."""
    from twomarks.keeping.questions.readings import history

    others = [
        other
        for other in history(scope, vehicle, today or clock.today(), counter=reading.counter).clean
        if reading.root is None or other.root != reading.root
    ]
    before = [other for other in others if other.day <= reading.day]
    after = [other for other in others if other.day > reading.day]
    if before and reading.steps < before[-1].steps:
        _refuse("keeping.reading_below", vehicle, reading, before[-1])
    if after and reading.steps > after[0].steps:
        _refuse("keeping.reading_above", vehicle, reading, after[0])


def _refuse(key: str, vehicle: str, reading: Reading, other: Reading) -> None:
    unit = units.KINDS[reading.kind].core
    raise InputError(key, where=vehicle, found=Figure(reading.value, unit), expected=Figure(other.value, unit), day=other.day)


def _new(row: VehicleRow, reading: Reading) -> NewRow:
    # The owner's word that a reading is right is a row of its own.
    event = dataclasses.replace(reading, confirmed=False) if reading.confirmed else reading
    return NewRow(row=ReadingRow, event=event, links={"vehicle": row})
