"""What a move does to what its part is there for: wheels, brakes, battery, air side and fuel side, beyond its own effect."""

from __future__ import annotations

from twomarks.procedures.actions.touching import touch_brakes
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__ = ["touch"]

_UNDOING = frozenset({"loosen", "remove", "disconnect", "turn"})
_FORGOTTEN = {
    "wheel": ("clean:wheel_faces", "clean:brake_parts"),
    "battery": ("seen:polarity", "measured:charging_voltage"),
    "air": ("seen:air_seat", "heard:intake", "clean:airbox_inside"),
    "pads": ("clean:disc", "seen:brake_hose", "measured:disc", "piston back"),
    "belt": ("seen:belt_ribs", "turned:engine", "heard:belt_noise"),
}
"""What was looked at or cleaned, and no longer counts once the part is taken off or put in."""


def touch(state: State, step: BoundMove, bound: Bound) -> None:
    """Let what was known of a part no longer count once it is touched."""
    if step.action in _UNDOING or (step.action == "open" and any(bound.kinds.get(thing) == "tap" for thing in step.things)):
        state.set("undone", True, by=step.id)
    if step.action in ("warm", "run_engine", "drive") and state.peek("asleep"):
        state.set("asleep", None, by=step.id)
    if step.action in _UNDOING and bound.serves(step.things, "negative", "positive"):
        state.set("terminal_covers", None, by=step.id)
    if step.action in ("disconnect", "connect"):
        _lead(state, step, bound)
    if step.action in ("remove", "fit"):
        _forget(state, step, bound)
    if _touches_brakes(step, bound):
        touch_brakes(state, by=step.id)
    if step.action == "press" and "piston" in step.things:
        state.set("piston back", True, by=step.id)
        state.set("spills", "possible", by=step.id)
    if step.action == "drive" and state.peek("seen:brake_parts"):
        state.set("seen:brake_parts", None, by=step.id)
    if step.action == "fit" and bound.serves(step.things, "caliper"):
        state.set("placed:caliper_hook", False, by=step.id)
    if step.action in ("disconnect", "connect") and "brake_hose" in step.things:
        touch_brakes(state, by=step.id)
        state.set("hose opened", True, by=step.id)
    if step.action in (*_UNDOING, "open"):
        for thing in step.things:
            circuit = bound.circuit_of(thing)
            if circuit and bound.circuits[circuit].sort == "fuel":
                state.set(f"primed:{circuit}", None, by=step.id)
    elif step.action == "prime":
        for circuit in bound.circuits_in(step.things):
            state.set(f"filled:{circuit}", True, by=step.id)


def _lead(state: State, step: BoundMove, bound: Bound) -> None:
    """Take a lead off its pole, or lay it on: it is a clamp as well as a joint."""
    for thing in step.things:
        if bound.serves((thing,), "negative", "positive"):
            state.set(f"fastening:{thing}", "out" if step.action == "disconnect" else "by hand", by=step.id)


def _forget(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        role = bound.procedure.roles.get(thing)
        if role is None or role.kind != "slot":
            continue
        for variable in _FORGOTTEN.get(role.serves, ()):
            state.set(variable, None, by=step.id)
        if step.action == "remove":
            state.set(f"seen:{thing}", None, by=step.id)
            state.set(f"was off:{thing}", True, by=step.id)
        if role.serves == "pads" and step.action == "fit":
            state.set(f"renewed:{step.each or thing}", step.new, by=step.id)
        if role.serves == "wheel" and step.action == "fit" and step.manner == "swapped":
            state.set("swapped", True, by=step.id)
            for variable in ("measured:tyre_pressure", "seen:pressure_sensors"):
                state.set(variable, None, by=step.id)


def _touches_brakes(step: BoundMove, bound: Bound) -> bool:
    if step.action == "press":
        return "piston" in step.things
    return step.action in ("loosen", "remove", "fit", "tighten") and bound.serves(step.things, "caliper", "pads")
