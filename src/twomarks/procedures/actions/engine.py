"""Effects of running the engine and of stopping it."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__: list[str] = []


def _run(state: State, step: BoundMove, bound: Bound) -> None:
    state.set("engine", "running", by=step.id)
    state.set("gear", None, by=step.id)
    state.set("air_suspension", None, by=step.id)
    state.set("since stop", 0.0, by=step.id)
    for role in bound.of_sort("engine", "coolant"):
        state.set(f"reading:{role}", None, by=step.id)
        if state.get(f"drained:{role}"):
            state.set(f"run after fill:{role}", bool(state.get(f"filled:{role}")), by=step.id)


@effect("warm")
def _warm(state: State, step: BoundMove, bound: Bound) -> None:
    _run(state, step, bound)
    for role in bound.of_sort("engine"):
        state.set(f"heat:{role}", "warm" if step.manner == "warm" else "hot", by=step.id)


@effect("run_engine")
def _run_engine(state: State, step: BoundMove, bound: Bound) -> None:
    _run(state, step, bound)
    state.set("lamp", "watched" if "lamp" in step.things else None, by=step.id)


@effect("stop_engine")
def _stop_engine(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("engine", "off", by=step.id)
    state.set("since stop", 0.0, by=step.id)
