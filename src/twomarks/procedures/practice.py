"""Figures of common practice for waits and limits that a vehicle sheet may not hold; each is marked as practice."""

from __future__ import annotations

from twomarks.words import Figure, Source

__all__ = ["FILTER_HOLDS_L", "PRACTICE", "RESIDUE_L", "SPAN_L", "practice"]

_PRACTICE = Source("practice")
_FIRST_AID = Source("told", "guidelines")

PRACTICE: dict[str, Figure] = {
    "warm": Figure(8.0, "min", _PRACTICE),
    "drain": Figure(12.0, "min", _PRACTICE),
    "shortest_drain": Figure(10.0, "min", _PRACTICE),
    "run_down": Figure(5.0, "min", _PRACTICE),
    "shortest_run_down": Figure(3.0, "min", _PRACTICE),
    "settle": Figure(10.0, "min", _PRACTICE),
    "first_run": Figure(1.0, "min", _PRACTICE),
    "lamp_limit": Figure(10.0, "s", _PRACTICE),
    "drive": Figure(10.0, "min", _PRACTICE),
    "drip": Figure(3.0, "min", _PRACTICE),
    "cool": Figure(180.0, "min", _PRACTICE),
    "shortest_asleep": Figure(2.0, "min", _PRACTICE),
    "shortest_cool": Figure(60.0, "min", _PRACTICE),
    "shortest_to_thermostat": Figure(5.0, "min", _PRACTICE),
    "to_thermostat": Figure(15.0, "min", _PRACTICE),
    "strokes": Figure(5.0, "", _PRACTICE),
    "hold": Figure(10.0, "s", _PRACTICE),
    "rust_oil": Figure(15.0, "min", _PRACTICE),
    "cool_burn": Figure(20.0, "min", _FIRST_AID),
    "rinse_eye": Figure(15.0, "min", _FIRST_AID),
    "asleep": Figure(10.0, "min", _PRACTICE),
    "crank": Figure(10.0, "s", _PRACTICE),
    "crank_rest": Figure(60.0, "s", _PRACTICE),
}
"""Common practice, no source; a figure of the vehicle sheet always stands in its place."""

RESIDUE_L = 0.4
"""What stays in an engine after a drain [L]; common practice, 0.3 to 0.5."""
FILTER_HOLDS_L = 0.3
"""What a filter holds [L]; common practice, 0.1 to 0.5."""
SPAN_L = 1.0
"""Volume between the marks [L] where the sheet has none; common practice."""


def practice(name: str) -> Figure | None:
    """Return the figure of common practice called `name`, or None."""
    return PRACTICE.get(name)
