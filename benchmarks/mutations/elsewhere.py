"""A move made at another place of the job than the one where it belongs."""

from __future__ import annotations

from benchmarks.mutations.edits import Spot, between, moved
from benchmarks.mutations.mutant import Case, Mutant

__all__ = ["made_elsewhere"]


def made_elsewhere(case: Case, spot: Spot, *, after: str = "", before: str = "") -> Mutant:
    """Return the job with one move made only after, or already before, another step; mistaken where it was, is and passed."""
    procedure, name = moved(case.procedure, spot, after=after, before=before)
    where = f"only after {after}" if after else f"before {before}"
    of = "" if spot.move["id"] == spot.step else f" of {spot.step}"
    return Mutant(
        what=f"{spot.move['id']}{of} {where}",
        procedure=procedure,
        steps=between(case.procedure, spot, after or before) | {name},
        things=frozenset(spot.things),
        copies={} if name == spot.step else {name: spot.step},
    )
