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
    "since stop": LONG_MIN,
    "key": "in the vehicle",
    "bonnet": "shut",
    "filler": "shut",
    "dipstick": "in",
    "undertray": "on",
    "tag": "off",
    "chocks": "away",
    "coolant_tank": "shut",
    "brake_fluid_tank": "shut",
    "attitude": "level",
    "pan at": "away",
    "pan holds": "nothing",
    "litres:pan": 0.0,
    "litres:can": 0.0,
    "poured": 0.0,
    "under": False,
    "rags": "away",
    "tools": "away",
    "funnel": "away",
    "spills": "none",
    "old filter": "fitted",
    "service_mode": "out",
}
"""How a vehicle stands before the first step; what is missing here is unknown (ground, brake, gear, air suspension, air, ...)."""


_FLEETING = frozenset({"under"})
"""Variables that every step sets anew; no step owes another anything through them."""


class State:
    """Three-valued variables that know which step last changed each, and which steps have looked at it since.

    From these follows what the step at work owes to earlier ones: what it looked at must have been given before, and
    what it changes must have been looked at before.
    """

    __slots__ = ("_changed_by", "_lookers", "_owes", "_set_by", "_step", "_values")

    def __init__(self, values: Mapping[str, Known]) -> None:
        self._values: dict[str, Known] = dict(values)
        self._set_by: dict[str, str] = {}
        self._changed_by: dict[str, set[str]] = {}
        self._lookers: dict[str, set[str]] = {}
        self._owes: set[str] = set()
        self._step = ""

    def begin(self, step: str) -> None:
        """Begin the step called `step`."""
        self._step = step
        self._owes = set()

    @property
    def owes(self) -> frozenset[str]:
        """The steps that had to come before the step at work."""
        return frozenset(self._owes - {self._step, ""})

    def get(self, name: str) -> Known:
        """Return the value of `name`, None when it is unknown."""
        if name not in _FLEETING:
            self._owes |= self._changed_by.get(name, set())
            self._lookers.setdefault(name, set()).add(self._step)
        return self._values.get(name)

    def peek(self, name: str) -> Known:
        """Return the value of `name` for somebody who only tells of it; no step owes anything by that."""
        return self._values.get(name)

    def number(self, name: str) -> float | None:
        """Return the number held under `name`, None when it is unknown."""
        value = self.get(name)
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None

    def set(self, name: str, value: Known, *, by: str) -> None:
        """Give `name` a value, on the account of step `by`; by the same value again nothing is owed."""
        changes = name not in self._changed_by or self._values.get(name) != value
        if changes and name not in _FLEETING:
            self._owes |= self._lookers.pop(name, set()) | self._changed_by.get(name, set())
            self._changed_by[name] = {by}
        elif value is None:
            self._changed_by.setdefault(name, set()).add(by)
        self._values[name] = value
        self._set_by[name] = by

    def pass_time(self, clock: str, minutes: float, *, by: str = "") -> None:
        """Let a clock run on [min]; only a wait (`by`) is something that a later step can owe to."""
        have = self._values.get(clock)
        if not isinstance(have, int | float) or have >= LONG_MIN:
            return
        self._values[clock] = have + minutes
        if by:
            self._owes |= self._changed_by.get(clock, set())
            self._changed_by[clock] = {by}
            self._set_by[clock] = by

    def add(self, name: str, amount: float | None, *, by: str) -> None:
        """Add `amount` to the number under `name`; an unknown amount makes it unknown."""
        have = self.number(name)
        self.set(name, None if have is None or amount is None else have + amount, by=by)

    def names(self, prefix: str) -> Iterator[str]:
        """Yield the names of the variables that start with `prefix`."""
        return (name for name in tuple(self._values) if name.startswith(prefix))

    def giver(self, name: str) -> str:
        """Return the step that last set `name`, "" for the start."""
        return self._set_by.get(name, "")
