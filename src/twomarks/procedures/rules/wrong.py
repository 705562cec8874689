"""Rules for when it goes wrong: first everything stands still, then somebody looks."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Rule, acting, must

__all__ = ["RULES"]


def _looks(moment: Moment) -> bool:
    """Return whether a branch goes on behind its stop; its very end is the card's."""
    return not moment.end and moment.step.part in ("look", "next")


def _lifts_again(moment: Moment) -> bool:
    return bool(moment.step.part) and acting("raise")(moment)


RULES = (
    Rule(id="stopped_first", family="gone wrong", grade="harm", when=_looks, holds=must("engine", "off"), protects=True),
    Rule(id="clear_before_lift", family="gone wrong", grade="harm", when=_lifts_again, holds=must("people", "clear"), protects=True),
)
