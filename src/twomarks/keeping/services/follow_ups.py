"""Closing a check that an entry asked for."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import cast
from uuid import UUID

from twomarks.keeping.questions.values import event_of
from twomarks.keeping.records.entries import FollowUpRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, latest, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import FollowUp, Kept

__all__ = ["close_follow_up"]


@service
def close_follow_up(scope: Scope, root: UUID, *, day: dt.date, result: str = "", today: dt.date | None = None) -> Kept:
    """Keep that a check was done on `day`, and what was found."""
    row = cast("FollowUpRow", latest(scope, FollowUpRow, root))
    event = dataclasses.replace(cast("FollowUp", event_of(row)), done_on=day, result=result)
    not_in_the_future([dataclasses.replace(event, day=day, day_from=None, day_to=None)], today)
    (written,) = append(scope, [NewRow(row=FollowUpRow, event=event, links={"vehicle": row.vehicle}, part_of=row.part_of)])
    return Kept(written.root, written.number)
