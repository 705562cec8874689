"""One limit that a viscosity grade sets, and what fails it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from twomarks.words import Figure, Message, say

__all__ = ["Bound", "Limit", "LimitMiss", "Measure", "misses"]

Bound = Literal["at least", "at most", "below"]
Measure = Literal["kv100", "hths", "ccs", "mrv", "bf150"]
"""What is measured: at 100 C, at high shear, cranking, pumping, and the temperature for 150 000 mPa.s."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit of a grade: what is measured, on which side of which figure it has to lie, its unit, and at which temperature."""

    grade: str
    quantity: Measure
    bound: Bound
    figure: float
    unit: str
    temp_c: float | None = None

    @property
    def said(self) -> Message:
        """The limit in words."""
        return say(
            "grade.limit",
            quantity=say(f"grade.quantity_{self.quantity}"),
            at=None if self.temp_c is None else Figure(self.temp_c, "C"),
            bound=say(f"grade.{self.bound.replace(' ', '_')}"),
            limit=Figure(self.figure, self.unit),
        )


@dataclass(frozen=True, slots=True)
class LimitMiss:
    """A limit that a measured figure fails: the grade, what was measured, the figure, the limit, and the unit."""

    grade: str
    quantity: Measure
    found: float
    limit: float
    unit: str
    bound: Bound
    temp_c: float | None = None

    @property
    def said(self) -> Message:
        """The miss in words."""
        return say(
            "grade.miss",
            grade=self.grade,
            quantity=say(f"grade.quantity_{self.quantity}"),
            at=None if self.temp_c is None else Figure(self.temp_c, "C"),
            found=Figure(self.found, self.unit),
            bound=say(f"grade.{self.bound.replace(' ', '_')}"),
            limit=Figure(self.limit, self.unit),
        )


def misses(limits: Iterable[Limit], measured: Mapping[tuple[Measure, float | None], float]) -> tuple[LimitMiss, ...]:
    """Return which of some limits measured figures fail.

    Parameters
    ----------
    limits : iterable of Limit
        The limits, of one grade or of several.
    measured : mapping of (quantity, temperature in C or None) to float
        The figures [unit of the limit]; positive, checked by the callers.

    Returns
    -------
    tuple of LimitMiss
        Every limit failed, in the order of `limits`; what was not measured fails none.

    Raises
    ------
    TypeError
        Never for numbers; what they may be is seen to by the callers.

    Notes
    -----
    A limit "below" does not belong to its range, the others do. Departs from the source: none.

    References
    ----------
    sae_j300, sae_j306
    """
    failed = []
    for limit in limits:
        found = measured.get((limit.quantity, limit.temp_c))
        if found is not None and not _keeps(found, limit):
            failed.append(LimitMiss(limit.grade, limit.quantity, found, limit.figure, limit.unit, limit.bound, limit.temp_c))
    return tuple(failed)


def _keeps(found: float, limit: Limit) -> bool:
    match limit.bound:
        case "at least":
            return found >= limit.figure
        case "at most":
            return found <= limit.figure
        case "below":
            return found < limit.figure
