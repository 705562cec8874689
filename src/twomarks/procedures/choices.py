"""What a person decides about the day: whether the vehicle is raised and whether a tray is in the way, by answers kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import Bound, Choices
from twomarks.procedures.conditions import condition_values
from twomarks.words import Message, say

__all__ = ["ANSWERED", "CHOICES", "Choice", "choice_question", "choices_from", "choices_of"]

CHOICES = ("raised", "undertray")
"""The conditions that a person may decide; each has a question of its own for every vehicle."""

ANSWERED: Mapping[str, bool] = {"have": True, "have not": False}
"""What an answer decides; any other word decides nothing, and the sheet is asked instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice on which steps of a procedure rest: its question, what it asks, and what is decided so far, if anything."""

    name: str
    question: str
    what: Message
    decided: bool | None


def choice_question(name: str, vehicle: str) -> str:
    """Return the key under which the answer about a choice is kept, such as ``choice:raised:Alder``."""
    return f"choice:{name}:{vehicle}"


def choices_from(answers: Mapping[str, str], sheet: VehicleSheet) -> Choices:
    """Return what the answers decide for this vehicle: "have" to raise it, "have" a tray in the way; "have not" of either.

    What nobody has answered stays undecided here: the binding then goes by the sheet, and where that says nothing the
    steps stay on the card with their condition.
    """
    raised, undertray = (ANSWERED.get(answers.get(choice_question(name, sheet.name), "")) for name in CHOICES)
    return Choices(raised=raised, undertray=undertray)


def choices_of(bound: Bound) -> tuple[Choice, ...]:
    """Return the choices on which steps of the procedure rest, decided or not, in the order in which they are asked."""
    resting = {name for step in bound.procedure.steps if step.condition for name in step.condition.when}
    decided = condition_values(bound.sheet, bound.choices)
    return tuple(
        Choice(name=name, question=choice_question(name, bound.sheet.name), what=say(f"choice.{name}"), decided=decided[name])
        for name in CHOICES
        if name in resting
    )
