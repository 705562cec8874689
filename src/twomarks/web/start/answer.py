"""What can be said about a vehicle from its kind, its fuel, one reading and perhaps a label."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twomarks.errors import TwomarksError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.words import Figure, Message

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.trade.label import Label

__all__ = ["LAST_DONE", "GeneralLine", "answer_of", "general_question"]

LAST_DONE = (("this year", "This year"), ("earlier", "Earlier"), ("do not know", "Do not know"))


@dataclass(frozen=True, slots=True)
class GeneralLine:
    """An item of general practice, the key its answer is kept under, and the answer so far."""

    question: str
    words: Message
    answered: str


def general_question(vehicle: str, item: Message) -> str:
    """Return the key under which the answer about an item of general practice is kept."""
    return f"last-done:{vehicle}:{item.key.partition('.')[2]}"


def answer_of(scope: Scope, sheet: VehicleSheet, *, today: dt.date) -> dict[str, Any]:
    """Return what the answer page shows; what cannot be said yet is left out, never made up."""
    prepared = questions.prepare(scope, sheet.name, today)
    last = prepared.history.clean[-1:]
    answered = questions.answers(scope)
    keys = [(general_question(sheet.name, item), item) for item in prepared.general]
    return {
        "odometer": Figure(last[0].value, "km") if last else None,
        "fuel": sheet.engine.fuel,
        "label": _label(sheet),
        "worth": prepared.worth_fetching,
        "general": [GeneralLine(key, item, answered.get(key, "")) for key, item in keys],
        "choices": LAST_DONE,
        "daily": prepared.forecast.daily_km,
        "basis": prepared.forecast.basis,
    }


def _label(sheet: VehicleSheet) -> Label | None:
    from twomarks.procedures.facts import label_in

    try:
        return label_in(sheet)
    except TwomarksError:
        return None
