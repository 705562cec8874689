"""Figures taken down during the work become facts of the vehicle sheet, in a new revision of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from twomarks.errors import TwomarksError
from twomarks.keeping.records.household import PersonRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import service
from twomarks.model.ledger import FilledFigure

__all__ = ["keep_filled"]

_SEEN_ON_THE_PART = ("drive", "thread", "sizes", "numbers", "count", "height")
_GROUPS = ("circuits", "fastenings", "slots", "chassis", "engine")


@service
def keep_filled(scope: Scope, vehicle: str, figures: Sequence[FilledFigure], *, day: dt.date) -> tuple[str, ...]:
    """Write into the sheet those figures that name a fact it does not have, and return their paths.

    What is seen on the part itself (its size, its thread, its number) is measured and confirmed by who took it down. Any
    other figure, a torque above all, may have come from anywhere: it is told, and stays unconfirmed until somebody holds
    the handbook against it. One that does not read as such a fact (a torque without its unit) stays in the entry alone:
    nothing is guessed, and the entry is kept all the same.
    """
    from twomarks.keeping.questions.vehicles import sheet_revision
    from twomarks.keeping.services.documents import save_document
    from twomarks.model.loading import load, raw_tables
    from twomarks.model.positions import at
    from twomarks.model.writing import change_value

    text = sheet_revision(scope, vehicle).text
    who = PersonRow.objects.filter(household=scope.household, id=scope.person).values_list("name", flat=True).first() or ""
    taken = f"{who}, {day.isoformat()}"
    kept = []
    for figure in figures:
        path = tuple(figure.what.split("."))
        if len(path) < 2 or path[0] not in _GROUPS or at(raw_tables(text, where=vehicle), path) is not None:
            continue
        fact = {"value": figure.text.strip(), "source": f"told: {taken}"}
        if path[-1] in _SEEN_ON_THE_PART:
            fact |= {"source": f"measured: {taken}", "confirmed": taken}
        try:
            changed = change_value(text, path, fact)
            load(changed, where=vehicle)
        except TwomarksError:
            continue
        text = changed
        kept.append(figure.what)
    if kept:
        save_document(scope, text, where=vehicle)
    return tuple(kept)
