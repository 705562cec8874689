"""What a reading of a level is worth at the moment it is taken."""

from __future__ import annotations

from twomarks.procedures.bound import Bound, CircuitAtWork
from twomarks.procedures.state import State

__all__ = ["reading_now"]


def reading_now(state: State, bound: Bound, role: str) -> str:
    """Return "good", or why a reading of this circuit does not count now."""
    circuit = bound.circuits[role]
    if state.get("engine") == "running":
        return "running"
    if _tilted(state, circuit):
        return "tilted"
    if circuit.sort == "engine" and state.get(f"drained:{role}") and not state.get(f"filled:{role}"):
        return "empty"
    if circuit.sort == "coolant" and state.get(f"heat:{role}") != "cold":
        return "hot"
    if circuit.sort == "gear" and circuit.fills and not _plug_out(state, circuit):
        return "shut"
    return "good" if _run_down(state, bound, role) else "early"


def _tilted(state: State, circuit: CircuitAtWork) -> bool:
    if state.get("ground") != "hard and level":
        return True
    return state.get("attitude") != "level" if circuit.sort == "gear" else state.get("support") != "wheels"


def _plug_out(state: State, circuit: CircuitAtWork) -> bool:
    plugs = [state.get(f"fastening:{name}") for name in circuit.fills]
    return "out" in plugs


def _run_down(state: State, bound: Bound, role: str) -> bool:
    since_pour = state.number(f"since pour:{role}")
    match bound.circuits[role].sort:
        case "engine":
            since_stop = state.number("since stop")
            stood = since_stop is not None and since_stop >= bound.settle_min
            return stood and since_pour is not None and since_pour >= bound.run_down_min
        case "gear":
            return since_pour is not None and since_pour >= bound.run_down_min
        case _:
            return True
