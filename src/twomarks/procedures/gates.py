"""The gates of a bound procedure: where the card stops, and what is looked at and said there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from twomarks.procedures.bound import Bound, BoundStep
from twomarks.words import Message, say

__all__ = ["BoundGate", "GateName", "gates_of"]

GateName = Literal["before under", "before first undo", "before first pour", "before first start", "before first drive", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundGate:
    """A gate: its name, the step before which it stands ("" = after the last), its questions."""

    name: GateName
    before: str
    questions: tuple[Message, ...]


def gates_of(bound: Bound) -> tuple[BoundGate, ...]:
    """Return the gates of `bound` in the order in which they come; none where nothing is opened or gone under."""
    steps = bound.steps
    drain = next((number for number, step in enumerate(steps) if step.does("drain")), None)
    raised = any(step.does("raise") for step in steps)
    ring = any(bound.seals_of(*bound.joints))
    after_drain: tuple[BoundStep, ...] = steps[drain:] if drain is not None else ()
    found: list[tuple[GateName, str, tuple[str, ...]]] = []

    def add(name: GateName, among: tuple[BoundStep, ...], fits: Callable[[BoundStep], bool], *questions: str) -> None:
        step = next((one for one in among if fits(one)), None)
        if step is not None:
            found.append((name, step.id, questions))

    shaken = ("stands_on", "shaken") if raised else ("stands_on",)
    add("before under", steps, lambda step: any(move.place == "under" for move in step.moves), *shaken, "key", "helper")
    if drain is not None:
        add("before first undo", steps, lambda step: step.does("loosen"), "kit", "label", "pan", "plug", "hot", "tag")
        seal = ("old_seal", "rings") if ring else ("old_seal",)
        add("before first pour", after_drain, lambda step: step.does("pour"), *seal, "new_seal", "torque", "label")
        add("before first start", after_drain, lambda step: step.does("run_engine"), "level_start", "cap", "bay", "people", "air")
        add("before first drive", after_drain, lambda step: step.does("reset", "record"), "dry", "level", "loose", "chocks")
        found.append(("end", "", ("left", "waste")))
    gates = [BoundGate(name=name, before=before, questions=tuple(say(f"gate.ask_{one}") for one in asked)) for name, before, asked in found]
    places = {step.id: number for number, step in enumerate(steps)}
    return tuple(sorted(gates, key=lambda gate: places.get(gate.before, len(steps))))
