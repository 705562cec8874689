"""Why a day is proposed, in sentences: what forces it, what goes along with it, and what it shares."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from twomarks.planning.workdays.problem import Job, Problem
from twomarks.words import Message, say

__all__ = ["PlannedJob", "Workday", "workday_said"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedJob:
    """A job on a day of the plan, and when it would probably be due [days from that day; negative: it is late]."""

    vehicle: str
    key: str
    name: str
    snag: bool = False
    due_in_days: int = 0

    @classmethod
    def of(cls, job: Job, *, due_in_days: int = 0) -> PlannedJob:
        """Return what a plan says of a job."""
        return cls(vehicle=job.vehicle, key=job.key, name=job.name, snag=job.snag, due_in_days=due_in_days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workday:
    """A proposed day: its jobs vehicle by vehicle, the set-ups they share as (vehicle, kind), and the reasons."""

    day: dt.date
    jobs: tuple[PlannedJob, ...]
    setups: tuple[tuple[str, str], ...]
    reasons: tuple[Message, ...]


def workday_said(problem: Problem, chains: Sequence[Collection[int]], place: int) -> Workday:
    """Return the workday on a free day, from the days of all jobs."""
    days = problem.days
    found: list[tuple[Job, PlannedJob]] = []
    for job, chain in zip(problem.jobs, chains, strict=True):
        if place in chain:
            before = max((at for at in chain if at < place), default=None)
            curve, start = (job.first, 0) if before is None else (job.again or job.first, days[before])
            found.append((job, PlannedJob.of(job, due_in_days=start + curve.likely_days - days[place])))
    found.sort(key=lambda pair: (not pair[0].snag, pair[0].vehicle, pair[0].setup, pair[1].due_in_days, pair[0].name))
    used = [setup for setup in problem.setups if any(setup.key in _needs(job, problem) for job, _ in found)]
    planned = tuple(said for _, said in found)
    return Workday(
        day=problem.free[place],
        jobs=planned,
        setups=tuple((setup.vehicle, setup.kind) for setup in used),
        reasons=(_forcing(planned, problem, place), *_shared(found, problem), *_along(planned)),
    )


def _needs(job: Job, problem: Problem) -> tuple[str, ...]:
    inside = {setup.key: setup.inside for setup in problem.setups}
    found, key = [], job.setup
    while key:
        found.append(key)
        key = inside[key]
    return tuple(found)


def _forcing(planned: Sequence[PlannedJob], problem: Problem, place: int) -> Message:
    """Return which job sets the day: the one that could least wait for the next free day."""
    snag = next((job for job in planned if job.snag), None)
    if snag is not None:
        return say("workdays.snag", job=snag.name, vehicle=snag.vehicle)
    first = min(planned, key=lambda job: (job.due_in_days, job.vehicle, job.name))
    day = problem.free[place] + dt.timedelta(days=first.due_in_days)
    if first.due_in_days < 0:
        return say("workdays.late", job=first.name, vehicle=first.vehicle, likely=day)
    following = problem.free[place + 1] if place + 1 < len(problem.free) else None
    if following is not None and following > day:
        return say("workdays.last_before", job=first.name, vehicle=first.vehicle, likely=day, following=following)
    return say("workdays.before", job=first.name, vehicle=first.vehicle, likely=day)


def _shared(found: Sequence[tuple[Job, PlannedJob]], problem: Problem) -> tuple[Message, ...]:
    """Return what two or more jobs share on that day: the deepest set-up that both need."""
    said = []
    for setup in reversed(problem.setups):
        names = tuple(job.name for job, _ in found if setup.key in _needs(job, problem))
        deeper = [other for other in problem.setups if other.inside == setup.key]
        same_below = any(names == tuple(job.name for job, _ in found if other.key in _needs(job, problem)) for other in deeper)
        if len(names) > 1 and not same_below:
            key = f"workdays.together_{setup.kind}" if setup.kind in ("raised", "undertray") else "workdays.together_other"
            said.append(say(key, jobs=names, vehicle=setup.vehicle))
    return tuple(reversed(said))


def _along(planned: Sequence[PlannedJob]) -> tuple[Message, ...]:
    """Return what is done well before its day because the day is worked on anyway."""
    early = tuple(job for job in planned if job.due_in_days > 30 and not job.snag)
    if not early or len(early) == len(planned):
        return ()
    return tuple(say("workdays.along", job=job.name, vehicle=job.vehicle, days=job.due_in_days) for job in early)
