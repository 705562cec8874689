"""Rules about a walk-round: a job that only looks leaves out nothing that a look can show."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, shown, together

__all__ = ["RULES"]

_PLACES = ("ground_below", "tyre", "coolant_tank", "brake_fluid_tank", "hoses", "belt", "battery", "container", "lights")
"""What is looked at on a walk-round, beside the dipstick."""

_TOUCHES = frozenset({"loosen", "drain", "remove", "fit", "tighten", "pour", "bleed", "warm", "run_engine", "drive", "raise"})


def _looks_round(moment: Moment) -> bool:
    """Return whether a job has ended that looked at half of it at least and took nothing apart."""
    if moment.bound.circuits or not moment.end:
        return False
    seen = [bool(moment.state.get(f"seen:{place}")) for place in _PLACES]
    return 2 * sum(seen) >= len(_PLACES) and not any(move.action in _TOUCHES for move in moment.bound.moves)


def _all_round(moment: Moment) -> Outcome:
    known = {place: moment.state.get(f"seen:{place}") for place in _PLACES} | {"dipstick": moment.state.get("measured:dipstick")}
    return together(shown() if value else Outcome("not shown", thing=place) for place, value in known.items())


def _on_the_level(moment: Moment) -> Outcome:
    level = moment.state.get("ground") == "hard and level"
    return shown() if level else Outcome("not shown", thing="vehicle")


def _reads_unbound(moment: Moment) -> bool:
    """Return whether a dipstick is read in a job that has no circuit of it, such as a walk-round."""
    return not moment.end and moment.step.action == "measure" and "dipstick" in moment.step.things and not moment.bound.engine_oil


def _written(moment: Moment) -> Outcome:
    return shown() if moment.state.get("recorded") else Outcome("not shown", thing="daybook")


RULES = (
    Rule(id="all_round", family="walk round", grade="omission", when=_looks_round, holds=_all_round),
    Rule(id="level_ground", family="level", grade="omission", when=_reads_unbound, holds=_on_the_level),
    Rule(id="round_recorded", family="walk round", grade="omission", when=_looks_round, holds=_written),
)
