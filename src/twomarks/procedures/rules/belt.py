"""Rules about the auxiliary belt: hands off a running one, all of it seen and gauged, and seated when it was off."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, must, must_all, shown

__all__ = ["RULES"]

_GAUGE = "belt_wear_pages"
_NEAR = ("belt", "belt_ribs", "tensioner", "pulleys")


def _belt_job(moment: Moment) -> bool:
    return bool(moment.bound.serving("belt"))


def _hands_in(moment: Moment) -> bool:
    acts = acting("inspect", "measure", "loosen", "remove", "fit", "clean", on=_NEAR)(moment)
    return _belt_job(moment) and acts


def _turns(moment: Moment) -> bool:
    return acting("turn", on=("engine",))(moment)


def _listens(moment: Moment) -> bool:
    return acting("inspect", on=("belt_noise",))(moment)


def _ends(moment: Moment) -> bool:
    return moment.end and _belt_job(moment)


def _takes_off(moment: Moment) -> bool:
    return acting("remove")(moment) and moment.bound.serves(moment.step.things, "belt")


def _runs_fitted(moment: Moment) -> bool:
    if not (_belt_job(moment) and acting("run_engine", "drive")(moment)):
        return False
    taken = [moment.state.get(f"was off:{role}") for role in moment.bound.serving("belt")]
    return any(taken)


def _warned(moment: Moment) -> Outcome:
    return shown() if moment.step.cautions else Outcome("not shown", thing="belt_noise")


def _may_turn(moment: Moment) -> Outcome:
    outcome = must_all(("gear", "brake"), "out", "on")(moment)
    return outcome if outcome.verdict != "shown" else must("key", "with the worker", "out of range")(moment)


RULES = (
    Rule(id="belt_engine_off", family="belt", grade="harm", when=_hands_in, holds=must("engine", "off"), protects=True),
    Rule(id="turned_by_hand", family="belt", grade="harm", when=_turns, holds=_may_turn, protects=True),
    Rule(id="stand_clear", family="belt", grade="harm", when=_listens, holds=_warned, protects=True),
    Rule(id="belt_whole_loop", family="belt", grade="omission", when=_ends, holds=must_all(("turned:engine", "seen:belt"), True)),
    Rule(id="belt_gauged", family="belt", grade="omission", when=_ends, holds=must("measured:belt_ribs", True), source=_GAUGE),
    Rule(id="tensioner_looked", family="belt", grade="omission", when=_ends, holds=must_all(("seen:tensioner", "seen:pulleys"), True)),
    Rule(id="belt_heard", family="belt", grade="omission", when=_ends, holds=must("heard:belt_noise", True)),
    Rule(id="belt_routing", family="belt", grade="damage", when=_takes_off, holds=must("seen:belt_routing", True)),
    Rule(id="ribs_seated", family="belt", grade="damage", when=_runs_fitted, holds=must_all(("seen:belt_ribs", "turned:engine"), True)),
)
