"""What can be said about a vehicle from its kind, its fuel, one reading and perhaps a label."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.planning.general import EARLIER, THIS_YEAR, UNSURE
from twomarks.planning.in_engine import label_said
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["LAST_DONE", "GeneralLine", "answer_of"]

LAST_DONE = ((THIS_YEAR, "This year"), (EARLIER, "Earlier"), (UNSURE, "Do not know"))


@dataclass(frozen=True, slots=True)
class GeneralLine:
    """An item of general practice, what is usual, the key its answer is kept under, and the answer so far."""

    question: str
    name: Message
    usual: Message
    answered: str


def answer_of(scope: Scope, sheet: VehicleSheet, *, today: dt.date) -> dict[str, Any]:
    """Return what the answer page shows; what cannot be said yet is left out, never made up."""
    prepared = questions.prepare(scope, sheet.name, today)
    last = prepared.history.clean[-1:]
    answered = questions.answers(scope)
    return {
        "odometer": Figure(last[0].value, "km") if last else None,
        "fuel": sheet.engine.fuel,
        "label": prepared.in_engine and {"heading": say("prepare.in_engine"), "lines": label_said(prepared.in_engine)},
        "worth": prepared.worth_fetching,
        "general": [GeneralLine(item.question, item.name, item.usual, answered.get(item.question, "")) for item in prepared.general],
        "choices": LAST_DONE,
        "daily": prepared.forecast.daily_km,
        "basis": prepared.forecast.basis,
    }
