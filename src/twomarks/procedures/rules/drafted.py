"""The rule about drafts: a sentence of a write-up for which nobody has chosen an action."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, violated

__all__ = ["RULES"]


def _open(moment: Moment) -> Outcome:
    return violated(thing=moment.step.id)


RULES = (Rule(id="undecided", family="drafted", grade="harm", when=acting("undecided"), holds=_open),)
