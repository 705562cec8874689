"""One move played on the state: its effect, and the time that passes by it."""

from __future__ import annotations

from twomarks.procedures.actions import parts
from twomarks.procedures.actions.effect import EFFECTS
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import LONG_MIN, START, State

__all__ = ["play", "start_state"]


def start_state(bound: Bound) -> State:
    """Return the state before the first step: everything fitted and tight, the circuits full where volumes are known."""
    state = State(START)
    for role, kind in bound.kinds.items():
        if kind in ("fastening", "tap"):
            state.set(f"fastening:{role}", "tight", by="")
        elif kind == "slot":
            state.set(f"part:{role}", "old", by="")
    for role, circuit in bound.circuits.items():
        state.set(f"litres:{role}", circuit.volumes.full_l, by="")
        state.set(f"since pour:{role}", LONG_MIN, by="")
        state.set(f"drained:{role}", False, by="")
        state.set(f"old:{role}", "in place", by="")
    return state


def play(state: State, step: BoundMove, bound: Bound) -> None:
    """Change `state` by what one move of a step does, and let its time pass."""
    state.set("under", step.place == "under", by=step.id)
    if step.place == "under" or step.wait_min or step.action in ("raise", "lower"):
        state.set("people", None, by=step.id)
    if not step.during:
        _pass_time(state, step, step.active_min)
    EFFECTS[step.action](state, step, bound)
    parts.touch(state, step, bound)
    if step.tools:
        state.set("tools", "about", by=step.id)
    if not step.during:
        _pass_time(state, step, step.wait_min)


def _pass_time(state: State, step: BoundMove, minutes: float) -> None:
    for clock in ("since stop", *state.names("since pour:")):
        state.pass_time(clock, minutes, by=step.id if step.action == "wait" else "")
