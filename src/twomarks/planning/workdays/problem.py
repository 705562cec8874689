"""What is to be planned: jobs with the spread of their limits, the set-ups they share, and the days that are free."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from twomarks.errors import InputError, NoSolutionError

__all__ = ["FIRST_SHARE", "MOST_OVER_SHARE", "DueCurve", "Job", "Problem", "SetUp", "saturdays"]

# Judgement, no source: what narrows the choice. A job is not done before 45 % of its life is used, and once 35 % of a life
# has been run over, it is done on the next free day.
FIRST_SHARE = 0.45
MOST_OVER_SHARE = 0.35
SATURDAY = 5


@dataclass(frozen=True, slots=True)
class DueCurve:
    """The chance that a limit has been passed, by days counted from a beginning: 10, 50 and 90 % at three days.

    Between the three, and beyond them up to 0 and 100 %, the chance follows a straight line.
    """

    earliest_days: int
    likely_days: int
    latest_days: int

    def points(self) -> tuple[tuple[float, float], ...]:
        """Return the corners of the curve: days and chance."""
        early = self.likely_days - self.earliest_days
        late = self.latest_days - self.likely_days
        return (
            (self.earliest_days - early / 4, 0.0),
            (self.earliest_days, 0.1),
            (self.likely_days, 0.5),
            (self.latest_days, 0.9),
            (self.latest_days + late / 4, 1.0),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """An effort that the jobs of one vehicle share on a day; `inside` is the set-up that it rests on, "" the workday itself."""

    key: str
    vehicle: str
    kind: str
    effort_min: float
    inside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """An item or a snag of one vehicle.

    `worth_min` is what doing it once takes, time and materials, in minutes of the owner; a part of it is thrown away
    when it is done before `life_days` are used. `over_min_per_day` is what a day past the limit weighs. `first` counts
    from today, `again` from the day on which it was done; None for what is done once. `done_by` admits no later day.
    """

    vehicle: str
    key: str
    name: str
    setup: str = ""
    worth_min: float
    life_days: float
    over_min_per_day: float
    first: DueCurve
    again: DueCurve | None = None
    done_by: dt.date | None = None
    snag: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Jobs and set-ups of a household, the free days from today to `until`, and the effort that every workday takes."""

    today: dt.date
    until: dt.date
    free: tuple[dt.date, ...]
    workday_min: float
    setups: tuple[SetUp, ...]
    jobs: tuple[Job, ...]

    def __post_init__(self) -> None:
        _check_days(self)
        _check_setups(self)
        for job in self.jobs:
            _check_job(job, self)

    @property
    def days(self) -> tuple[int, ...]:
        """The free days, counted from today."""
        return tuple((day - self.today).days for day in self.free)

    @property
    def horizon_days(self) -> int:
        """The days from today to the end of the plan."""
        return (self.until - self.today).days


def saturdays(first: dt.date, last: dt.date) -> tuple[dt.date, ...]:
    """Return every Saturday from `first` to `last`."""
    start = first + dt.timedelta(days=(SATURDAY - first.weekday()) % 7)
    return tuple(start + dt.timedelta(days=days) for days in range(0, (last - start).days + 1, 7))


def _check_days(problem: Problem) -> None:
    if not problem.free:
        nearest = saturdays(problem.today, problem.today + dt.timedelta(days=7))[0]
        raise NoSolutionError("workdays.no_free_day", until=problem.until, nearest=nearest)
    if list(problem.free) != sorted(set(problem.free)):
        raise InputError("workdays.days_in_order", where="free", found=problem.free)
    if problem.free[0] < problem.today or problem.free[-1] > problem.until:
        outside = problem.free[0] if problem.free[0] < problem.today else problem.free[-1]
        raise InputError("workdays.day_outside", where="free", found=outside, today=problem.today, until=problem.until)
    _check_figures("", {"workday_min": problem.workday_min})


def _check_setups(problem: Problem) -> None:
    seen: set[str] = {""}
    for setup in problem.setups:
        if setup.key in seen or setup.inside not in seen:
            raise InputError("workdays.setup_order", where="setups", found=setup.key, expected=setup.inside)
        seen.add(setup.key)
        _check_figures(setup.key, {"effort_min": setup.effort_min})
    for job in problem.jobs:
        if job.setup not in seen:
            raise InputError("workdays.setup_unknown", where=job.name, found=job.setup)


def _check_job(job: Job, problem: Problem) -> None:
    figures = {"worth_min": job.worth_min, "over_min_per_day": job.over_min_per_day, "life_days": job.life_days}
    _check_figures(job.name, figures)
    for curve in (job.first, job.again):
        if curve is not None and not curve.earliest_days <= curve.likely_days <= curve.latest_days:
            found = (curve.earliest_days, curve.likely_days, curve.latest_days)
            raise InputError("workdays.curve_order", where=job.name, found=found)
    if job.again is not None and (job.again.earliest_days < 1 or job.life_days <= 0):
        raise InputError("workdays.no_life", where=job.name, found=job.again.earliest_days)
    if job.done_by is not None and job.done_by <= problem.until and job.done_by < problem.free[0]:
        raise NoSolutionError(
            "workdays.too_late", job=job.name, vehicle=job.vehicle, done_by=job.done_by, first=problem.free[0], nearest=job.done_by
        )


def _check_figures(where: str, figures: dict[str, float]) -> None:
    for name, value in figures.items():
        if not 0.0 <= value < float("inf"):
            raise InputError("workdays.figure", where=where, quantity=name, found=value)
