"""Rules about kinds of fluid that must not meet: in the pan, in a can."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, shown, violated

__all__ = ["RULES"]

_CANS = {"old_oil": ("engine oil", "gear oil"), "old_coolant": ("coolant",), "old_brake_fluid": ("brake fluid",), "old_fuel": ("fuel",)}


def _pan_of_one_kind(moment: Moment) -> Outcome:
    holds = moment.state.get("pan holds")
    streams = {moment.bound.circuits[role].stream for role in moment.bound.circuits_in(moment.step.things)}
    if holds == "nothing" or not streams or streams == {holds}:
        return shown()
    return violated(thing="pan")


def _can_of_its_kind(moment: Moment) -> Outcome:
    holds = moment.state.get("pan holds")
    if holds == "mixed":
        return violated(thing="pan", variable="pan holds")
    fitting = [thing for thing in moment.step.things if holds in _CANS.get(thing, ())]
    return shown() if fitting or holds == "nothing" else violated(thing=moment.step.things[0] if moment.step.things else "waste_can")


RULES = (
    Rule(
        id="kinds_apart",
        family="waste",
        grade="omission",
        when=acting("drain", "bleed"),
        holds=_pan_of_one_kind,
        source="waste_directive_2008_98",
    ),
    Rule(
        id="can_of_its_kind",
        family="waste",
        grade="omission",
        when=acting("decant"),
        holds=_can_of_its_kind,
        source="waste_directive_2008_98",
    ),
)
