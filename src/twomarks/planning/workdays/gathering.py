"""From what is due on the vehicles to the jobs that are planned: their chance curves, what they need, what they weigh.

The weights are judgement, no source. They order what is worth doing together; no plan depends on them to the minute.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from twomarks.planning.workdays.problem import DueCurve, Job, Problem, SetUp

if TYPE_CHECKING:
    from twomarks.model.procedure import Procedure
    from twomarks.planning.due import DueItem

__all__ = ["UNDERTRAY", "Gathered", "NotedSnag", "VehicleDue", "gathered"]

WORKDAY_MIN, RAISED_MIN, UNDERTRAY_MIN = 60.0, 25.0, 20.0
WITH_PROCEDURE_MIN, OTHER_MIN = 150.0, 60.0
"""What a job takes, time and materials: one with a procedure of its own (fluids, parts), and any other."""
OVER_SHARE, OVER_MIN = 1.5, 20.0
"""A quarter of a life past the limit weighs one and a half times the job, and twenty minutes."""
SNAG_MIN_PER_DAY = {"do not drive": 240.0, "next workday": 8.0, "watch": 0.1}
SPREAD_SHARE = 0.12
RAISED, UNDERTRAY = "raised", "undertray"
FIXED = ("time", "date", "event", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class NotedSnag:
    """A snag that is still open: its key, what was noticed, and how bad it is."""

    key: str
    what: str
    how_bad: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleDue:
    """What is due on one vehicle, the procedures of its items by item, its open snags, and whether it has an undertray."""

    vehicle: str
    due: tuple[DueItem, ...]
    procedures: Mapping[str, Procedure] = field(default_factory=lambda: MappingProxyType({}))
    snags: tuple[NotedSnag, ...] = ()
    undertray: bool = False


@dataclass(frozen=True, slots=True)
class Gathered:
    """A problem, and the items that cannot be planned because nobody knows when they are due: vehicle and name."""

    problem: Problem
    not_known: tuple[tuple[str, str], ...]


def gathered(vehicles: Sequence[VehicleDue], *, today: dt.date, until: dt.date, free: tuple[dt.date, ...]) -> Gathered:
    """Return the problem that the due items and snags of all vehicles make together."""
    setups: list[SetUp] = []
    jobs: list[Job] = []
    not_known: list[tuple[str, str]] = []
    for seen in vehicles:
        setups += _setups(seen)
        for item in seen.due:
            job = _job(item, seen, today)
            if job is None:
                if item.state == "not known":
                    not_known.append((seen.vehicle, item.name))
            else:
                jobs.append(job)
        jobs += [_snag_job(snag, seen.vehicle) for snag in seen.snags]
    problem = Problem(today=today, until=until, free=free, workday_min=WORKDAY_MIN, setups=tuple(setups), jobs=tuple(jobs))
    return Gathered(problem, tuple(not_known))


def _setups(seen: VehicleDue) -> list[SetUp]:
    raised = SetUp(key=f"{seen.vehicle}/{RAISED}", vehicle=seen.vehicle, kind=RAISED, effort_min=RAISED_MIN)
    off = SetUp(
        key=f"{seen.vehicle}/{UNDERTRAY}",
        vehicle=seen.vehicle,
        kind=UNDERTRAY,
        effort_min=UNDERTRAY_MIN,
        inside=raised.key,
    )
    return [raised, off] if seen.undertray else [raised]


def _job(item: DueItem, seen: VehicleDue, today: dt.date) -> Job | None:
    if item.likely is None:
        return None
    likely = (item.likely - today).days
    # The weeks before a fixed date are the owner's margin, no chance of being late.
    early = 0 if item.binds in FIXED or item.opens is None else max(0, (item.likely - item.opens).days)
    late = 0 if item.closes is None else max(0, (item.closes - item.likely).days)
    life = (item.likely - item.last.day).days if item.last is not None and item.binds != "event" else 0
    procedure = seen.procedures.get(item.item)
    worth = OTHER_MIN if procedure is None else WITH_PROCEDURE_MIN
    spread = 0 if item.binds in FIXED else round(SPREAD_SHARE * life)
    return Job(
        vehicle=seen.vehicle,
        key=item.item,
        name=item.name,
        setup=_setup(seen, procedure),
        worth_min=worth,
        life_days=float(max(life, 1)),
        over_min_per_day=(OVER_SHARE * worth + OVER_MIN) / max(0.25 * life, 14.0),
        first=DueCurve(likely - early, likely, likely + late),
        again=DueCurve(life - spread, life, life + spread) if life > 1 else None,
    )


def _setup(seen: VehicleDue, procedure: Procedure | None) -> str:
    """Return what a job needs of its vehicle, by the steps of its procedure that are not bound to a condition nobody has met."""
    if procedure is None:
        return ""
    moves = [move for step in procedure.steps for move in (*step.first, step, *step.then)]
    if seen.undertray and any(move.action == "remove" and UNDERTRAY in move.acted_on for move in moves):
        return f"{seen.vehicle}/{UNDERTRAY}"
    return f"{seen.vehicle}/{RAISED}" if any(move.action in ("raise", "support") for move in moves) else ""


def _snag_job(snag: NotedSnag, vehicle: str) -> Job:
    return Job(
        vehicle=vehicle,
        key=snag.key,
        name=snag.what,
        worth_min=0.0,
        life_days=1.0,
        over_min_per_day=SNAG_MIN_PER_DAY[snag.how_bad],
        first=DueCurve(0, 0, 0),
        snag=True,
    )
