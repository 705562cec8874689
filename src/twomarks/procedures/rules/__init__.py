"""The rules of the rehearsal, by family; each is one small unit with its sentences, its grade and its source."""

from __future__ import annotations

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
from twomarks.procedures.rules.rule import Rule

__all__ = ["RULES", "rule"]

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


def rule(name: str) -> Rule:
    """Return the rule whose id is `name`."""
    return next(one for one in RULES if one.id == name)
