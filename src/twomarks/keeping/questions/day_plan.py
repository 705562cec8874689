"""The order of a day's work on the household's vehicles, worked out from what is due by then."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from twomarks.errors import InputError
from twomarks.keeping.questions.due import outlook
from twomarks.keeping.questions.places import place
from twomarks.keeping.questions.preparation import procedures
from twomarks.keeping.questions.vehicles import vehicles
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

if TYPE_CHECKING:
    from twomarks.planning.day.plan import DayJob, DayPlan

__all__ = ["DayAtHome", "day_plan_of"]

MOST_JOBS = 6


@dataclass(frozen=True, slots=True)
class DayAtHome:
    """The plan of a day, when the sun sets there [min after midnight], and the jobs by vehicle and name; `too_many` did not fit."""

    day: dt.date
    plan: DayPlan | None
    dusk_min: float | None
    jobs: tuple[tuple[str, str, str], ...]
    too_many: tuple[tuple[str, str], ...] = ()


@question
def day_plan_of(
    scope: Scope, day: dt.date, today: dt.date, *, names: Sequence[str] = (), items: Sequence[str] = (), pairs: int = 1
) -> DayAtHome:
    """Return the plan of `day` for what is due by then and has a procedure, on the vehicles called `names`, else on all.

    `items` names the service items instead.
    """
    from twomarks.planning.day.plan import day_plan
    from twomarks.planning.day.tasks import Hands

    wanted = tuple(names) or tuple(one.name for one in vehicles(scope))
    found: list[tuple[DayJob, str]] = []
    unknown = set(items)
    for name in wanted:
        mine = _jobs(scope, name, day, today, items)
        found += mine
        unknown -= {job.item for job, _ in mine}
    if unknown:
        raise InputError("day.unknown_item", where="--item", found=min(unknown))
    kept, rest = found[:MOST_JOBS], found[MOST_JOBS:]
    plan = day_plan([job for job, _ in kept], hands=Hands(pairs=pairs)) if kept else None
    return DayAtHome(
        day=day,
        plan=plan,
        dusk_min=_dusk_min(scope, day),
        jobs=tuple((job.vehicle, job.item, name) for job, name in kept),
        too_many=tuple((job.vehicle, name) for job, name in rest),
    )


def _jobs(scope: Scope, name: str, day: dt.date, today: dt.date, items: Sequence[str]) -> list[tuple[DayJob, str]]:
    from twomarks.planning.day.plan import DayJob
    from twomarks.procedures.binding import bind
    from twomarks.procedures.choices import choices_from
    from twomarks.procedures.facts import pour_plan

    seen = outlook(scope, name, today)
    known = procedures(scope)
    due = {one.item: one for one in seen.due}
    chosen = choices_from(seen.answers, seen.sheet)
    found = []
    for key, service in seen.sheet.items.items():
        by_then = due.get(key)
        if service.procedure is None or service.procedure not in known:
            continue
        if key not in items and (items or by_then is None or by_then.opens is None or by_then.opens > day):
            continue
        procedure = known[service.procedure]
        first = bind(procedure, seen.sheet, item=key, choices=chosen)
        circuit = first.roles.get(first.engine_oil, "") if first.engine_oil else ""
        pour = pour_plan(seen.sheet, circuit, with_filter=True) if circuit else None
        bound = bind(procedure, seen.sheet, item=key, choices=replace(chosen, pour=pour)) if pour else first
        found.append((DayJob(vehicle=name, item=key, bound=bound), by_then.name if by_then else service.name or key))
    return found


def _dusk_min(scope: Scope, day: dt.date) -> float | None:
    from twomarks.planning.daylight import daylight

    at = place(scope)
    if at is None:
        return None
    sun = daylight(day, latitude_deg=at.latitude, longitude_deg=at.longitude)
    offset = dt.datetime(day.year, day.month, day.day, 12, tzinfo=ZoneInfo(at.zone)).utcoffset()
    return None if sun is None or offset is None else sun[1] + offset.total_seconds() / 60.0
