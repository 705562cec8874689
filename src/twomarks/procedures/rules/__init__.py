"""The rules of the rehearsal, by family; each is one small unit with its sentences, its grade and its source."""

from __future__ import annotations

from twomarks.procedures.rules import (
    air,
    battery,
    belt,
    brakes,
    cooling,
    drafted,
    ends,
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
    seals,
    skin,
    starting,
    support,
    tightening,
    wheels,
    wrong,
)
from twomarks.procedures.rules.rule import Rule

__all__ = ["RULES", "rule"]

RULES: tuple[Rule, ...] = (
    *support.RULES,
    *kit.RULES,
    *skin.RULES,
    *starting.RULES,
    *seals.RULES,
    *tightening.RULES,
    *level.RULES,
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
    *drafted.RULES,
    *wrong.RULES,
)


def rule(name: str) -> Rule:
    """Return the rule whose id is `name`."""
    return next(one for one in RULES if one.id == name)
