"""Workdays: what goes together, which day forces it, and what is said where no plan is possible."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from twomarks.errors import InputError, NoSolutionError
from twomarks.planning.workdays import DueCurve, Effort, Job, Problem, SetUp, plan_workdays, saturdays
from twomarks.planning.workdays import plan as planned
from twomarks.words import Reader, render

TODAY = dt.date(2026, 11, 25)
UNTIL = dt.date(2027, 11, 25)
RAISED = SetUp(key="Alder/raised", vehicle="Alder", kind="raised", effort_min=25.0)
UNDERTRAY = SetUp(key="Alder/undertray", vehicle="Alder", kind="undertray", effort_min=20.0, inside="Alder/raised")


def job(name: str, likely: int, *, setup: str = "", worth: float = 90.0, life: int = 365, **more: object) -> Job:
    given = {
        "vehicle": "Alder",
        "key": name,
        "name": name,
        "setup": setup,
        "worth_min": worth,
        "life_days": float(life),
        "over_min_per_day": worth / 60.0,
        "first": DueCurve(likely - 10, likely, likely + 10),
        "again": DueCurve(life - 10, life, life + 10),
    }
    return Job(**(given | more))  # type: ignore[arg-type]


def problem(*jobs: Job, free: tuple[dt.date, ...] | None = None) -> Problem:
    days = saturdays(TODAY, UNTIL) if free is None else free
    return Problem(today=TODAY, until=UNTIL, free=days, workday_min=60.0, setups=(RAISED, UNDERTRAY), jobs=jobs)


def test_two_jobs_that_need_it_raised_share_a_day_and_say_so() -> None:
    plan = plan_workdays(problem(job("oil", 100, setup="Alder/raised"), job("brake fluid", 120, setup="Alder/raised")))
    assert plan.proven
    assert [[one.name for one in day.jobs] for day in plan.workdays] == [["oil", "brake fluid"]]
    said = [render(reason, Reader()) for reason in plan.workdays[0].reasons]
    assert "oil, brake fluid on Alder together: they need it raised" in said


def test_jobs_far_apart_are_not_drawn_together() -> None:
    plan = plan_workdays(problem(job("oil", 30, worth=300.0), job("brake fluid", 300, worth=300.0)))
    assert [len(day.jobs) for day in plan.workdays] == [1, 1]


def test_what_is_shared_is_the_undertray_only_where_both_need_it_off() -> None:
    plan = plan_workdays(problem(job("oil", 100, setup="Alder/undertray"), job("brake fluid", 104, setup="Alder/raised")))
    assert plan.workdays[0].setups == (("Alder", "raised"), ("Alder", "undertray"))
    keys = [reason.key for reason in plan.workdays[0].reasons]
    assert "workdays.together_raised" in keys
    assert "workdays.together_undertray" not in keys


def test_a_snag_that_forbids_driving_takes_the_first_free_day() -> None:
    snag = job("brake pipe wet", 0, worth=0.0, life=1, over_min_per_day=240.0, first=DueCurve(0, 0, 0), again=None, snag=True)
    plan = plan_workdays(problem(snag, job("oil", 100)))
    assert plan.workdays[0].day == dt.date(2026, 11, 28)
    assert plan.workdays[0].reasons[0].key == "workdays.snag"
    assert sum(one.snag for day in plan.workdays for one in day.jobs) == 1


def test_a_job_with_a_last_day_is_done_by_it() -> None:
    must = job("yearly test", 200, done_by=TODAY + dt.timedelta(days=40))
    plan = plan_workdays(problem(must))
    assert plan.workdays[0].day <= TODAY + dt.timedelta(days=40)


def test_without_a_free_day_the_nearest_change_is_named() -> None:
    with pytest.raises(NoSolutionError) as caught:
        problem(job("oil", 100), free=())
    assert caught.value.key == "workdays.no_free_day"
    assert caught.value.values["nearest"] == dt.date(2026, 11, 28)


def test_a_last_day_before_the_first_free_day_is_refused_with_the_day_that_would_do() -> None:
    with pytest.raises(NoSolutionError) as caught:
        problem(job("yearly test", 20, done_by=TODAY + dt.timedelta(days=1)))
    assert caught.value.key == "workdays.too_late"
    assert caught.value.values["nearest"] == TODAY + dt.timedelta(days=1)


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"worth_min": float("nan")}, "workdays.figure"),
        ({"over_min_per_day": -1.0}, "workdays.figure"),
        ({"setup": "Alder/pit"}, "workdays.setup_unknown"),
        ({"first": DueCurve(10, 5, 20)}, "workdays.curve_order"),
        ({"again": DueCurve(0, 5, 20)}, "workdays.no_life"),
    ],
)
def test_impossible_input_is_refused_by_name(change: dict[str, object], key: str) -> None:
    with pytest.raises(InputError) as caught:
        problem(dataclasses.replace(job("oil", 100), **change))  # type: ignore[arg-type]
    assert caught.value.key == key


def test_days_out_of_order_and_outside_are_refused() -> None:
    with pytest.raises(InputError, match=r"workdays\.days_in_order"):
        problem(job("oil", 100), free=(UNTIL, TODAY))
    with pytest.raises(InputError, match=r"workdays\.day_outside"):
        problem(job("oil", 100), free=(TODAY - dt.timedelta(days=1),))


def test_a_set_up_before_the_one_it_rests_on_is_refused() -> None:
    with pytest.raises(InputError, match=r"workdays\.setup_order"):
        Problem(today=TODAY, until=UNTIL, free=(TODAY,), workday_min=60.0, setups=(UNDERTRAY, RAISED), jobs=())


def test_nothing_to_do_is_a_plan_without_days() -> None:
    plan = plan_workdays(problem())
    assert plan.workdays == ()
    assert plan.proven


def test_the_same_seed_gives_the_same_plan() -> None:
    jobs = [job(f"job {number}", 30 + 37 * number, life=120 + 31 * number) for number in range(6)]
    assert plan_workdays(problem(*jobs), seed=3) == plan_workdays(problem(*jobs), seed=3)


def test_without_the_solver_there_is_a_plan_and_an_honest_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    jobs = [job(f"job {number}", 30 + 37 * number, life=120 + 31 * number, setup="Alder/raised") for number in range(6)]
    proven = plan_workdays(problem(*jobs))
    monkeypatch.setattr(planned, "solver_is_there", lambda: False)
    searched = plan_workdays(problem(*jobs))
    assert searched.bound_min <= proven.cost_min + 1e-6
    assert searched.cost_min >= proven.bound_min - 1e-6
    assert searched.gap == pytest.approx((searched.cost_min - searched.bound_min) / searched.cost_min, abs=1e-9)


def test_the_work_may_be_ended_early_and_says_how_far_it_came() -> None:
    jobs = [job(f"job {number}", 30 + 37 * number, life=120) for number in range(6)]
    plan = plan_workdays(problem(*jobs), effort=Effort(), going_on=lambda _standing: False)
    assert plan.workdays
    assert not plan.proven
    assert plan.gap == pytest.approx(1.0)


def test_the_plan_is_no_dearer_than_the_simple_rules() -> None:
    jobs = [job(f"job {number}", 20 + 29 * number, life=100 + 45 * number, setup="Alder/raised") for number in range(6)]
    plan = plan_workdays(problem(*jobs))
    assert plan.cost_min <= plan.on_due_days_min
    assert plan.cost_min <= plan.window_rule_min
    assert len(plan.workdays) <= plan.on_due_days_count
