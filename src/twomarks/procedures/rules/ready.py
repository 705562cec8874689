"""Rules about a vehicle that could start or roll by itself: hybrids that are ready, and starts with nothing held."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, must, shown

__all__ = ["RULES"]

_REACHED = ("wheel", "caliper", "pads", "battery", "negative", "positive", "air", "belt")


def _reaches_in(moment: Moment) -> bool:
    """Return whether hands go where a vehicle that is ready may start, or where its cables are."""
    undoes = acting("loosen", "remove", "open", "turn")(moment) and moment.bound.serves(moment.step.things, *_REACHED)
    looks = acting("inspect", on=("belt",))(moment) and bool(moment.bound.serving("belt"))
    return moment.bound.hybrid is not False and (undoes or looks)


def _job_of_parts(moment: Moment) -> bool:
    return acting("run_engine")(moment) and bool(moment.bound.serving(*_REACHED) or moment.bound.of_sort("fuel"))


def _not_ready(moment: Moment) -> Outcome:
    outcome = must("seen:ready_lamp", True)(moment)
    return outcome if outcome.verdict != "shown" else must("asleep", True)(moment)


def _held(moment: Moment) -> Outcome:
    outcome = must("brake", "on")(moment)
    return shown() if outcome.verdict == "shown" else Outcome(outcome.verdict, thing="brake")


RULES = (
    Rule(id="not_ready", family="ready", grade="harm", when=_reaches_in, holds=_not_ready, protects=True),
    Rule(id="start_held", family="ready", grade="harm", when=_job_of_parts, holds=_held, protects=True),
)
