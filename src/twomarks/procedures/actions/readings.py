"""What a reading of a level is worth at the moment it is taken."""

from __future__ import annotations

from twomarks.procedures.bound import Bound
from twomarks.procedures.state import State

__all__ = ["reading_now"]


def reading_now(state: State, bound: Bound, role: str) -> str:
    """Return "good", or why a reading of this circuit does not count now."""
    if state.get("engine") == "running":
        return "running"
    if state.get("support") != "wheels" or state.get("ground") != "hard and level":
        return "tilted"
    since_stop, since_pour = state.number("since stop"), state.number(f"since pour:{role}")
    if since_stop is None or since_stop < bound.settle_min or since_pour is None or since_pour < bound.run_down_min:
        return "early"
    return "good"
