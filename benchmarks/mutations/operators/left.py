"""What is left off, left in or left for later: caps, covers and trays; rags, tools and funnels; the look next morning."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchmarks.mutations.edits import without_moves, without_thing, worked_moves
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]

_CLOSING = ("close", "fit", "tighten", "connect")
_OPENING = ("open", "remove", "loosen", "disconnect", "drain")


def left_off(case: Case) -> Iterator[Mutant]:
    """A cap, plug, cover or tray that came off is never put back, or is put back and never tightened."""
    opened = dict.fromkeys(thing for spot in worked_moves(case, *_OPENING) for thing in spot.things)
    for thing in opened:
        back = [spot for spot in worked_moves(case, *_CLOSING) if thing in spot.things]
        if not back:
            continue
        for what, gone in (("left off", back), ("not done up", [spot for spot in back if spot.action == "tighten"])):
            if not gone or (what == "not done up" and len(gone) == len(back)):
                continue
            whole = [spot for spot in gone if len(spot.things) == 1]
            procedure = case.procedure
            for spot in gone:
                if spot not in whole:
                    procedure = without_thing(procedure, spot, thing)
            yield Mutant(
                what=f"{thing} {what}",
                procedure=without_moves(procedure, whole) if whole else procedure,
                steps=frozenset(spot.step for spot in gone),
                things=frozenset({thing}),
            )


def left_in(case: Case) -> Iterator[Mutant]:
    """A rag, a tool, a funnel or something else that was put somewhere is not taken away again."""
    for spot in worked_moves(case, "take_away"):
        for thing in spot.things:
            yield Mutant(
                what=f"{thing} not taken away at {spot.move['id']}",
                procedure=without_thing(case.procedure, spot, thing),
                steps=frozenset({spot.step}),
                things=frozenset({thing}),
            )


def not_followed_up(case: Case) -> Iterator[Mutant]:
    """A look that the job asks for later is not asked for, or not with the day or the distance it was to be made at."""
    follow_ups = list(case.procedure.get("follow_ups", ()))
    things = frozenset({"follow_up", "follow_ups", "daybook"})
    recorded = frozenset(spot.step for spot in worked_moves(case, "record"))
    here: dict[str, Any] = {"steps": recorded | {str(one["id"]) for one in follow_ups}, "things": things}
    if len(follow_ups) > 1:
        yield Mutant(what="no follow-up", procedure={**case.procedure, "follow_ups": []}, **here)
    for one in follow_ups:
        rest = [other for other in follow_ups if other is not one]
        yield Mutant(what=f"no {one['id']}", procedure={**case.procedure, "follow_ups": rest}, **here)
        limits = [name for name in ("after_distance", "after_time") if name in one]
        for name in limits if len(limits) > 1 else ():
            less = {field: value for field, value in one.items() if field != name}
            changed = [less if other is one else other for other in follow_ups]
            yield Mutant(what=f"{one['id']} without its {name}", procedure={**case.procedure, "follow_ups": changed}, **here)


OPERATORS: tuple[Operator, ...] = (left_off, left_in, not_followed_up)
