"""The rules of the rehearsal, by family; each is one small unit with its sentences, its grade and its source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from twomarks.procedures.bound import Bound
from twomarks.procedures.rules import (
    afterwards,
    air,
    battery,
    belonging,
    belt,
    brakes,
    cooling,
    drafted,
    ends,
    figures,
    fuel,
    gear,
    kinds,
    kit,
    left_behind,
    level,
    moving,
    pads,
    parts,
    ready,
    rolling,
    seals,
    skin,
    starting,
    support,
    telling,
    tightening,
    waits,
    walk_round,
    wheels,
    wrong,
)
from twomarks.procedures.rules.rule import Acting, Moment, Rule, at_end

__all__ = ["RULES", "RulesAsked", "rule", "rules_for"]

END = ""
"""What stands for the action after the last move."""

RULES: tuple[Rule, ...] = (
    *support.RULES,
    *rolling.RULES,
    *kit.RULES,
    *skin.RULES,
    *starting.RULES,
    *seals.RULES,
    *tightening.RULES,
    *level.RULES,
    *waits.RULES,
    *figures.RULES,
    *belonging.RULES,
    *gear.RULES,
    *cooling.RULES,
    *brakes.RULES,
    *moving.RULES,
    *kinds.RULES,
    *ready.RULES,
    *ends.RULES,
    *parts.RULES,
    *wheels.RULES,
    *battery.RULES,
    *air.RULES,
    *fuel.RULES,
    *pads.RULES,
    *belt.RULES,
    *left_behind.RULES,
    *afterwards.RULES,
    *walk_round.RULES,
    *telling.RULES,
    *drafted.RULES,
    *wrong.RULES,
)


_ABOUT_PARTS: tuple[tuple[tuple[Rule, ...], frozenset[str]], ...] = (
    (wheels.RULES, frozenset({"wheel"})),
    (battery.RULES, frozenset({"battery", "negative", "positive"})),
    (air.RULES, frozenset({"air"})),
    (fuel.RULES, frozenset({"fuel"})),
    (pads.RULES, frozenset({"pads", "caliper"})),
    (belt.RULES, frozenset({"belt"})),
)
"""Rules that ask after one kind of part only, and what a procedure must have for them to ask at all."""
_EVERYWHERE = frozenset(
    {"brake_of_the_raised_end", "held_without_brake", "service_mode_over", "hose_bled", "turned_by_hand", "stand_clear"}
)
"""Those among them that go by what is done, whatever parts a procedure names."""
_ABOUT: Mapping[str, frozenset[str]] = {one.id: purposes for rules, purposes in _ABOUT_PARTS for one in rules if one.id not in _EVERYWHERE}


@dataclass(frozen=True, slots=True)
class RulesAsked:
    """The rules that may ask anything of a procedure, by the parts and circuits that it names."""

    purposes: frozenset[str]

    @property
    def rules(self) -> tuple[Rule, ...]:
        """All of them."""
        return tuple(one for one in RULES if one.id not in _ABOUT or _ABOUT[one.id] & self.purposes)

    def at(self, moment: Moment) -> tuple[Rule, ...]:
        """Return those of them that may ask anything at a moment."""
        return _rules_at(self.purposes, END if moment.end else moment.step.action)


def rules_for(bound: Bound) -> RulesAsked:
    """Return the rules that may ask anything of a procedure."""
    purposes = {role.serves for role in bound.procedure.roles.values()}
    return RulesAsked(frozenset(purposes | {circuit.sort for circuit in bound.circuits.values()}))


@cache
def _rules_at(purposes: frozenset[str], action: str) -> tuple[Rule, ...]:
    return tuple(one for one in RulesAsked(purposes).rules if _may_ask(one, action))


def _may_ask(one: Rule, action: str) -> bool:
    """Return whether a rule may look at a move of this action; what its condition does not tell, it may."""
    if isinstance(one.when, Acting):
        return action in one.when.actions
    return one.when is not at_end or action == END


def rule(name: str) -> Rule:
    """Return the rule whose id is `name`."""
    return next(one for one in RULES if one.id == name)
