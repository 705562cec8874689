"""The answer of `day`: the order of a day's work, as bars in two lanes, and how good it is."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part
from twomarks.words import Reader, render

if TYPE_CHECKING:
    from twomarks.keeping.questions.day_plan import DayAtHome

__all__ = ["DayAnswer", "DayBarSaid", "DayJobSaid", "NewFinding", "day_answer"]


class DayJobSaid(Part):
    """A job of the day."""

    vehicle: str
    item: str
    name: str


class DayBarSaid(Part):
    """A step at work, or its wait."""

    lane: Literal["hands", "waiting"]
    vehicle: str
    item: str
    step: str
    words: str
    place: str
    begin_min: float = Field(description="minutes from the start")
    end_min: float
    soonest_min: float = Field(description="its beginning at a quick pace")
    latest_min: float = Field(description="its beginning at a slow pace")


class NewFinding(Part):
    """What the rehearsal of the order brings to light beyond that of each job."""

    vehicle: str
    rule: str
    grade: str
    expected: str
    remedy: str


class DayAnswer(Answer):
    """The answer of `day`; all times in minutes from the start of the work."""

    format: Literal["twomarks/answer/day/1"] = "twomarks/answer/day/1"
    day: dt.date
    jobs: tuple[DayJobSaid, ...]
    for_another_day: tuple[DayJobSaid, ...] = ()
    bars: tuple[DayBarSaid, ...] = ()
    length_min: float = 0.0
    shortest_min: float = 0.0
    least_possible_min: float = Field(default=0.0, description="no order is shorter than this")
    proven: bool = False
    changes: int = Field(default=0, description="changes of place and of job")
    changes_of_shortest: int = 0
    one_after_another_min: float = 0.0
    saved_min: float = 0.0
    one_by_one: bool = False
    first_opening_min: float | None = None
    dusk_min: float | None = Field(default=None, description="sunset, minutes after midnight by the clock of the place")
    not_after_min: float | None = Field(default=None, description="open no plug after this, minutes after midnight")
    findings: tuple[NewFinding, ...] = ()


def day_answer(found: DayAtHome, today: dt.date, reader: Reader) -> DayAnswer:
    """Return the plan of a day as an answer."""
    plan = found.plan
    jobs = tuple(DayJobSaid(vehicle=vehicle, item=item, name=name) for vehicle, item, name in found.jobs)
    later = tuple(DayJobSaid(vehicle=vehicle, item="", name=name) for vehicle, name in found.too_many)
    if plan is None:
        return DayAnswer(on=today, day=found.day, jobs=jobs, for_another_day=later)
    latest = plan.not_after_min(found.dusk_min) if found.dusk_min is not None else None
    return DayAnswer(
        on=today,
        day=found.day,
        jobs=jobs,
        for_another_day=later,
        bars=tuple(
            DayBarSaid(
                lane=bar.lane,
                vehicle=bar.vehicle,
                item=bar.job,
                step=bar.step,
                words=render(bar.words, reader),
                place=bar.place,
                begin_min=round(bar.begin_min, 1),
                end_min=round(bar.end_min, 1),
                soonest_min=round(bar.soonest_min, 1),
                latest_min=round(bar.latest_min, 1),
            )
            for bar in plan.bars
        ),
        length_min=round(plan.length_min, 1),
        shortest_min=round(plan.shortest_min, 1),
        least_possible_min=round(plan.bound_min, 1),
        proven=plan.proven,
        changes=plan.changes,
        changes_of_shortest=plan.changes_of_shortest,
        one_after_another_min=round(plan.one_after_another_min, 1),
        saved_min=round(plan.saved_min, 1),
        one_by_one=plan.one_by_one,
        first_opening_min=None if plan.first_opening_min is None else round(plan.first_opening_min, 1),
        dusk_min=None if found.dusk_min is None else round(found.dusk_min, 1),
        not_after_min=None if latest is None else round(latest, 1),
        findings=tuple(
            NewFinding(
                vehicle=vehicle, rule=one.rule, grade=one.grade, expected=render(one.expected, reader), remedy=render(one.remedy, reader)
            )
            for vehicle, one in plan.new
        ),
    )
