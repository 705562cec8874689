"""Rules about gear units: the right plug, the upper one first, the right oil, and full to the hole."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, before_moving, drained, must, shown, violated

__all__ = ["FULL_SHARE", "RULES"]

FULL_SHARE = 0.9
"""A gear unit or a cooling system counts as full from this share of its refill; common practice, no source."""


def _acted_on(moment: Moment) -> set[str]:
    return {*moment.step.things, moment.step.through}


def _gear_opened(moment: Moment) -> tuple[str, ...]:
    """Return the gear units of which a plug is undone, or that are drained, at this move."""
    if moment.end or moment.step.action not in ("loosen", "remove", "drain"):
        return ()
    gear = moment.bound.of_sort("gear")
    return tuple(role for role in gear if any(moment.bound.circuit_of(thing) == role for thing in _acted_on(moment)))


def _undoes_gear(moment: Moment) -> bool:
    return bool(_gear_opened(moment))


def _undoes_gear_drain(moment: Moment) -> bool:
    return any(_acted_on(moment) & set(moment.bound.circuits[role].drains) for role in _gear_opened(moment))


def _fill_plug_free(moment: Moment) -> Outcome:
    for role in _gear_opened(moment):
        plugs = moment.bound.circuits[role].fills
        free = [moment.state.get(f"free:{plug}") for plug in plugs]
        if not any(free):
            return violated(thing=plugs[0] if plugs else role, part=moment.bound.name(plugs[0] if plugs else role))
    return shown()


def _unit_known(moment: Moment) -> Outcome:
    for role in _gear_opened(moment):
        if not moment.state.get(f"seen:{role}"):
            return Outcome("not shown", thing=role)
    return shown()


def _pours_gear(moment: Moment) -> bool:
    return acting("pour", on=moment.bound.of_sort("gear"))(moment) and bool(moment.bound.of_sort("gear"))


def _pours_axle(moment: Moment) -> bool:
    axles = tuple(role for role, circuit in moment.bound.circuits.items() if circuit.fluid == "axle oil")
    return bool(axles) and acting("pour", on=axles)(moment)


def _shuts_fill_plug(moment: Moment) -> bool:
    return acting("fit")(moment) and any(role in drained(moment, "gear") for role in _filled_by(moment))


def _filled_by(moment: Moment) -> tuple[str, ...]:
    plugs = [thing for thing in moment.step.things if thing in moment.bound.fills]
    return tuple(moment.bound.circuit_of(plug) for plug in plugs)


def _at_the_hole(moment: Moment) -> Outcome:
    for role in _filled_by(moment):
        variable = f"reading:{role}"
        reading = moment.state.get(variable)
        if reading is None:
            return Outcome("not shown", thing=role, variable=variable)
        if reading != "good":
            return violated(thing=role, variable=variable, reading=reading)
    return shown()


def _gear_moves(moment: Moment) -> bool:
    return before_moving(moment) and bool(drained(moment, "gear"))


def _gear_full(moment: Moment) -> Outcome:
    for role in drained(moment, "gear"):
        have, full = moment.state.number(f"litres:{role}"), moment.bound.circuits[role].volumes.full_l
        if have is not None and full is not None and have < FULL_SHARE * full:
            return violated(thing=role, part=moment.bound.name(role), variable=f"drained:{role}")
        outcome = must(f"reading:{role}", "good")(moment)
        if outcome.verdict != "shown":
            return Outcome(outcome.verdict, {"part": moment.bound.name(role)}, role, outcome.variable)
    return shown()


def _gear_ends(moment: Moment) -> bool:
    return moment.end and bool(drained(moment, "gear"))


def _gear_driven(moment: Moment) -> Outcome:
    for role in drained(moment, "gear"):
        if not moment.state.get(f"driven after fill:{role}"):
            return Outcome("not shown", thing=role, variable=f"filled:{role}")
    return shown()


RULES = (
    Rule(id="which_unit", family="gear units", grade="damage", when=_undoes_gear, holds=_unit_known, protects=True),
    Rule(id="fill_plug_first", family="gear units", grade="damage", when=_undoes_gear_drain, holds=_fill_plug_free, protects=True),
    Rule(id="gear_oil_class", family="gear units", grade="damage", when=_pours_gear, holds=must("seen:oil_class", True)),
    Rule(id="limited_slip", family="gear units", grade="damage", when=_pours_axle, holds=must("seen:limited_slip", True)),
    Rule(id="level_at_hole", family="gear units", grade="damage", when=_shuts_fill_plug, holds=_at_the_hole),
    Rule(id="gear_full", family="gear units", grade="damage", when=_gear_moves, holds=_gear_full, protects=True),
    Rule(id="breather", family="gear units", grade="omission", when=_gear_ends, holds=must("seen:breather", True)),
    Rule(id="gear_driven", family="gear units", grade="omission", when=_gear_ends, holds=_gear_driven),
)
