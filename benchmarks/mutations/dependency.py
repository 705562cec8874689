"""Which step rests on which, read from a procedure's words alone: the things they act on and what each kind of work asks for first."""

from __future__ import annotations

from benchmarks.mutations.edits import Row, acted_on, moves_of, place_of
from benchmarks.mutations.mutant import Document

__all__ = ["LOOKS", "asks_for", "dependent", "shares_nothing"]

LOOKS = frozenset({"inspect", "measure", "record", "say", "reset"})
"""Actions that change nothing on the vehicle."""

_STANDING = frozenset({"vehicle", "stands", "jack", "chocks", "brake", "gear", "range_lever", "air_suspension", "people"})
_RUNNING = frozenset(
    {
        "key",
        "tag",
        "people",
        "filler",
        "dipstick",
        "rags",
        "tools",
        "funnel",
        "spills",
        "leaks",
        "lamp",
        "engine",
        "heater",
        "hoses",
        "mixture",
    }
)
_POURING = frozenset(
    {"filler", "filler_area", "funnel", "container", "container_seal", "dipstick", "oil_class", "limited_slip", "mixture", "paint_cover"}
)
_ASKS: dict[str, frozenset[str]] = {
    "raise": _STANDING,
    "support": _STANDING,
    "shake": _STANDING,
    "lower": _STANDING,
    "warm": _RUNNING,
    "run_engine": _RUNNING,
    "stop_engine": frozenset({"key", "gear", "lamp", "leaks", "engine"}),
    "loosen": frozenset({"pan", "gloves", "glasses", "kit", "waste_can", "housing"}),
    "drain": frozenset({"pan", "tag", "gloves", "glasses", "kit", "waste_can", "breather"}),
    "pour": _POURING,
    "bleed": _POURING | {"jar", "bleed_hose", "bleed_order", "pedal", "gloves", "glasses", "kit"},
    "drive": frozenset({"pedal", "leaks", "chocks", "people", "key"}),
    "open": frozenset({"filler_area"}),
    "close": frozenset({"rags", "tools", "funnel"}),
    "decant": frozenset({"pan", "waste_can"}),
}
_UNDER = frozenset({"stands", "vehicle", "key", "helper", "gloves", "glasses"})
_UNDOES = frozenset({"loosen", "drain", "remove"})
_JOINT = frozenset({"seat", "housing", "old_seal", "old_filter", "new_filter"})
_CLOCKS = frozenset({"wait", "run_engine", "warm", "stop_engine", "drain", "pour"})


def asks_for(document: Document, step: Row) -> frozenset[str]:
    """Return the things that must be as they should before a step is worked, beside those that it acts on."""
    asked: set[str] = set()
    for move in moves_of(step):
        action, under = str(move["action"]), place_of(step, move) == "under"
        asked |= _ASKS.get(action, frozenset())
        if action == "fit":
            asked |= _asked_by_fitting(document, acted_on(move))
        if under:
            asked |= _UNDER | ({"undertray"} if action in _UNDOES and "undertray" not in acted_on(move) else set())
    return frozenset(asked)


def _asked_by_fitting(document: Document, things: tuple[str, ...]) -> frozenset[str]:
    """Return what a part wants clean, seen or away before it goes in: a filter its seat, a plug the face around its hole."""
    roles = document.get("roles", {})
    asked: set[str] = set()
    for thing in things:
        role = roles.get(thing, {})
        owner = roles.get(role.get("of"), {}).get("kind")
        if role.get("kind") == "fastening" and owner == "circuit":
            asked.add("drain_area")
        elif role.get("kind") == "slot" and owner == "circuit":
            asked |= _JOINT
    return frozenset(asked)


def _things(step: Row) -> frozenset[str]:
    return frozenset(thing for move in moves_of(step) for thing in acted_on(move))


def _kin(document: Document, first: str, second: str) -> bool:
    """Return whether two things are the same, or one belongs to the other: a plug to its circuit, a seal to its plug."""
    roles = document.get("roles", {})
    return first == second or roles.get(first, {}).get("of") == second or roles.get(second, {}).get("of") == first


def _only_looks(step: Row) -> bool:
    return all(move["action"] in LOOKS for move in moves_of(step))


def _on_the_clock(step: Row) -> bool:
    return any(move.get("wait") or move["action"] in _CLOCKS for move in moves_of(step))


def _reads(step: Row) -> bool:
    """Return whether a step takes a reading that a clock can spoil."""
    return any(move["action"] == "measure" and "pan" not in acted_on(move) for move in moves_of(step))


def dependent(document: Document, first: Row, second: Row) -> bool:
    """Return whether `second` rests on `first`: they act on the same thing or its part, or one asks for what the other gives."""
    if _only_looks(first) and _only_looks(second):
        return False
    ours, theirs = _things(first), _things(second)
    if any(_kin(document, one, other) for one in ours for other in theirs):
        return True
    if (_on_the_clock(first) and _reads(second)) or (_on_the_clock(second) and _reads(first)):
        return True
    return bool(asks_for(document, second) & ours) or bool(asks_for(document, first) & theirs)


def shares_nothing(document: Document, first: Row, second: Row) -> bool:
    """Return whether two steps have no thing, place, clock or wait in common, so that their order cannot matter."""
    if dependent(document, first, second) or (_on_the_clock(first) and _on_the_clock(second)):
        return False
    if any(_kin(document, one, other) for one in _things(first) for other in _things(second)):
        return False
    places = [{place_of(step, move) for move in moves_of(step)} - {""} for step in (first, second)]
    tied = {first.get("during"), second.get("during")} & {first["id"], second["id"]}
    return not (places[0] & places[1]) and not tied
