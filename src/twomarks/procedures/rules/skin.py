"""Rules about burns, skin and eyes, and about dirt that must stay out."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, must, shown, violated
from twomarks.procedures.state import LONG_MIN

__all__ = ["RULES"]

_SKIN = "hse_used_oil_skin"


def _comes(moment: Moment) -> tuple[str, ...]:
    """Return the circuits whose fluid may come at this move."""
    if acting("open")(moment):
        circuits = moment.bound.circuits.values()
        tanks = ("coolant_tank", "brake_fluid_tank")
        return tuple(one.role for one in circuits if one.filler in tanks and one.filler in moment.step.things)
    if moment.end or moment.step.action not in ("loosen", "drain", "remove", "bleed"):
        return ()
    things = set(moment.step.things)
    if moment.step.action == "remove":
        things &= moment.bound.filters
    return tuple(dict.fromkeys(role for role in map(moment.bound.circuit_of, sorted(things)) if role))


def _oil_comes(moment: Moment) -> bool:
    return bool(_comes(moment))


def _harms_skin(moment: Moment) -> bool:
    """Return whether a fluid may come, or acid, dust or a clip that flies."""
    undoes = not moment.end and moment.step.action in ("loosen", "remove")
    return _oil_comes(moment) or (undoes and moment.bound.serves(moment.step.things, "battery", "negative", "positive", "caliper", "pads"))


def _not_hot(moment: Moment) -> Outcome:
    if moment.state.number("since stop") == LONG_MIN:
        return shown()
    for role in _comes(moment):
        outcome = must(f"heat:{role}", "warm", "cold")(moment)
        if outcome.verdict != "shown":
            return outcome
    return shown()


def _something_hot(moment: Moment) -> bool:
    hot = moment.bound.of_sort("engine", "gear", "coolant")
    return acting("loosen")(moment) and any(role in hot for role in _comes(moment))


def _burn_warned(moment: Moment) -> Outcome:
    return shown() if moment.step.cautions else Outcome("not shown", thing=first_thing(moment))


def _opening_filler(moment: Moment) -> bool:
    return bool(_opened(moment))


def _opened(moment: Moment) -> tuple[tuple[str, str], ...]:
    """Return the thing and the place that must be clean for everything that is about to be opened and must stay clean inside."""
    if moment.end or moment.step.action not in ("open", "loosen"):
        return ()
    screws = [screw for role in moment.bound.of_sort("brake") for screw in moment.bound.circuits[role].bleeds]
    fills = {thing: thing for thing in (*moment.bound.fills, *screws, "coolant_tank", "brake_fluid_tank")} | {"filler": "filler_area"}
    return tuple((thing, fills[thing]) for thing in moment.step.things if thing in fills)


def _place_clean(moment: Moment) -> Outcome:
    for thing, place in _opened(moment):
        if not moment.state.get(f"clean:{place}"):
            return Outcome("not shown", thing=thing)
    return shown()


def _drains_oil(moment: Moment) -> bool:
    if moment.step.action != "drain":
        return False
    oils = moment.bound.of_sort("engine", "gear")
    return bool(oils) and acting("drain", on=oils)(moment)


def _drained_warm(moment: Moment) -> Outcome:
    """Return whether the oil was warmed, by running or by driving, before it is let out."""
    for role in moment.bound.circuits_in(moment.step.things):
        if moment.state.get(f"heat:{role}") is None:
            return Outcome("not shown", thing="vehicle" if moment.bound.circuits[role].sort == "gear" else "engine")
    return shown()


def _engine_off(moment: Moment) -> Outcome:
    return shown() if moment.state.get("engine") == "off" else violated(thing="engine")


def _above_engine(moment: Moment) -> bool:
    return not moment.end and moment.step.place == "above" and not acting("open", "close", on=("bonnet",))(moment)


def _opens_housing(moment: Moment) -> bool:
    return moment.bound.filter_kind == "cartridge" and acting("loosen")(moment) and bool(set(moment.step.things) & moment.bound.joints)


RULES = (
    Rule(id="not_hot", family="skin", grade="harm", when=_oil_comes, holds=_not_hot, protects=True),
    Rule(id="burn_warned", family="skin", grade="harm", when=_something_hot, holds=_burn_warned, protects=True),
    Rule(id="drained_warm", family="level", grade="advice", when=_drains_oil, holds=_drained_warm),
    Rule(id="gloves", family="skin", grade="harm", when=_harms_skin, holds=must("gloves", "on"), source=_SKIN, protects=True),
    Rule(id="glasses", family="skin", grade="harm", when=_harms_skin, holds=must("glasses", "on"), protects=True),
    Rule(
        id="engine_off",
        family="skin",
        grade="harm",
        when=acting("loosen", "drain", "pour", "raise", "bleed"),
        holds=_engine_off,
        protects=True,
    ),
    Rule(id="filler_clean", family="filling", grade="damage", when=_opening_filler, holds=_place_clean),
    Rule(id="housing_clean", family="filling", grade="damage", when=_opens_housing, holds=must("clean:housing", True)),
    Rule(id="bonnet_up", family="filling", grade="omission", when=_above_engine, holds=must("bonnet", "open")),
)
