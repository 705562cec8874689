"""What can be said about a vehicle from its kind, its fuel, one reading and perhaps a label."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from twomarks.errors import TwomarksError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.words import Figure

if TYPE_CHECKING:
    from twomarks.trade.label import Label
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["FIRST_JOB", "MOST_WORTH", "answer_of"]

FIRST_JOB = "engine-oil-spin-on"
MOST_WORTH = 10


def answer_of(scope: Scope, sheet: VehicleSheet, *, today: dt.date) -> dict[str, Any]:
    """Return what the answer page shows; what cannot be said yet is left out, never made up."""
    from twomarks.procedures.facts import missing_figures
    from twomarks.procedures.library import library_procedure

    clean = questions.history(scope, sheet.name, today).clean
    burns = str(getattr(sheet.engine.fuel, "text", sheet.engine.fuel) or "")
    has_oil = burns not in ("electric", "")
    worth = missing_figures(sheet, library_procedure(FIRST_JOB))[:MOST_WORTH] if has_oil else ()
    return {
        "odometer": Figure(clean[-1].value, "km") if clean else None,
        "fuel": burns,
        "label": _label(sheet),
        "worth": worth,
        "usage": questions.usage(scope, sheet.name, today),
    }


def _label(sheet: VehicleSheet) -> Label | None:
    from twomarks.procedures.facts import label_in

    try:
        return label_in(sheet)
    except TwomarksError:
        return None
