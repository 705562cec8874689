"""Which days to work on in the months to come, over all vehicles of the household."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks.errors import InputError
from twomarks.keeping.derived import derived
from twomarks.keeping.questions.due import outlook
from twomarks.keeping.questions.noticed import snags
from twomarks.keeping.questions.preparation import procedures
from twomarks.keeping.questions.vehicles import vehicles
from twomarks.keeping.records.documents import RevisionRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.planning.workdays import Effort, Standing, WorkdayPlan, plan_workdays
from twomarks.planning.workdays.problem import saturdays

if TYPE_CHECKING:
    from twomarks.planning.workdays.gathering import VehicleDue

__all__ = ["MOST_MONTHS", "HouseholdPlan", "workday_plan"]

MOST_MONTHS = 36
SEED = 0
EFFORT = Effort()


@dataclass(frozen=True, slots=True)
class HouseholdPlan:
    """The plan for all vehicles, and the items that it cannot hold because nobody knows when they are due: vehicle and name."""

    plan: WorkdayPlan
    not_known: tuple[tuple[str, str], ...]


@question
def workday_plan(
    scope: Scope,
    today: dt.date,
    *,
    months: int = 12,
    free: Sequence[dt.date] = (),
    watch: Callable[[Standing], bool] = lambda _standing: True,
) -> HouseholdPlan:
    """Return the proposed workdays of the next `months` on the `free` days, or on Saturdays where none is named.

    `watch` is told how far the work has come. A plan that is kept is returned at once while nothing it rests on has changed.
    """
    from twomarks.planning.calendar import after_months

    if not 1 <= months <= MOST_MONTHS:
        raise InputError("workdays.months", where="months", found=months, most=MOST_MONTHS)
    until = after_months(today, months)
    days = tuple(sorted(set(free))) or saturdays(today, until)

    def work_out() -> HouseholdPlan:
        from twomarks.planning.workdays.gathering import gathered

        found = gathered([_vehicle_due(scope, one.name, today) for one in vehicles(scope)], today=today, until=until, free=days)
        return HouseholdPlan(plan_workdays(found.problem, seed=SEED, effort=EFFORT, going_on=watch), found.not_known)

    documents = tuple(RevisionRow.objects.filter(household=scope.household).order_by("sha256").values_list("sha256", flat=True))
    further = (str(months), *(day.isoformat() for day in days), repr(EFFORT))
    return derived(scope, "workday plan", HouseholdPlan, work_out, documents=documents, today=today, further=further)


def _vehicle_due(scope: Scope, name: str, today: dt.date) -> VehicleDue:
    from twomarks.planning.workdays.gathering import UNDERTRAY, NotedSnag, VehicleDue

    seen = outlook(scope, name, today)
    known = procedures(scope)
    named = {key: item.procedure for key, item in seen.sheet.items.items() if item.procedure is not None}
    return VehicleDue(
        vehicle=name,
        due=seen.due,
        procedures={key: known[procedure] for key, procedure in named.items() if procedure in known},
        snags=tuple(NotedSnag(key=str(snag.root), what=snag.what, how_bad=snag.how_bad) for snag in snags(scope, name)),
        undertray=bool(seen.sheet.chassis.undertray) or UNDERTRAY in seen.sheet.fastenings,
    )
