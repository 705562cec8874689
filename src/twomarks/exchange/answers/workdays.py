"""The answer of `workdays`: the proposed days with their jobs and reasons, and how good the plan is."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.keeping.questions.workday_plan import HouseholdPlan

__all__ = ["NotPlanned", "PlannedJobSaid", "ProposedDaySaid", "SetUpSaid", "WorkdaysAnswer", "workdays_answer"]


class PlannedJobSaid(Part):
    """An item or a snag of one vehicle on a proposed day."""

    vehicle: str
    item: str
    name: str
    snag: bool = False
    due_in_days: int = Field(description="days from the workday to the day on which it is probably due; negative: late")


class SetUpSaid(Part):
    """An effort that the jobs of one vehicle share on that day: raised, undertray."""

    vehicle: str
    kind: str


class ProposedDaySaid(Part):
    """A proposed workday."""

    day: dt.date
    jobs: tuple[PlannedJobSaid, ...]
    setups: tuple[SetUpSaid, ...]
    reasons: tuple[Said, ...]


class NotPlanned(Part):
    """An item that the plan cannot hold, since nobody knows when it is due."""

    vehicle: str
    name: str


class WorkdaysAnswer(Answer):
    """The answer of `workdays`; efforts in minutes of the owner, beside the work itself."""

    format: Literal["twomarks/answer/workdays/1"] = "twomarks/answer/workdays/1"
    until: dt.date
    workdays: tuple[ProposedDaySaid, ...]
    effort_min: float = Field(description="shared efforts, life thrown away and risk of running over")
    least_possible_min: float = Field(description="no plan takes less than this")
    gap_min: float = Field(description="by how much at most the plan is dearer than the best possible one")
    proven: bool
    each_on_its_due_day_min: float
    window_rule_min: float = Field(description="what is due within six weeks done together")
    not_planned: tuple[NotPlanned, ...] = ()


def workdays_answer(found: HouseholdPlan, reader: Reader) -> WorkdaysAnswer:
    """Return the plan of a household as an answer."""
    plan = found.plan
    return WorkdaysAnswer(
        on=plan.today,
        until=plan.until,
        workdays=tuple(
            ProposedDaySaid(
                day=workday.day,
                jobs=tuple(
                    PlannedJobSaid(vehicle=job.vehicle, item=job.key, name=job.name, snag=job.snag, due_in_days=job.due_in_days)
                    for job in workday.jobs
                ),
                setups=tuple(SetUpSaid(vehicle=vehicle, kind=kind) for vehicle, kind in workday.setups),
                reasons=tuple(said(reason, reader) for reason in workday.reasons),
            )
            for workday in plan.workdays
        ),
        effort_min=round(plan.cost_min, 1),
        least_possible_min=round(plan.bound_min, 1),
        gap_min=round(max(0.0, plan.cost_min - plan.bound_min), 1),
        proven=plan.proven,
        each_on_its_due_day_min=round(plan.on_due_days_min, 1),
        window_rule_min=round(plan.window_rule_min, 1),
        not_planned=tuple(NotPlanned(vehicle=vehicle, name=name) for vehicle, name in found.not_known),
    )
