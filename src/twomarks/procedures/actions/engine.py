"""Effects of running the engine, of stopping it, of driving off, and of the foot on a pedal."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__: list[str] = []

_SHORTEST_TO_THERMOSTAT_MIN = 5.0
"""No engine has opened its thermostat before that from cold; common practice, no source."""


def _run(state: State, step: BoundMove, bound: Bound) -> None:
    state.set("engine", "running", by=step.id)
    state.set("gear", None, by=step.id)
    state.set("people", None, by=step.id)
    state.set("air_suspension", None, by=step.id)
    state.set("since stop", 0.0, by=step.id)
    for role in bound.of_sort("engine", "coolant"):
        state.set(f"reading:{role}", None, by=step.id)
        if state.get(f"drained:{role}"):
            state.set(f"run after fill:{role}", bool(state.get(f"filled:{role}")), by=step.id)
        state.set(f"last pour:{role}", None, by=step.id)
    for role in bound.of_sort("coolant"):
        state.set(f"heat:{role}", "hot", by=step.id)
        state.set("measured:mixture", None, by=step.id)


@effect("warm")
def _warm(state: State, step: BoundMove, bound: Bound) -> None:
    _run(state, step, bound)
    for role in bound.of_sort("engine"):
        state.set(f"heat:{role}", "warm" if step.manner == "warm" else "hot", by=step.id)


@effect("run_engine")
def _run_engine(state: State, step: BoundMove, bound: Bound) -> None:
    _run(state, step, bound)
    state.set("lamp", "watched" if "lamp" in step.things else None, by=step.id)
    if step.manner == "to thermostat" and step.wait_min >= _SHORTEST_TO_THERMOSTAT_MIN:
        state.set("thermostat", "opened", by=step.id)


@effect("drive")
def _drive(state: State, step: BoundMove, bound: Bound) -> None:
    _run(state, step, bound)
    for role in bound.circuits:
        sort = bound.circuits[role].sort
        if sort != "brake":
            state.set(f"heat:{role}", "warm" if sort == "gear" else "hot", by=step.id)
        if state.get(f"filled:{role}"):
            state.set(f"driven after fill:{role}", True, by=step.id)
    for name in ("ground", "air", "brake"):
        state.set(name, None, by=step.id)
    state.set("driven", True, by=step.id)
    if step.manner == "slow stop":
        state.set("slow stop", True, by=step.id)


@effect("press")
def _press(state: State, step: BoundMove, _bound: Bound) -> None:
    if step.manner == "pumped":
        state.set("pedal pumped", True, by=step.id)
        if state.get("engine") == "off":
            state.set("booster", "empty", by=step.id)
    elif step.manner == "held":
        state.set("pedal held", True, by=step.id)


@effect("turn")
def _turn(state: State, step: BoundMove, _bound: Bound) -> None:
    """Turn something by hand; of a belt the rest comes into sight by it."""
    for thing in step.things:
        state.set(f"turned:{thing}", True, by=step.id)


@effect("stop_engine")
def _stop_engine(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("engine", "off", by=step.id)
    state.set("since stop", 0.0, by=step.id)
