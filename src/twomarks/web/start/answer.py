"""What can be said about a vehicle from its kind, its fuel, one reading and perhaps a label."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.planning.general import EARLIER, THIS_YEAR, UNSURE
from twomarks.trade.grades import lowest_cranking_c, lowest_pumping_c
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.trade.label import Label

__all__ = ["LAST_DONE", "GeneralLine", "answer_of", "label_said"]

LAST_DONE = ((THIS_YEAR, "This year"), (EARLIER, "Earlier"), (UNSURE, "Do not know"))


@dataclass(frozen=True, slots=True)
class GeneralLine:
    """An item of general practice, what is usual, the key its answer is kept under, and the answer so far."""

    question: str
    name: Message
    usual: Message
    answered: str


def label_said(label: Label) -> tuple[Message, ...]:
    """Return what is in the engine by its label, how cold its grade is tested, what may top it up, and what the label cannot tell."""
    grade = str(label.grade) if label.grade else ""
    said = [say("prepare.label", grade=grade, categories=tuple(str(one) for one in label.categories), approvals=label.approvals)]
    if label.not_understood:
        said.append(say("prepare.label_not_understood", words=label.not_understood))
    winter = getattr(label.grade, "winter", None)
    if winter:
        tested = {"cranking": Figure(lowest_cranking_c(winter), "C"), "pumping": Figure(lowest_pumping_c(winter), "C")}
        said.append(say("prepare.label_cold", grade=grade, **tested))
    return (*said, say("prepare.label_top_up", grade=grade), say("prepare.label_handbook"))


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
