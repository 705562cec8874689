"""The register of effects: an action's name and the function that changes the state by it."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.state import State

__all__ = ["EFFECTS", "Effect", "effect"]

Effect = Callable[[State, BoundMove, Bound], None]
EFFECTS: dict[str, Effect] = {}


def effect(action: str) -> Callable[[Effect], Effect]:
    """Register a function as what `action` does."""

    def register(function: Effect) -> Effect:
        EFFECTS[action] = function
        return function

    return register
