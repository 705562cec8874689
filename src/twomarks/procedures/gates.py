"""The gates of a bound procedure: where the card stops, and what is looked at and said there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
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


_Asked = Mapping[str, tuple[str, ...]]
"""The questions of a gate by the sort of circuit that is worked on."""

_UNDO: _Asked = {
    "engine": ("kit", "label", "pan", "plug", "hot", "tag"),
    "gear": ("kit", "label", "pan", "unit", "fill_plug", "hot", "tag"),
    "coolant": ("kit", "label", "pan", "cold", "animals", "tag"),
    "brake": ("kit", "sealed", "cap_legend", "paint", "tag"),
    "fuel": ("kit", "flames", "low_pressure", "cold_engine", "pan", "tag"),
    "wheel": ("kit", "pattern", "chocked", "cracked"),
    "pads": ("kit", "chocked", "cracked", "service_mode", "tag"),
    "battery": ("kit", "poles", "flames", "jewellery", "locked"),
    "air": ("kit", "key"),
    "belt": ("kit", "key"),
}
_POUR: _Asked = {
    "gear": ("new_seal", "torque", "label", "upright"),
    "coolant": ("taps", "mixture", "heater"),
    "brake": ("sealed", "cap_legend"),
}
_START: _Asked = {
    "engine": ("level_start", "cap", "bay", "people", "air"),
    "gear": ("bay", "people", "air"),
    "coolant": ("taps", "heater", "tank_cap", "bay", "people", "air"),
    "brake": ("pedal_off", "bay", "people", "air"),
    "fuel": ("primed", "dry_fuel", "bay", "people", "air"),
    "wheel": ("nuts", "people", "air"),
    "pads": ("nuts", "pedal_off", "bay", "people", "air"),
    "battery": ("poles_again", "held_down", "bay", "people", "air"),
    "air": ("element", "bay", "people", "air"),
    "belt": ("bay", "people", "air"),
}
_DRIVE: _Asked = {
    "engine": ("dry", "level", "loose", "chocks"),
    "gear": ("dry_unit", "hole", "loose", "chocks"),
    "coolant": ("dry_cooling", "heater_hot", "poured", "chocks"),
    "brake": ("pedal_on", "dry_brakes", "brake_tank", "loose", "chocks"),
    "fuel": ("dry_fuel", "loose"),
    "wheel": ("nuts", "pressures", "chocks"),
    "pads": ("pedal_on", "nuts", "brake_tank", "service_mode_out", "chocks"),
    "battery": ("held_down", "covers", "bonnet"),
    "air": ("element", "bonnet"),
    "belt": ("bonnet",),
}
_WORK: Mapping[str, tuple[str, ...]] = {
    "pads": ("pads", "caliper"),
    "wheel": ("wheel",),
    "battery": ("battery", "negative", "positive"),
    "air": ("air",),
    "belt": ("belt",),
}
"""What parts a work is about that lets no fluid out."""


def gates_of(bound: Bound) -> tuple[BoundGate, ...]:
    """Return the gates of `bound` in the order in which they come; none where nothing is opened or gone under."""
    steps = bound.steps
    sorts = _sorts_let_out(bound)
    drain = next((number for number, step in enumerate(steps) if step.does("drain", "bleed")), None)
    if not sorts:
        sorts, drain = _work_on_parts(bound)
    raised = any(step.does("raise") for step in steps)
    after_drain: tuple[BoundStep, ...] = steps[drain:] if drain is not None else ()
    found: list[tuple[GateName, str, tuple[str, ...]]] = []

    def add(name: GateName, among: tuple[BoundStep, ...], fits: Callable[[BoundStep], bool], questions: tuple[str, ...]) -> None:
        step = next((one for one in among if fits(one)), None)
        if step is not None:
            found.append((name, step.id, questions))

    shaken = ("stands_on", "shaken") if raised else ("stands_on",)
    add("before under", steps, lambda step: any(move.place == "under" for move in step.moves), (*shaken, "key", "helper"))
    if sorts:
        moving = any(step.does("drive") for step in after_drain)
        undoes = (lambda step: _undoes_parts(step, bound)) if sorts[0] in _WORK else _undoes
        add("before first undo", steps, undoes, _asked(_UNDO, sorts))
        add(
            "before first pour", steps if sorts == ("brake",) else after_drain, lambda step: step.does("pour"), _asked_at_pour(bound, sorts)
        )
        add("before first start", after_drain, lambda step: step.does("run_engine"), _asked(_START, sorts))
        add(
            "before first drive",
            after_drain,
            lambda step: step.does(*(("drive",) if moving else ("reset", "record"))),
            _asked(_DRIVE, sorts),
        )
        waste = () if sorts in (("wheel",), ("belt",), ("air",)) else ("waste",)
        found.append(("end", "", ("left", "waste") if sorts == ("engine",) else ("left", *waste, "later")))
    gates = [BoundGate(name=name, before=before, questions=tuple(say(f"gate.ask_{one}") for one in asked)) for name, before, asked in found]
    places = {step.id: number for number, step in enumerate(steps)}
    return tuple(sorted(gates, key=lambda gate: places.get(gate.before, len(steps))))


def _sorts_let_out(bound: Bound) -> tuple[str, ...]:
    """Return the sorts of the circuits that are let out or renewed, in the order in which they are."""
    moves = [move for move in bound.moves if move.action in ("drain", "bleed")]
    roles = [
        role for move in moves for role in bound.circuits_in(move.things) if move.action == "drain" or bound.circuits[role].sort == "brake"
    ]
    return tuple(dict.fromkeys(bound.circuits[role].sort for role in roles))


def _work_on_parts(bound: Bound) -> tuple[tuple[str, ...], int | None]:
    """Return what is worked on where no fluid is let out (wheels go with the brakes behind them), and the step of the first undo."""
    first = next((number for number, step in enumerate(bound.steps) if _undoes_parts(step, bound)), None)
    if first is None:
        return (), None
    touched = [thing for step in bound.steps for move in step.moves if move.action in _UNDOING for thing in move.things]
    if any(step.does("turn") for step in bound.steps):
        touched += bound.serving("belt")
    works = tuple(name for name, purposes in _WORK.items() if bound.serves(tuple(touched), *purposes))
    return (works[:1] if "pads" in works else works), first


_UNDOING = ("loosen", "remove", "open", "turn")


def _undoes_parts(step: BoundStep, bound: Bound) -> bool:
    purposes = tuple(purpose for one in _WORK.values() for purpose in one)
    return any(move.action == "turn" or (move.action in _UNDOING and bound.serves(move.things, *purposes)) for move in step.moves)


def _undoes(step: BoundStep) -> bool:
    tank = any(move.action == "open" and {"coolant_tank", "brake_fluid_tank"} & set(move.things) for move in step.moves)
    return tank or step.does("loosen", "drain", "bleed")


def _asked(questions: _Asked, sorts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for sort in sorts for one in questions.get(sort, ())))


def _asked_at_pour(bound: Bound, sorts: tuple[str, ...]) -> tuple[str, ...]:
    seal = ("old_seal", "rings") if any(bound.seals_of(*bound.joints)) else ("old_seal",)
    return _asked({**_POUR, "engine": (*seal, "new_seal", "torque", "label")}, sorts)
