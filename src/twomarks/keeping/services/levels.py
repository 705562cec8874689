"""Level checks and top-ups."""

from __future__ import annotations

import datetime as dt

from twomarks.errors import InputError
from twomarks.keeping.questions.vehicles import vehicle_row
from twomarks.keeping.records.levels import LevelCheckRow, TopUpRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import Kept
from twomarks.model.ledger import LevelCheck, TopUp

__all__ = ["record_level_check", "record_top_up"]


@service
def record_level_check(scope: Scope, vehicle: str, check: LevelCheck, *, today: dt.date | None = None) -> Kept:
    """Keep a reading on the stick."""
    row = vehicle_row(scope, vehicle)
    not_in_the_future([check], today)
    (written,) = append(scope, [NewRow(row=LevelCheckRow, event=check, links={"vehicle": row})])
    return Kept(written.root, written.number)


@service
def record_top_up(scope: Scope, vehicle: str, top_up: TopUp, *, today: dt.date | None = None) -> Kept:
    """Keep what was added between services."""
    row = vehicle_row(scope, vehicle)
    not_in_the_future([top_up], today)
    if top_up.volume_ml <= 0:
        raise InputError("keeping.more_than_nothing", where=top_up.circuit, found=top_up.volume_ml)
    (written,) = append(scope, [NewRow(row=TopUpRow, event=top_up, links={"vehicle": row})])
    return Kept(written.root, written.number)
