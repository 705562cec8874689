"""Where one is after a step: oil in the engine or not, what is open, what is only hand-tight, on what it stands."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.procedures.bound import Bound, BoundStep
from twomarks.procedures.state import State
from twomarks.words import Message, Value, say

__all__ = ["Whereabouts", "whereabouts"]


_OPENED = ("filler", "coolant_tank", "brake_fluid_tank", "bonnet")
"""The things that are told of while they stand open."""
_PARTS = ("wheel", "pads", "battery", "air", "belt")
"""What the parts are there for that are told of while they are off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Whereabouts:
    """The state after a step, as messages for somebody who comes back to it; the first says whether there is oil."""

    step: str
    oil: Message
    stands: Message
    open: tuple[Value, ...] = ()
    loose: tuple[Value, ...] = ()
    off: tuple[Value, ...] = ()
    engine_running: bool = False

    @property
    def messages(self) -> tuple[Message, ...]:
        """All of it, one message after the other, what stops a start first."""
        said = [self.oil]
        if self.engine_running:
            said.append(say("rehearsal.running"))
        for name, things in (("off", self.off), ("open", self.open), ("loose", self.loose)):
            if things:
                said.append(say(f"rehearsal.{name}", things=things))
        return (*said, self.stands)


def whereabouts(state: State, step: BoundStep, bound: Bound) -> Whereabouts:
    """Return where one is, with `state` after `step`."""
    loose: list[Value] = []
    off: list[Value] = []
    for variable in state.names("fastening:"):
        role = variable.partition(":")[2]
        value = state.peek(variable)
        if value in ("loose", "by hand"):
            loose.append(bound.name(role))
        elif value == "out" and not (role in bound.joints and bound.filter_kind == "spin-on"):
            off.append(bound.name(role))
    off.extend(bound.name(role) for role in sorted(bound.filters) if state.peek(f"part:{role}") == "off")
    off.extend(bound.name(role) for role in bound.serving(*_PARTS) if state.peek(f"part:{role}") == "off")
    if state.peek("undertray") == "off":
        off.append(say("rehearsal.thing_undertray"))
    opened = [say(f"rehearsal.thing_{thing}") for thing in _OPENED if state.peek(thing) == "open"]
    return Whereabouts(
        step=step.id,
        oil=_fluids(state, bound),
        stands=say(f"rehearsal.stands_{state.peek('support')}"),
        open=tuple(opened),
        loose=tuple(loose),
        off=tuple(_without_doubles(off)),
        engine_running=state.peek("engine") == "running",
    )


def _without_doubles(things: list[Value]) -> list[Value]:
    kept: list[Value] = []
    for thing in things:
        if thing not in kept:
            kept.append(thing)
    return kept


def _fluids(state: State, bound: Bound) -> Message:
    """Return what stops a start or a drive: the first circuit that is out or not proved, else that it is in order."""
    said = [_fluid(state, bound, role) for role in bound.circuits]
    wrong = [one for one in said if one.key not in _IN_ORDER]
    return (wrong or said or [say("rehearsal.oil_in")])[0]


_IN_ORDER = ("rehearsal.oil_in", "rehearsal.fluid_in")


def _fuel_open(state: State, bound: Bound, role: str) -> bool:
    """Return whether the fuel side was opened and has not been primed and shut since."""
    parts = (name for name in state.names("fastening:") if bound.circuit_of(name.partition(":")[2]) == role)
    loose = [state.peek(name) != "tight" for name in parts]
    return any(loose) or bool(state.peek("undone") and not state.peek(f"primed:{role}"))


def _fluid(state: State, bound: Bound, role: str) -> Message:
    sort, name = bound.circuits[role].sort, bound.name(role)
    if sort == "brake" and state.peek("brakes touched"):
        proved = state.peek("pedal") == "firm" and state.peek("slow stop")
        return say("rehearsal.fluid_in", circuit=name) if proved else say("rehearsal.brakes_open")
    if sort == "fuel":
        return say("rehearsal.fuel_open") if _fuel_open(state, bound, role) else say("rehearsal.fluid_in", circuit=name)
    if not state.peek(f"drained:{role}"):
        return say("rehearsal.oil_in") if sort == "engine" else say("rehearsal.fluid_in", circuit=name)
    if not state.peek(f"filled:{role}"):
        return say("rehearsal.oil_out") if sort == "engine" else say("rehearsal.fluid_out", circuit=name)
    shown = state.peek(f"reading:{role}") == "good" and (sort != "engine" or state.peek(f"run after fill:{role}"))
    if sort == "engine":
        return say("rehearsal.oil_in") if shown else say("rehearsal.oil_short")
    return say("rehearsal.fluid_in" if shown else "rehearsal.fluid_short", circuit=name)
