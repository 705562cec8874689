"""Which days to work on, and which items and snags of which vehicles go together: at the least expected cost."""

from twomarks.planning.workdays.plan import Effort, Standing, WorkdayPlan, plan_workdays
from twomarks.planning.workdays.problem import DueCurve, Job, Problem, SetUp, saturdays
from twomarks.planning.workdays.reasons import PlannedJob, Workday

__all__ = [
    "DueCurve",
    "Effort",
    "Job",
    "PlannedJob",
    "Problem",
    "SetUp",
    "Standing",
    "Workday",
    "WorkdayPlan",
    "plan_workdays",
    "saturdays",
]
