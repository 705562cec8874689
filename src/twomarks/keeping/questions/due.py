"""What is due on a vehicle, and when."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from twomarks.keeping.questions.daybook import done
from twomarks.keeping.questions.readings import usage
from twomarks.keeping.questions.shelf import answers
from twomarks.keeping.questions.vehicles import sheet
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

if TYPE_CHECKING:
    from twomarks.planning.due import DueItem

__all__ = ["due"]


@question
def due(scope: Scope, vehicle: str, today: dt.date) -> tuple[DueItem, ...]:
    """Return every service item of a vehicle: those past their limit first, then by day, those not known last."""
    from twomarks.planning.due import due_items
    from twomarks.planning.general import with_general

    document = sheet(scope, vehicle)
    counters = {name: usage(scope, vehicle, today, name) for name in document.counters if name != "odometer"}
    document, known = with_general(document, done=done(scope, vehicle), answers=answers(scope) if not document.items else {}, today=today)
    return due_items(document, done=known, forecast=usage(scope, vehicle, today), today=today, counters=counters)
