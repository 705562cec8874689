"""Rules about what keeps a vehicle where it is while it stands on its wheels, or on two of them."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, must, shown, violated

__all__ = ["RULES"]

_SUPPORT = "hse_indg434"
_RUNS = ("warm", "run_engine", "drive")


def _under_on_wheels(moment: Moment) -> bool:
    return not moment.end and moment.step.place == "under" and moment.state.get("support") == "wheels"


def _under_with_range_lever(moment: Moment) -> bool:
    return _under_on_wheels(moment) and bool(moment.bound.transfer_case)


def _stands_at_it(moment: Moment) -> bool:
    """Return whether somebody stands before, behind or beside a vehicle on its wheels, with a hand on it."""
    if moment.end or moment.step.place not in ("above", "at wheel"):
        return False
    on = moment.step.place == "above" or moment.step.action in ("inspect", "measure", "remove", "loosen")
    return on and moment.state.get("support") == "wheels"


def _stands_at_it_unrun(moment: Moment) -> bool:
    return _stands_at_it(moment) and not any(move.action in _RUNS for move in moment.bound.moves)


def _ground(moment: Moment) -> Outcome:
    return violated(thing="vehicle") if moment.kit.ground in ("soft", "slope") else must("ground", "hard and level")(moment)


def _on_the_level(moment: Moment) -> Outcome:
    return must("ground", "hard and level")(moment)


def _braked(moment: Moment) -> Outcome:
    """Return whether it is braked; chocks on both sides do where the brake is let off on purpose."""
    return shown() if moment.state.get("chocks") == "both sides" else must("brake", "on")(moment)


def _in_gear(moment: Moment) -> Outcome:
    return shown() if moment.state.get("chocks") == "both sides" else must("gear", "in")(moment)


def _raises_for_wheels(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "raise" and bool(moment.bound.serving("wheel"))


def _end_said(moment: Moment) -> Outcome:
    said = {"front end", "rear end", "four points"} & set(moment.step.at)
    return shown() if said else Outcome("not shown", thing="vehicle")


def _harm(name: str, when: Callable[[Moment], bool], holds: Callable[[Moment], Outcome], source: str = _SUPPORT) -> Rule:
    return Rule(id=name, family="support", grade="harm", when=when, holds=holds, source=source, protects=True)


RULES = (
    _harm("brake_below", _under_on_wheels, must("brake", "on")),
    _harm("gear_below", _under_on_wheels, must("gear", "in")),
    _harm("range_below", _under_with_range_lever, must("range_lever", "in"), "common_practice"),
    _harm("ground_below", _under_on_wheels, _ground),
    _harm("chocks_below", _under_on_wheels, must("chocks", "both sides")),
    _harm("held_above", _stands_at_it, _braked, "common_practice"),
    _harm("gear_above", _stands_at_it_unrun, _in_gear, "common_practice"),
    _harm("end_said", _raises_for_wheels, _end_said),
    Rule(id="ground_above", family="support", grade="advice", when=_stands_at_it, holds=_on_the_level),
)
