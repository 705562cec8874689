"""What servicing costs: per workday and per 1,000 km, at home against the workshop, and what another interval would change."""

from twomarks.planning.cost.intervals import IntervalCost, OtherInterval, interval_costs
from twomarks.planning.cost.materials import Materials, materials_of
from twomarks.planning.cost.running import PerDistance, per_distance
from twomarks.planning.cost.work import CostedWork, WorkdayCost, costed, workdays
from twomarks.planning.cost.workshop import AgainstWorkshop, against_workshop

__all__ = [
    "AgainstWorkshop",
    "CostedWork",
    "IntervalCost",
    "Materials",
    "OtherInterval",
    "PerDistance",
    "WorkdayCost",
    "against_workshop",
    "costed",
    "interval_costs",
    "materials_of",
    "per_distance",
    "workdays",
]
