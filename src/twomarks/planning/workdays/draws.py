"""Whole numbers drawn from a seed: the same on every machine and with every version of every package."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

__all__ = ["Draws"]

_ALL = (1 << 64) - 1
T = TypeVar("T")


class Draws:
    """A stream of numbers that follows from its seed (splitmix64, Steele, Lea and Flood 2014)."""

    def __init__(self, seed: int) -> None:
        self._state = seed & _ALL

    def below(self, end: int) -> int:
        """Return a whole number from 0 to `end` - 1."""
        self._state = (self._state + 0x9E3779B97F4A7C15) & _ALL
        mixed = self._state
        mixed = ((mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9) & _ALL
        mixed = ((mixed ^ (mixed >> 27)) * 0x94D049BB133111EB) & _ALL
        return ((mixed ^ (mixed >> 31)) * end) >> 64

    def between(self, low: float, high: float) -> float:
        """Return a number from `low` up to `high`."""
        return low + (high - low) * self.below(1 << 53) / (1 << 53)

    def one_of(self, choices: Sequence[T]) -> T:
        """Return one of `choices`, each with the same chance."""
        return choices[self.below(len(choices))]
