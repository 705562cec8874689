"""The state of the modelled vehicle: every variable is a value or unknown, and remembers which step gave it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeAlias

__all__ = ["LONG_MIN", "START", "Known", "State"]

Known: TypeAlias = str | float | bool | None
"""A value, or None for what nobody has said."""

LONG_MIN = 9999.0
"""A clock that has run for longer than any wait of a job [min]."""

START: Mapping[str, Known] = {
    "support": "wheels",
    "engine": "off",
    "running time": 0.0,
    "since stop": LONG_MIN,
    "since pour": LONG_MIN,
    "key": "in the vehicle",
    "bonnet": "shut",
    "filler": "shut",
    "dipstick": "in",
    "undertray": "on",
    "tag": "off",
    "chocks": "away",
    "pan at": "away",
    "litres:pan": 0.0,
    "litres:can": 0.0,
    "poured": 0.0,
    "drained": False,
    "under": False,
    "rags": "away",
    "tools": "away",
    "spills": "none",
    "seat": "undisturbed",
    "old filter": "fitted",
    "old oil": "in the engine",
}
"""How a vehicle stands before the first step; what is missing here is unknown (ground, brake, gear, air, ...)."""


class State:
    """Three-valued variables with the step that last set each, and a record of which ones were looked at."""

    __slots__ = ("_looked_at", "_set_by", "_values")

    def __init__(self, values: Mapping[str, Known]) -> None:
        self._values: dict[str, Known] = dict(values)
        self._set_by: dict[str, str] = {}
        self._looked_at: set[str] = set()

    def get(self, name: str) -> Known:
        """Return the value of `name`, None when it is unknown, and note that it was looked at."""
        self._looked_at.add(name)
        return self._values.get(name)

    def number(self, name: str) -> float | None:
        """Return the number held under `name`, None when it is unknown."""
        value = self.get(name)
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None

    def set(self, name: str, value: Known, *, by: str) -> None:
        """Give `name` a value, on the account of step `by`."""
        self._values[name] = value
        self._set_by[name] = by

    def add(self, name: str, amount: float | None, *, by: str) -> None:
        """Add `amount` to the number under `name`; an unknown amount makes it unknown."""
        have = self._values.get(name)
        known = isinstance(have, int | float) and not isinstance(have, bool) and amount is not None
        self.set(name, float(have) + amount if known and have is not None and amount is not None else None, by=by)

    def names(self, prefix: str) -> Iterator[str]:
        """Yield the names of the variables that start with `prefix`."""
        return (name for name in tuple(self._values) if name.startswith(prefix))

    def givers(self) -> frozenset[str]:
        """Return the steps that gave what was looked at since the last call, and forget what was looked at."""
        steps = frozenset(self._set_by[name] for name in self._looked_at if name in self._set_by)
        self._looked_at.clear()
        return steps

    def giver(self, name: str) -> str:
        """Return the step that last set `name`, "" for the start."""
        return self._set_by.get(name, "")
