"""What a piece of work cost, and a workday: materials that were used, and the owner's own time at the owner's rate."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from twomarks.planning.cost.materials import Materials, materials_of
from twomarks.units import amount_of

if TYPE_CHECKING:
    from twomarks.model.ledger import Entry
    from twomarks.model.shelf import ShelfList

__all__ = ["CostedWork", "WorkdayCost", "costed", "workdays"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CostedWork:
    """One entry of a vehicle's daybook with what it cost; `time` is nothing where no time was noted, and then said."""

    day: dt.date
    vehicle: str
    title: str
    items: tuple[str, ...]
    materials: Materials
    minutes: int | None
    time: Decimal
    about: bool = False

    @property
    def total(self) -> Decimal | None:
        """Materials and time; None where no material has a price, for then the sum would be made up."""
        return None if self.materials.amount is None else self.materials.amount + self.time


@dataclass(frozen=True, slots=True)
class WorkdayCost:
    """The work of one day on all vehicles."""

    day: dt.date
    works: tuple[CostedWork, ...]

    @property
    def materials(self) -> Decimal:
        """What the materials with a price cost."""
        return sum((work.materials.amount for work in self.works if work.materials.amount is not None), Decimal(0))

    @property
    def time(self) -> Decimal:
        """What the owner's own time counts."""
        return sum((work.time for work in self.works), Decimal(0))

    @property
    def minutes(self) -> int:
        """The owner's own time, as far as it was noted [min]."""
        return sum(work.minutes or 0 for work in self.works)

    @property
    def complete(self) -> bool:
        """Whether everything that was used has a price."""
        return not any(work.materials.unpriced for work in self.works)

    @property
    def total(self) -> Decimal | None:
        """Materials and time, "at least" while it is not complete; None where no material of the day has a price."""
        if all(work.materials.amount is None for work in self.works):
            return None
        return self.materials + self.time


def costed(entry: Entry, shelf: ShelfList | None, *, vehicle: str, currency: str, rate: Decimal = Decimal(0)) -> CostedWork:
    """Return what an entry cost; `rate` is what an hour of the owner's own time counts."""
    return CostedWork(
        day=entry.day,
        vehicle=vehicle,
        title=entry.title or entry.note,
        items=entry.items,
        materials=materials_of(entry, shelf, currency=currency),
        minutes=entry.minutes,
        time=(rate * (entry.minutes or 0) / 60).quantize(amount_of(1, currency)),
        about=entry.day_from is not None,
    )


def workdays(works: Sequence[CostedWork]) -> tuple[WorkdayCost, ...]:
    """Return the work by day, the latest first; work on a day known only about stands for itself."""
    ordered = sorted(works, key=lambda work: (work.day, work.about, work.vehicle), reverse=True)
    days = []
    for (day, about), group in itertools.groupby(ordered, key=lambda work: (work.day, work.about)):
        members = list(group)
        days += [WorkdayCost(day, (one,)) for one in members] if about else [WorkdayCost(day, tuple(members[::-1]))]
    return tuple(days)
