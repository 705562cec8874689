"""A procedure as steps to be read: bound to a vehicle, or with the names of its roles where the figures will stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks.words import Value, Wording, say

if TYPE_CHECKING:
    from twomarks.model.procedure import CautionWords, Procedure
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["ReadCaution", "ReadStep", "bound_to", "plainly", "unbound"]


@dataclass(frozen=True, slots=True)
class ReadCaution:
    """A caution with its signal word."""

    signal: str
    words: Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadStep:
    """One step, its words filled."""

    number: int
    id: str
    action: str
    words: Wording
    cautions: tuple[ReadCaution, ...]
    condition: Wording | None
    look: Wording | None
    accept: Wording | None
    reject: Wording | None


def plainly(text: str, procedure: Procedure, *, each: str = "") -> Wording:
    """Return an author's words with the names of the roles where a vehicle's figures will stand, and `each` for what it repeats."""
    from twomarks.model.procedure import placeholders

    figures: dict[str, Value] = {}
    for role, fact in placeholders(text):
        if role in ("term", "choice", "pour"):  # what is chosen or worked out for one vehicle has no name to stand for it
            continue
        if role == "each":
            figures[role] = each
            continue
        known = procedure.roles.get(role)
        owner = Wording(known.name) if known else role.replace("_", " ")
        name = f"{role}.{fact}" if fact else role
        figures[name] = say("procedures_answer.figure_of", fact=fact.replace("_", " "), owner=owner) if fact else owner
    return Wording(text, figures)


def unbound(procedure: Procedure) -> tuple[tuple[ReadCaution, ...], tuple[ReadStep, ...]]:
    """Return the hazards and the steps of a procedure that no vehicle gives its figures yet."""

    def said(text: str | None) -> Wording | None:
        return plainly(text, procedure) if text else None

    def cautions(found: tuple[CautionWords, ...]) -> tuple[ReadCaution, ...]:
        return tuple(ReadCaution(one.signal, plainly(one.words, procedure)) for one in found)

    steps = tuple(
        ReadStep(
            number=number,
            id=step.id,
            action=step.action,
            words=plainly(step.words, procedure, each="/".join(step.each)),
            cautions=cautions(step.caution),
            condition=said(step.condition.words) if step.condition else None,
            look=said(step.look),
            accept=said(step.accept),
            reject=said(step.reject),
        )
        for number, step in enumerate(procedure.steps, start=1)
    )
    return cautions(procedure.hazards), steps


def bound_to(procedure: Procedure, sheet: VehicleSheet, item: str | None) -> tuple[tuple[ReadCaution, ...], tuple[ReadStep, ...]]:
    """Return the hazards and the steps of a procedure with the figures of one vehicle."""
    from twomarks.procedures.binding import bind
    from twomarks.procedures.bound import Choices
    from twomarks.procedures.facts import pour_plan

    plan = pour_plan(sheet) if "oil" in procedure.roles else None
    bound = bind(procedure, sheet, item=item, choices=Choices(pour=plan))
    steps = tuple(
        ReadStep(
            number=number,
            id=step.id,
            action=step.action,
            words=step.words,
            cautions=tuple(ReadCaution(one.signal, one.words) for one in step.cautions),
            condition=step.condition if step.holds is None else None,
            look=step.look,
            accept=step.accept,
            reject=step.reject,
        )
        for number, step in enumerate(bound.steps, start=1)
    )
    return tuple(ReadCaution(one.signal, one.words) for one in bound.hazards), steps
