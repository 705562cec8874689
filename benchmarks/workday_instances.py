"""Twenty households for the workdays bench, made from their seeds: all invented, none measured.

A vehicle draws fifteen jobs of a service book at random; lives, work and materials are of the size that such jobs have
(common practice, no source), scattered by how the vehicle is used. Of the 104 Saturdays of 24 months about half are free.
"""

from __future__ import annotations

import datetime as dt

from twomarks.planning.workdays.draws import Draws
from twomarks.planning.workdays.problem import DueCurve, Job, Problem, SetUp, saturdays

__all__ = ["INSTANCES", "MONTHS", "household", "one_vehicle"]

TODAY = dt.date(2026, 11, 25)
INSTANCES = 20
VEHICLES = 5
JOBS = 15
MONTHS = 24
DAYS = 732
FREE_IN_100 = 50
WORKDAY_MIN, RAISED_MIN, UNDERTRAY_MIN = 60.0, 25.0, 20.0
MIN_PER_MONEY = 3.0

NOTHING, RAISED, UNDERTRAY = "", "raised", "undertray"
BOOK = (
    # name, life [weeks], work [min], materials [money], what it needs, spread of the life [share]
    ("engine oil and filter", 52, 45, 55, UNDERTRAY, 0.12),
    ("tyres to the other axle", 26, 40, 0, RAISED, 0.15),
    ("cabin filter", 52, 10, 12, NOTHING, 0.0),
    ("air filter", 104, 15, 20, NOTHING, 0.12),
    ("brake fluid", 104, 60, 60, RAISED, 0.0),
    ("coolant", 208, 90, 40, UNDERTRAY, 0.0),
    ("brake pads looked at", 52, 30, 0, RAISED, 0.12),
    ("spark plugs", 156, 60, 50, NOTHING, 0.12),
    ("gearbox oil", 208, 50, 30, UNDERTRAY, 0.12),
    ("transfer case oil", 156, 45, 30, UNDERTRAY, 0.12),
    ("front axle oil", 104, 30, 35, RAISED, 0.12),
    ("rear axle oil", 104, 30, 35, RAISED, 0.12),
    ("fuel filter", 104, 40, 40, UNDERTRAY, 0.12),
    ("wiper blades", 40, 8, 25, NOTHING, 0.2),
    ("battery and poles", 26, 15, 0, NOTHING, 0.0),
    ("brake pads", 90, 60, 50, RAISED, 0.2),
    ("joints and boots looked at", 52, 20, 0, RAISED, 0.0),
    ("belt", 130, 60, 80, UNDERTRAY, 0.12),
    ("levels and pressures", 12, 10, 0, NOTHING, 0.0),
    ("cavities waxed", 104, 90, 70, RAISED, 0.0),
)


def household(seed: int, *, vehicles: int = VEHICLES, jobs: int = JOBS, days: int = DAYS, free_in_100: int = FREE_IN_100) -> Problem:
    """Return the invented household of a seed."""
    draws = Draws(seed)
    last = TODAY + dt.timedelta(days=days)
    free = tuple(day for day in saturdays(TODAY, last) if draws.below(100) < free_in_100)
    names = [f"vehicle {number + 1}" for number in range(vehicles)]
    setups = tuple(
        setup
        for name in names
        for setup in (
            SetUp(key=f"{name}/{RAISED}", vehicle=name, kind=RAISED, effort_min=RAISED_MIN),
            SetUp(key=f"{name}/{UNDERTRAY}", vehicle=name, kind=UNDERTRAY, effort_min=UNDERTRAY_MIN, inside=f"{name}/{RAISED}"),
        )
    )
    found = tuple(job for name in names for job in _jobs(name, jobs, draws))
    return Problem(today=TODAY, until=last, free=free, workday_min=WORKDAY_MIN, setups=setups, jobs=found)


def one_vehicle(problem: Problem, number: int) -> Problem:
    """Return the problem of one vehicle of the household alone."""
    name = f"vehicle {number + 1}"
    return Problem(
        today=problem.today,
        until=problem.until,
        free=problem.free,
        workday_min=problem.workday_min,
        setups=tuple(setup for setup in problem.setups if setup.vehicle == name),
        jobs=tuple(job for job in problem.jobs if job.vehicle == name),
    )


def _jobs(vehicle: str, count: int, draws: Draws) -> list[Job]:
    use = draws.between(0.7, 1.3)
    book = list(BOOK)
    return [_job(vehicle, book.pop(draws.below(len(book))), use, draws) for _ in range(count)]


def _job(vehicle: str, line: tuple[str, int, int, int, str, float], use: float, draws: Draws) -> Job:
    name, weeks, work, materials, needs, spread = line
    by_use = spread > 0.0
    life = round(7 * weeks * (use * draws.between(0.9, 1.1) if by_use else 1.0))
    worth = (work + MIN_PER_MONEY * materials) * draws.between(0.7, 1.4)
    left = round(life * draws.between(0.05, 1.0))
    # What is near is known better than what is far.
    half = 1.28 * spread * (left * life) ** 0.5
    again = 1.28 * spread * life
    return Job(
        vehicle=vehicle,
        key=name,
        name=name,
        setup=f"{vehicle}/{needs}" if needs else "",
        worth_min=worth,
        life_days=float(life),
        over_min_per_day=(1.5 * worth + 20.0) / (0.25 * life),
        first=DueCurve(left - round(0.8 * half), left, left + round(half)),
        again=DueCurve(life - round(0.8 * again), life, life + round(again)),
    )
