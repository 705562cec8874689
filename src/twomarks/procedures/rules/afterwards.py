"""Rules about what follows a job: a look after the first night, one after some distance, and each on the day or the distance."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, any_of, shown, violated

__all__ = ["NEXT_LOOK_DAYS", "RULES"]

NEXT_LOOK_DAYS = 2.0
"""Until when a job on a fluid is looked at again [days]: after the first night, or the first drive and a night."""


def _fluid_job_ends(moment: Moment) -> bool:
    return moment.end and any_of(moment.state, "drained", tuple(moment.bound.circuits))


def _job_shakes_loose(moment: Moment) -> bool:
    """Return whether something ends that distance tells of: a fluid that settles, nuts that do, a belt, an air side."""
    bound = moment.bound
    shaken = any_of(moment.state, "snug", bound.serving("wheel")) or bool(bound.serving("belt", "air"))
    return _fluid_job_ends(moment) or (moment.end and shaken)


def _brake_job_ends(moment: Moment) -> bool:
    return moment.end and bool(moment.bound.serving("pads"))


def _looked_at_again(moment: Moment) -> Outcome:
    """Return whether something beside the wheel nuts is looked at later."""
    nuts = set(moment.bound.serving("wheel"))
    return shown() if any(not set(one.checks) & nuts for one in moment.bound.follow_ups) else _missing()


def _asks_later(moment: Moment) -> bool:
    return moment.end and bool(moment.bound.follow_ups)


def _missing() -> Outcome:
    return Outcome("not shown", thing="daybook", variable="recorded")


def _next_look(moment: Moment) -> Outcome:
    soon = [one.after_days is not None and one.after_days <= NEXT_LOOK_DAYS for one in moment.bound.follow_ups]
    return shown() if any(soon) else _missing()


def _after_distance(moment: Moment) -> Outcome:
    return shown() if any(one.after_km is not None for one in moment.bound.follow_ups) else _missing()


def _comes_due(moment: Moment) -> Outcome:
    """Return whether every look has a time: a distance alone never comes on a vehicle that stands."""
    if all(one.after_days is not None for one in moment.bound.follow_ups):
        return shown()
    return violated(thing="daybook", variable="recorded")


RULES = (
    Rule(id="next_look", family="left behind", grade="omission", when=_fluid_job_ends, holds=_next_look),
    Rule(id="after_distance", family="left behind", grade="omission", when=_job_shakes_loose, holds=_after_distance),
    Rule(id="brakes_again", family="left behind", grade="omission", when=_brake_job_ends, holds=_looked_at_again),
    Rule(id="comes_due", family="left behind", grade="omission", when=_asks_later, holds=_comes_due),
)
