"""What each action does to the state: one small function per action."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import START, State

__all__ = ["EFFECTS", "play", "reading_now", "start_state"]

Effect = Callable[[State, BoundMove, Bound], None]
EFFECTS: dict[str, Effect] = {}


def _effect(action: str) -> Callable[[Effect], Effect]:
    def register(function: Effect) -> Effect:
        EFFECTS[action] = function
        return function

    return register


def start_state(bound: Bound) -> State:
    """Return the state before the first step: everything fitted and tight, the circuits full where volumes are known."""
    state = State(START)
    for role, kind in bound.kinds.items():
        if kind == "fastening":
            state.set(f"fastening:{role}", "tight", by="")
        elif kind == "slot":
            state.set(f"part:{role}", "old", by="")
    state.set("litres:engine", bound.volumes.full_l, by="")
    return state


def play(state: State, step: BoundMove, bound: Bound) -> None:
    """Change `state` by what one move of a step does, and let its time pass."""
    state.set("under", step.place == "under", by=step.id)
    if step.place == "under" or step.wait_min or step.action in ("raise", "lower"):
        state.set("people", None, by=step.id)
    if not step.during:
        _pass_time(state, step, step.active_min)
    EFFECTS[step.action](state, step, bound)
    if step.tools:
        state.set("tools", "about", by=step.id)
    if not step.during:
        _pass_time(state, step, step.wait_min)


def _pass_time(state: State, step: BoundMove, minutes: float) -> None:
    for clock in ("since stop", "since pour"):
        state.pass_time(clock, minutes, by=step.id if step.action == "wait" else "")


@_effect("place")
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


@_effect("take_away")
def _take_away(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        match thing:
            case "key":
                state.set("key", "out of range" if "out of range" in step.at else "with the worker", by=step.id)
            case "tag":
                state.set("tag", "off", by=step.id)
            case "pan":
                state.set("pan at", "away", by=step.id)
            case "rags" | "tools" | "chocks":
                state.set(thing, "away", by=step.id)
            case _:
                state.set(f"taken:{thing}", True, by=step.id)


@_effect("gather")
def _gather(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("kit", "laid out", by=step.id)


@_effect("wear")
def _wear(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "on", by=step.id)


@_effect("secure")
def _secure(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "on" if thing == "brake" else "in", by=step.id)


@_effect("chock")
def _chock(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("chocks", "both sides" if "both sides" in step.at else "set", by=step.id)


@_effect("raise")
def _raise(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("support", "jack", by=step.id)
    state.set("shaken", None, by=step.id)
    state.set("reading", None, by=step.id)


@_effect("support")
def _support(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("support", "stands", by=step.id)
    state.set("shaken", None, by=step.id)


@_effect("shake")
def _shake(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("shaken", True, by=step.id)


@_effect("lower")
def _lower(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("support", "wheels", by=step.id)
    state.set("shaken", None, by=step.id)


@_effect("open")
def _open(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "open", by=step.id)


@_effect("close")
def _close(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(thing, "in" if thing == "dipstick" else "shut", by=step.id)


@_effect("loosen")
def _loosen(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"fastening:{thing}", "loose", by=step.id)
    state.set("leaks", None, by=step.id)


@_effect("remove")
def _remove(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if thing == "undertray":
            state.set("undertray", "off", by=step.id)
        elif bound.kinds.get(thing) == "slot":
            state.set(f"part:{thing}", "off", by=step.id)
            if thing in bound.filters:
                _take_filter_off(state, step, bound)
        else:
            state.set(f"fastening:{thing}", "out", by=step.id)


def _take_filter_off(state: State, step: BoundMove, bound: Bound) -> None:
    holds = bound.volumes.filter_l
    state.add("litres:engine", -holds, by=step.id)
    state.add("litres:pan", holds, by=step.id)
    state.set("old filter", "off", by=step.id)
    state.set("old seal", None, by=step.id)
    state.set("seat", None, by=step.id)
    state.set("spills", "possible", by=step.id)
    for joint in bound.joints:
        state.set(f"fastening:{joint}", "out", by=step.id)


@_effect("fit")
def _fit(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if thing == "undertray":
            state.set("undertray", "on", by=step.id)
        elif bound.kinds.get(thing) == "slot":
            was = state.get(f"part:{thing}")
            doubled = thing in bound.seals and was != "off"
            state.set(f"part:{thing}", "doubled" if doubled else "new" if step.new else "old", by=step.id)
            if thing in bound.filters and bound.filter_kind == "spin-on":
                for joint in bound.joints:
                    state.set(f"fastening:{joint}", "by hand", by=step.id)
        else:
            state.set(f"fastening:{thing}", "by hand", by=step.id)
    if "undertray" not in step.things:
        state.set("leaks", None, by=step.id)


@_effect("tighten")
def _tighten(state: State, step: BoundMove, _bound: Bound) -> None:
    to_figure = step.manner == "to figure" and bool(step.amount_path)
    for thing in step.things:
        started = state.get(f"fastening:{thing}") in ("by hand", "tight")
        state.set(f"fastening:{thing}", "tight" if to_figure and started else "by hand" if started else "loose", by=step.id)
    state.set("leaks", None, by=step.id)


@_effect("drain")
def _drain(state: State, step: BoundMove, bound: Bound) -> None:
    have = state.number("litres:engine")
    filter_there = all(state.get(f"part:{role}") != "off" for role in bound.filters)
    stays = bound.volumes.residue_l + (bound.volumes.filter_l if filter_there and bound.filters else 0.0)
    out = None if have is None else max(0.0, have - stays)
    state.add("litres:pan", out, by=step.id)
    state.set("litres:engine", None if have is None else min(have, stays), by=step.id)
    state.set("drained", True, by=step.id)
    state.set("oil shown", None, by=step.id)
    state.set("reading", None, by=step.id)
    state.set("old oil", "in the pan", by=step.id)
    state.set("spills", "possible", by=step.id)
    if step.through:
        state.set(f"fastening:{step.through}", "out", by=step.id)


@_effect("pour")
def _pour(state: State, step: BoundMove, bound: Bound) -> None:
    by_table = step.manner == "by table"
    litres = step.litres
    if by_table:
        state.set("litres:engine", bound.volumes.full_l, by=step.id)
    elif step.manner == "second pour" and litres is None:
        state.set("litres:engine", bound.volumes.full_l, by=step.id)
        state.set("filled", True, by=step.id)
    else:
        state.add("litres:engine", litres, by=step.id)
        state.add("poured", litres, by=step.id)
        state.set("filled", True, by=step.id)
    state.set("since pour", 0.0, by=step.id)
    state.set("reading", None, by=step.id)


@_effect("decant")
def _decant(state: State, step: BoundMove, _bound: Bound) -> None:
    state.add("litres:can", state.number("litres:pan"), by=step.id)
    state.set("litres:pan", 0.0, by=step.id)
    state.set("old oil", "in its can", by=step.id)


def _run(state: State, step: BoundMove) -> None:
    state.set("engine", "running", by=step.id)
    state.set("reading", None, by=step.id)
    state.set("gear", None, by=step.id)
    state.set("air_suspension", None, by=step.id)
    state.set("since stop", 0.0, by=step.id)


@_effect("warm")
def _warm(state: State, step: BoundMove, _bound: Bound) -> None:
    _run(state, step)
    state.set("oil heat", "warm" if step.manner == "warm" else "hot", by=step.id)


@_effect("run_engine")
def _run_engine(state: State, step: BoundMove, _bound: Bound) -> None:
    _run(state, step)
    state.set("lamp", "watched" if "lamp" in step.things else None, by=step.id)
    if state.get("drained"):
        state.set("run after fill", bool(state.get("filled")), by=step.id)


@_effect("stop_engine")
def _stop_engine(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("engine", "off", by=step.id)
    state.set("since stop", 0.0, by=step.id)


@_effect("wait")
def _wait(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("waited", step.wait_min, by=step.id)


@_effect("clean")
def _clean(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("rags", "about", by=step.id)
    for thing in step.things:
        if thing == "spills":
            state.set("spills", "wiped", by=step.id)
        else:
            state.set(thing, "clean", by=step.id)


@_effect("oil")
def _oil(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"oiled:{thing}", True, by=step.id)


@_effect("inspect")
def _inspect(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        match thing:
            case "leaks":
                running = state.get("engine") == "running"
                before = state.get("leaks")
                state.set("leaks", "running" if running else "after" if before == "running" else before, by=step.id)
            case "people":
                state.set("people", "clear", by=step.id)
            case "old_seal":
                state.set("old seal", "seen", by=step.id)
            case _:
                state.set(f"seen:{thing}", True, by=step.id)


@_effect("measure")
def _measure(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if thing != "dipstick":
            state.set(f"measured:{thing}", True, by=step.id)
            continue
        state.set("reading", reading_now(state, bound), by=step.id)
        if state.get("run after fill"):
            state.set("reading after run", state.get("reading"), by=step.id)
        if state.get("reading") == "good":
            state.set("oil shown", True, by=step.id)
        if not state.get("drained"):
            state.set("reading at start", state.get("reading"), by=step.id)


def reading_now(state: State, bound: Bound) -> str:
    if state.get("engine") == "running":
        return "running"
    if state.get("support") != "wheels" or state.get("ground") != "hard and level":
        return "tilted"
    since_stop, since_pour = state.number("since stop"), state.number("since pour")
    if since_stop is None or since_stop < bound.settle_min or since_pour is None or since_pour < bound.run_down_min:
        return "early"
    return "good"


@_effect("record")
def _record(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("recorded", True, by=step.id)


@_effect("reset")
def _reset(state: State, step: BoundMove, _bound: Bound) -> None:
    state.set("reminder", "reset", by=step.id)


@_effect("say")
def _say(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"said:{thing}", True, by=step.id)
