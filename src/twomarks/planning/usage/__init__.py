"""From dated counter readings, faults and all, to where the counter will stand and when it passes a limit."""

from twomarks.planning.usage.forecast import DaySpread, Spread, UsageForecast, forecast, sister_history
from twomarks.planning.usage.judging import Flag, History, judge
from twomarks.planning.usage.prior import UsagePrior, prior_of
from twomarks.planning.usage.sisters import Sisters, sisters_of

__all__ = [
    "DaySpread",
    "Flag",
    "History",
    "Sisters",
    "Spread",
    "UsageForecast",
    "UsagePrior",
    "forecast",
    "judge",
    "prior_of",
    "sister_history",
    "sisters_of",
]
