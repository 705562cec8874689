"""Effects on what the vehicle stands on and is held by, and on what is put about it or worn."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__: list[str] = []


@effect("place")
def _place(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        match thing:
            case "vehicle":
                state.set("ground", "hard and level" if {"level", "hard"} <= set(step.at) else None, by=step.id)
                state.set("air", "outdoors" if "outdoors" in step.at else None, by=step.id)
            case "pan":
                state.set("pan at", step.at[0] if step.at else None, by=step.id)
            case "key":
                state.set("key", "in the vehicle", by=step.id)
            case "tag":
                state.set("tag", "on", by=step.id)
            case "old_filter":
                state.set("old filter", "put to drain", by=step.id)
            case _:
                state.set(f"placed:{thing}", True, by=step.id)


@effect("take_away")
def _take_away(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        match thing:
            case "key":
                state.set("key", "out of range" if "out of range" in step.at else "with the worker", by=step.id)
            case "tag":
                state.set("tag", "off", by=step.id)
            case "pan":
                state.set("pan at", "away", by=step.id)
            case "rags" | "tools" | "funnel" | "chocks":
                state.set(thing, "away", by=step.id)
            case _:
                state.set(f"placed:{thing}", False, by=step.id)


@effect("gather")
def _gather(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("kit", "laid out", by=step.id)


@effect("wear")
def _wear(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "on", by=step.id)


@effect("secure")
def _secure(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "on" if thing == "brake" else "in", by=step.id)
        if thing == "service_mode":
            state.set("brake", "off", by=step.id)


@effect("release")
def _release(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "off" if thing == "brake" else "out", by=step.id)


@effect("chock")
def _chock(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("chocks", "both sides" if "both sides" in step.at else "set", by=step.id)


@effect("raise")
def _raise(state: State, step: BoundMove, bound: Bound) -> None:
    state.set("support", "jack", by=step.id)
    state.set("attitude", "level" if "four points" in step.at else "tilted", by=step.id)
    state.set("raised end", next((spot for spot in ("front end", "rear end", "four points") if spot in step.at), None), by=step.id)
    state.set("shaken", None, by=step.id)
    for role in bound.of_sort("engine", "coolant"):
        state.set(f"reading:{role}", None, by=step.id)


@effect("support")
def _support(state: State, step: BoundMove, bound: Bound) -> None:
    if set(step.things) & bound.kinds.keys():
        state.set("placed:caliper_hook", True, by=step.id)
        return
    state.set("support", "stands", by=step.id)
    state.set("shaken", None, by=step.id)


@effect("shake")
def _shake(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("shaken", True, by=step.id)


@effect("lower")
def _lower(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("support", "wheels", by=step.id)
    state.set("attitude", "level", by=step.id)
    state.set("shaken", None, by=step.id)
