"""From due items and snags to jobs: what is known gets a curve, what is not known is listed, a procedure says what it needs."""

from __future__ import annotations

import datetime as dt

from twomarks.planning.due import Done, DueItem
from twomarks.planning.workdays import plan_workdays, saturdays
from twomarks.planning.workdays.gathering import NotedSnag, VehicleDue, gathered
from twomarks.procedures.library import library_procedure

TODAY = dt.date(2026, 11, 25)
UNTIL = dt.date(2027, 11, 25)
FREE = saturdays(TODAY, UNTIL)


def due(key: str, days: int, *, binds: str = "distance") -> DueItem:
    likely = TODAY + dt.timedelta(days=days)
    return DueItem(
        item=key,
        name=key,
        state="before the window",
        likely=likely,
        opens=likely - dt.timedelta(days=28),
        closes=likely + dt.timedelta(days=20),
        binds=binds,  # type: ignore[arg-type]
        last=Done(day=likely - dt.timedelta(days=365)),
    )


def test_an_item_that_nobody_knows_the_day_of_is_listed_and_not_planned() -> None:
    unknown = DueItem(item="coolant", name="coolant", state="not known")
    found = gathered([VehicleDue(vehicle="Alder", due=(unknown, due("oil", 90)))], today=TODAY, until=UNTIL, free=FREE)
    assert found.not_known == (("Alder", "coolant"),)
    assert [job.key for job in found.problem.jobs] == ["oil"]


def test_the_weeks_before_a_fixed_date_are_no_chance_of_being_late() -> None:
    found = gathered(
        [VehicleDue(vehicle="Alder", due=(due("by distance", 90), due("by time", 90, binds="time")))], today=TODAY, until=UNTIL, free=FREE
    )
    by_distance, by_time = found.problem.jobs
    assert by_distance.first.earliest_days == 62
    assert by_time.first.earliest_days == 90


def test_a_procedure_that_raises_the_vehicle_shares_the_raising_and_its_undertray() -> None:
    known = {"oil": library_procedure("engine-oil-spin-on")}
    bare = VehicleDue(vehicle="Alder", due=(due("oil", 90),), procedures=known)
    covered = VehicleDue(vehicle="Hazel", due=(due("oil", 90),), procedures=known, undertray=True)
    found = gathered([bare, covered], today=TODAY, until=UNTIL, free=FREE)
    assert [job.setup for job in found.problem.jobs] == ["Alder/raised", "Hazel/undertray"]


def test_a_snag_that_forbids_driving_stands_above_all_that_is_due() -> None:
    snag = NotedSnag(key="1", what="brake pipe wet", how_bad="do not drive")
    found = gathered([VehicleDue(vehicle="Alder", due=(due("oil", 90),), snags=(snag,))], today=TODAY, until=UNTIL, free=FREE)
    plan = plan_workdays(found.problem)
    assert plan.workdays[0].day == FREE[0]
    assert [job.name for job in plan.workdays[0].jobs if job.snag] == ["brake pipe wet"]
