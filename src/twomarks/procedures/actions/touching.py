"""What every hand laid on the brakes undoes: the pedal has to be proved again before the vehicle moves."""

from __future__ import annotations

from twomarks.procedures.state import State

__all__ = ["touch_brakes"]


def touch_brakes(state: State, *, by: str) -> None:
    """Let what was known of pedal and slow stop no longer count: fluid, caliper, piston, pad, shoe or hose was touched."""
    state.set("brakes touched", True, by=by)
    for name in ("pedal", "pedal pumped", "pedal held", "slow stop"):
        state.set(name, None, by=by)
