"""Effects on the circuits: every litre that leaves one store goes into another."""

from __future__ import annotations

from twomarks.procedures.actions.effect import effect
from twomarks.procedures.actions.touching import touch_brakes
from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__ = ["WHEELS"]

WHEELS = 4
"""Wheels over which the brake fluid that is renewed is spread, where a step does not say; a share for the books of litres."""


@effect("drain")
def _drain(state: State, step: BoundMove, bound: Bound) -> None:
    for role in bound.circuits_in(step.things):
        volumes, filters = bound.circuits[role].volumes, bound.circuits[role].filters
        have = state.number(f"litres:{role}")
        filter_there = all(state.get(f"part:{one}") != "off" for one in filters)
        stays = volumes.residue_l + (volumes.filter_l if filter_there and filters else 0.0)
        out = None if have is None else max(0.0, have - stays)
        _into_pan(state, step, bound, role, out)
        state.set(f"litres:{role}", None if have is None else min(have, stays), by=step.id)
        state.set(f"drained:{role}", True, by=step.id)
        state.set(f"filled:{role}", None, by=step.id)
        state.set(f"shown:{role}", None, by=step.id)
        state.set(f"last pour:{role}", None, by=step.id)
        state.set(f"read after fill:{role}", None, by=step.id)
        state.set(f"reading:{role}", None, by=step.id)
    state.set("spills", "possible", by=step.id)
    if step.through and bound.kinds.get(step.through) != "tap":
        state.set(f"fastening:{step.through}", "out", by=step.id)


def _into_pan(state: State, step: BoundMove, bound: Bound, role: str, litres: float | None) -> None:
    stream = bound.circuits[role].stream
    holds = state.get("pan holds")
    state.add("litres:pan", litres, by=step.id)
    if state.get("measured:pan"):
        state.set("measured:pan", None, by=step.id)
    state.set("pan holds", stream if holds in ("nothing", stream) else "mixed", by=step.id)
    state.set(f"old:{role}", "in the pan", by=step.id)


@effect("pour")
def _pour(state: State, step: BoundMove, bound: Bound) -> None:
    for role in bound.circuits_in(step.things):
        have, full = state.number(f"litres:{role}"), bound.circuits[role].volumes.full_l
        up_to_the_mark = step.manner in ("by table", "to level") or (step.manner == "second pour" and step.litres is None)
        if up_to_the_mark:
            added = None if have is None or full is None else max(0.0, full - have)
            state.set(f"litres:{role}", full if have is None or full is None else max(have, full), by=step.id)
        else:
            added = step.litres
            state.add(f"litres:{role}", added, by=step.id)
        state.add("poured", added, by=step.id)
        if step.manner != "by table":
            state.set(f"filled:{role}", True, by=step.id)
        if bound.circuits[role].sort in ("coolant", "brake"):
            state.set("spills", "possible", by=step.id)
        state.set("measured:poured", None, by=step.id)
        state.set(f"since pour:{role}", 0.0, by=step.id)
        state.set(f"last pour:{role}", f"{step.manner} {step.amount_path}", by=step.id)
        state.set(f"reading:{role}", None, by=step.id)
    if "funnel" in step.tools:
        state.set("funnel", "about", by=step.id)


@effect("decant")
def _decant(state: State, step: BoundMove, bound: Bound) -> None:
    state.add("litres:can", state.number("litres:pan"), by=step.id)
    state.set("litres:pan", 0.0, by=step.id)
    state.set("pan holds", "nothing", by=step.id)
    state.set("placed:cover", False, by=step.id)
    for role in bound.circuits:
        if state.get(f"old:{role}") == "in the pan":
            state.set(f"old:{role}", "in its can", by=step.id)


@effect("bleed")
def _bleed(state: State, step: BoundMove, bound: Bound) -> None:
    screw = step.through
    if step.each or screw:
        state.set(f"bled:{step.each or screw}", True, by=step.id)
    for role in bound.circuits_in(step.things) or ((bound.circuit_of(screw),) if bound.circuit_of(screw) else ()):
        if bound.circuits[role].sort != "brake":
            continue
        have, full = state.number(f"litres:{role}"), bound.circuits[role].volumes.full_l
        out = None if have is None or full is None else min(have, full / WHEELS)
        _into_pan(state, step, bound, role, out)
        state.add(f"litres:{role}", None if out is None else -out, by=step.id)
        state.set(f"drained:{role}", True, by=step.id)
        state.set(f"filled:{role}", None, by=step.id)
        state.set(f"last pour:{role}", None, by=step.id)
        state.set(f"reading:{role}", None, by=step.id)
        touch_brakes(state, by=step.id)
    state.set("spills", "possible", by=step.id)


@effect("prime")
def _prime(state: State, step: BoundMove, _bound: Bound) -> None:
    for thing in step.things:
        state.set(f"primed:{thing}", True, by=step.id)
