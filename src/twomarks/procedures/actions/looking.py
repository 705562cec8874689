"""Effects of waiting, wiping, looking, measuring and telling."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.actions.readings import reading_now
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import Known, State

__all__: list[str] = []

_SHORTEST_COOL_MIN = 60.0
"""Nothing that ran hot is cold to the hand before that; common practice, no source."""


@effect("wait")
def _wait(state: State, step: BoundMove, bound: Bound) -> None:
    state.set("waited", step.wait_min, by=step.id)
    if step.manner == "asleep":
        state.set("asleep", True, by=step.id)
    since_stop = state.number("since stop")
    if step.manner == "cold" and since_stop is not None and since_stop + step.wait_min >= _SHORTEST_COOL_MIN:
        for role in bound.circuits:
            state.set(f"heat:{role}", "cold", by=step.id)


@effect("clean")
def _clean(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("rags", "about", by=step.id)
    for thing in step.things:
        if thing == "spills":
            state.set("spills", "wiped", by=step.id)
        else:
            state.set(f"clean:{thing}", True, by=step.id)


@effect("oil")
def _oil(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"oiled:{thing}", True, by=step.id)


@effect("inspect")
def _inspect(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        match thing:
            case "leaks":
                state.set("leaks", _leaks_now(state, bound), by=step.id)
            case "pedal":
                state.set("pedal", _pedal_now(state), by=step.id)
            case "intake" | "belt_noise":
                state.set(f"heard:{thing}", True if state.get("engine") == "running" else None, by=step.id)
            case "heater" | "top_hose":
                state.set(f"hot:{thing}", True if state.get("engine") == "running" else None, by=step.id)
            case "people":
                state.set("people", "clear", by=step.id)
            case "old_seal":
                state.set("old seal", "seen", by=step.id)
            case _:
                state.set(f"seen:{thing}", True, by=step.id)


def _leaks_now(state: State, bound: Bound) -> Known:
    """Return how often leaks have been looked for: "dry" once, "running" under way or with the engine on, "after" both."""
    before = state.get("leaks")
    if state.get("engine") == "running":
        return "running"
    driven = [bool(state.get(f"driven after fill:{role}")) for role in bound.circuits]
    if before in ("running", "after") or any(driven):
        return "after"
    return before if bound.of_sort("engine", "coolant") else "dry"


def _pedal_now(state: State) -> Known:
    """Return what is known of the brake pedal: "firm" once with the engine off and once with it running."""
    if not state.get("pedal pumped") or not state.get("pedal held"):
        return None
    if state.get("engine") != "running":
        return "firm, engine off"
    return "firm" if state.get("pedal") in ("firm, engine off", "firm") else None


def _mixed_and_cold(state: State, bound: Bound) -> bool:
    heats = [state.get(f"heat:{role}") for role in bound.of_sort("coolant")]
    return state.get("engine") == "off" and set(heats) <= {"cold"}


def _counts(state: State, bound: Bound, thing: str) -> bool:
    """Return whether something measured tells what it is measured for: a charge while it runs, what was poured once it was."""
    match thing:
        case "charging_voltage":
            return state.get("engine") == "running"
        case "poured":
            filled = [bool(state.get(f"filled:{role}")) for role in bound.circuits]
            return any(filled)
        case _:
            return True


@effect("measure")
def _measure(state: State, step: BoundMove, bound: Bound) -> None:
    if "dipstick" in step.things:
        state.set("rags", "about", by=step.id)
    for thing in step.things:
        if thing == "mixture":
            state.set("measured:mixture", True if _mixed_and_cold(state, bound) else None, by=step.id)
            continue
        role = bound.engine_oil if thing == "dipstick" else thing
        if role not in bound.circuits:
            state.set(f"measured:{thing}", True if _counts(state, bound, thing) else None, by=step.id)
            continue
        reading = reading_now(state, bound, role)
        state.set(f"reading:{role}", reading, by=step.id)
        state.set(f"last pour:{role}", None, by=step.id)
        if state.get(f"run after fill:{role}"):
            state.set(f"reading after run:{role}", reading, by=step.id)
        if reading == "good":
            state.set(f"shown:{role}", True, by=step.id)
        if state.get(f"filled:{role}"):
            state.set(f"read after fill:{role}", True, by=step.id)
        if not state.get(f"drained:{role}"):
            state.set(f"reading at start:{role}", reading, by=step.id)


@effect("record")
def _record(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("recorded", True, by=step.id)


@effect("reset")
def _reset(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("reminder", "reset", by=step.id)


@effect("say")
def _say(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"said:{thing}", True, by=step.id)


@effect("undecided")
def _undecided(_state: State, _step: BoundMove, _bound: Bound) -> None:
    """Do nothing: nobody has said yet what this sentence of a write-up does."""
