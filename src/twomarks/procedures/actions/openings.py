"""Effects on what is opened and closed, undone and done up: caps, taps, fastenings, parts and what is joined."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__: list[str] = []


@effect("open")
def _open(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if bound.kinds.get(thing) == "tap":
            state.set(f"fastening:{thing}", "loose", by=step.id)
            state.set("leaks", None, by=step.id)
        else:
            state.set(thing, "open", by=step.id)


@effect("close")
def _close(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if bound.kinds.get(thing) == "tap":
            state.set(f"fastening:{thing}", "tight", by=step.id)
            state.set("leaks", None, by=step.id)
        else:
            state.set(thing, "in" if thing == "dipstick" else "shut", by=step.id)


@effect("disconnect")
def _disconnect(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"joined:{thing}", "as it was" if state.get(f"joined:{thing}") == "added" else "parted", by=step.id)
    state.set("leaks", None, by=step.id)


@effect("connect")
def _connect(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"joined:{thing}", "as it was" if state.get(f"joined:{thing}") == "parted" else "added", by=step.id)
    state.set("leaks", None, by=step.id)


@effect("loosen")
def _loosen(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        state.set(f"fastening:{thing}", "loose", by=step.id)
        if thing in bound.fills:
            state.set(f"free:{thing}", True, by=step.id)
    state.set("leaks", None, by=step.id)


@effect("remove")
def _remove(state: State, step: BoundMove, bound: Bound) -> None:
    for thing in step.things:
        if thing == "undertray":
            state.set("undertray", "off", by=step.id)
        elif bound.kinds.get(thing) == "slot":
            state.set(f"part:{thing}", "off", by=step.id)
            if thing in bound.filters:
                _take_filter_off(state, step, bound, thing)
        else:
            state.set(f"fastening:{thing}", "out", by=step.id)


def _take_filter_off(state: State, step: BoundMove, bound: Bound, filter_role: str) -> None:
    role = bound.circuit_of(filter_role)
    holds = bound.circuits[role].volumes.filter_l
    state.add(f"litres:{role}", -holds, by=step.id)
    state.add("litres:pan", holds, by=step.id)
    state.set("old filter", "off", by=step.id)
    state.set("old seal", None, by=step.id)
    state.set("clean:seat", None, by=step.id)
    state.set("spills", "possible", by=step.id)
    for joint in bound.joints:
        state.set(f"fastening:{joint}", "out", by=step.id)


@effect("fit")
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


@effect("tighten")
def _tighten(state: State, step: BoundMove, bound: Bound) -> None:
    to_figure = step.manner == "to figure" and bool(step.amount_path)
    if step.manner == "snug":
        for thing in step.things:
            state.set(f"snug:{thing}", state.get(f"fastening:{thing}") == "by hand", by=step.id)
    for thing in step.things:
        ready = ("by hand", "tight", "loose") if thing in bound.bleeds else ("by hand", "tight")
        started = state.get(f"fastening:{thing}") in ready
        state.set(f"fastening:{thing}", "tight" if to_figure and started else "by hand" if started else "loose", by=step.id)
    if not bound.serves(step.things, "wheel"):
        state.set("leaks", None, by=step.id)
