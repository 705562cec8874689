"""What the moves of a step concern: the action, what the thing is for, and the sort of circuit it belongs to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from twomarks.model.procedure import Belongs
    from twomarks.procedures.bound import Bound, BoundMove, BoundStep

__all__ = ["Concern", "belongs", "concerns_of"]


@dataclass(frozen=True, slots=True)
class Concern:
    """One move on one thing: what the thing is for (drain, fill, bleed, filter, joint, seal) or its name, and the circuit's sort."""

    action: str
    thing: str = ""
    of: str = ""


def concerns_of(step: BoundStep, bound: Bound) -> tuple[Concern, ...]:
    """Return what a bound step concerns, each once, in the order of its moves."""
    found: dict[Concern, None] = {}
    for move in step.moves:
        for thing in _things(move):
            role = bound.circuit_of(thing)
            sort = bound.circuits[role].sort if role else ""
            found[Concern(move.action, _meant(thing, bound), sort)] = None
    return tuple(found)


def _things(move: BoundMove) -> tuple[str, ...]:
    return (*move.things, *((move.through,) if move.through else ())) or ("",)


def _meant(thing: str, bound: Bound) -> str:
    for name, group in (
        ("drain", bound.drains),
        ("fill", bound.fills),
        ("bleed", bound.bleeds),
        ("filter", bound.filters),
        ("joint", bound.joints),
        ("seal", bound.seals),
    ):
        if thing in group:
            return name
    return bound.circuits[thing].sort if thing in bound.circuits else thing


def belongs(rows: tuple[Belongs, ...], concerns: tuple[Concern, ...], *, place: str = "") -> bool:
    """Return whether any row of a branch names one of these concerns at this place."""
    return any(
        (not row.places or place in row.places)
        and any(
            (not row.actions or concern.action in row.actions)
            and (not row.things or concern.thing in row.things)
            and (not row.of or concern.of in row.of)
            for concern in concerns
        )
        for row in rows
    )
