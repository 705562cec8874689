"""What goes wrong around a running engine: started too soon, stopped too late, read before the oil has run back."""

from __future__ import annotations

from collections.abc import Iterator

from benchmarks.mutations.edits import worked_moves
from benchmarks.mutations.elsewhere import made_elsewhere
from benchmarks.mutations.mutant import Case, Mutant, Operator

__all__ = ["OPERATORS"]


def started_too_soon(case: Case) -> Iterator[Mutant]:
    """The engine runs before something is filled, closed, tightened or taken away that it must wait for."""
    for spot in worked_moves(case, "run_engine"):
        before = [one for one in worked_moves(case, "pour", "close", "tighten", "take_away", "fit") if one.index < spot.index]
        for anchor in {one.step: one for one in before}.values():
            yield made_elsewhere(case, spot, before=anchor.step)


def stopped_too_late(case: Case) -> Iterator[Mutant]:
    """The engine is stopped only after a step that wants it off."""
    wants = ("loosen", "drain", "remove", "raise", "measure", "pour", "fit", "take_away", "inspect")
    for spot in worked_moves(case, "stop_engine"):
        after = [one for one in worked_moves(case, *wants) if one.index > spot.index]
        for anchor in list({one.step: one for one in after}.values())[:6]:
            yield made_elsewhere(case, spot, after=anchor.step)


def read_too_soon(case: Case) -> Iterator[Mutant]:
    """A level is read before a wait, a stop of the engine, a pour or the way down that it was to follow."""
    for spot in worked_moves(case, "measure"):
        if "pan" in spot.things:
            continue
        clocks = [one for one in worked_moves(case, "wait", "stop_engine", "pour", "lower", "run_engine") if one.index < spot.index]
        for anchor in list({one.step: one for one in clocks}.values())[-4:]:
            yield made_elsewhere(case, spot, before=anchor.step)


OPERATORS: tuple[Operator, ...] = (started_too_soon, stopped_too_late, read_too_soon)
