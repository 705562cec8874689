"""Rules about parts that are changed: the old one out before the new one goes in, and nothing left out at the end."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, shown, violated

__all__ = ["RULES"]

_CHANGED = ("wheel", "battery", "air", "pads", "belt")


def _slots(moment: Moment, things: tuple[str, ...]) -> tuple[str, ...]:
    slots = (thing for thing in things if moment.bound.kinds.get(thing) == "slot")
    return tuple(thing for thing in slots if moment.bound.serves((thing,), *_CHANGED))


def _fits(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(_slots(moment, moment.step.things))


def _gone(moment: Moment) -> Outcome:
    for role in _slots(moment, moment.step.things):
        if moment.state.get(f"part:{role}") != "off":
            return violated(thing=role, part=moment.bound.name(role))
    return shown()


def _runs_or_ends(moment: Moment) -> bool:
    return (moment.end or acting("run_engine", "drive")(moment)) and bool(_slots(moment, tuple(moment.bound.kinds)))


def _back(moment: Moment) -> Outcome:
    for role in _slots(moment, tuple(moment.bound.kinds)):
        if moment.state.get(f"part:{role}") == "off":
            return violated(thing=role, part=moment.bound.name(role), variable=f"part:{role}")
    return shown()


RULES = (
    Rule(id="part_gone", family="parts", grade="damage", when=_fits, holds=_gone),
    Rule(id="parts_back", family="parts", grade="damage", when=_runs_or_ends, holds=_back, protects=True),
)
