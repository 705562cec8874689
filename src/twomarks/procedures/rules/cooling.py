"""Rules about the cooling: never opened hot, mixed right, without air in it, and out of reach of children and animals."""

from __future__ import annotations

from twomarks.procedures.rules.gear import FULL_SHARE
from twomarks.procedures.rules.rule import (
    Moment,
    Outcome,
    Rule,
    acting,
    before_moving,
    drained,
    first_thing,
    must,
    must_all,
    shown,
    violated,
)

__all__ = ["RULES"]


def _opens_cap(moment: Moment) -> bool:
    return acting("open", on=("coolant_tank",))(moment)


def _cold(moment: Moment) -> Outcome:
    heats = {moment.state.get(f"heat:{role}") for role in moment.bound.of_sort("coolant")} or {None}
    if heats == {"cold"}:
        return shown()
    return Outcome("not shown", thing="coolant_tank") if None in heats else violated(thing="coolant_tank")


def _drains(moment: Moment) -> bool:
    return bool(moment.bound.of_sort("coolant")) and acting("drain", on=moment.bound.of_sort("coolant"))(moment)


def _warned(moment: Moment) -> Outcome:
    return shown() if moment.step.cautions else Outcome("not shown", thing=first_thing(moment))


def _left_alone(moment: Moment) -> bool:
    if moment.end or not (moment.step.hands_free and moment.step.wait_min):
        return False
    return _drains(moment) or moment.state.get("pan holds") in ("coolant", "mixed")


def _covered(moment: Moment) -> Outcome:
    return must("placed:cover", True)(moment) if moment.state.get("placed:cover") is not False else violated(thing="cover")


def _pours(moment: Moment) -> bool:
    return bool(moment.bound.of_sort("coolant")) and acting("pour", on=moment.bound.of_sort("coolant"))(moment)


def _mixture_known(moment: Moment) -> Outcome:
    known = moment.state.get("seen:mixture"), moment.state.get("measured:mixture")
    return shown() if any(known) else Outcome("not shown", thing="mixture")


def _runs_refilled(moment: Moment) -> bool:
    return acting("run_engine", "drive")(moment) and bool(drained(moment, "coolant"))


def _runs_or_ends(moment: Moment) -> bool:
    return moment.end or acting("warm", "run_engine", "drive")(moment)


def _moves_refilled(moment: Moment) -> bool:
    return before_moving(moment) and bool(drained(moment, "coolant"))


def _ends_refilled(moment: Moment) -> bool:
    return moment.end and bool(drained(moment, "coolant"))


def _full(moment: Moment) -> Outcome:
    for role in drained(moment, "coolant"):
        have, full = moment.state.number(f"litres:{role}"), moment.bound.circuits[role].volumes.full_l
        short = have is not None and full is not None and have < FULL_SHARE * full
        if short or not moment.state.get(f"filled:{role}"):
            return violated(thing=role, variable=f"drained:{role}")
    return shown()


def _bled(moment: Moment) -> Outcome:
    for role in drained(moment, "coolant"):
        for tap in moment.bound.circuits[role].bleeds:
            if tap in moment.bound.roles and not moment.state.get(f"bled:{tap}"):
                return violated(thing=tap, part=moment.bound.name(tap))
    return shown()


def _bleeds_cooling(moment: Moment) -> bool:
    coolant = moment.bound.of_sort("coolant")
    return bool(coolant) and acting("bleed", on=coolant)(moment)


def _filled(moment: Moment) -> Outcome:
    for role in moment.bound.of_sort("coolant"):
        if role in moment.step.things and not moment.state.get(f"filled:{role}"):
            return violated(thing=role)
    return shown()


def _read_cold(moment: Moment) -> Outcome:
    for role in drained(moment, "coolant"):
        outcome = must(f"reading:{role}", "good")(moment)
        if outcome.verdict != "shown":
            return outcome
    return shown()


def _tank_open(moment: Moment) -> Outcome:
    return shown() if not moment.bound.of_sort("coolant") else must("coolant_tank", "open")(moment)


_HOT = ("hot:top_hose", "hot:heater")

RULES = (
    Rule(id="cap_cold", family="cooling", grade="harm", when=_opens_cap, holds=_cold, protects=True),
    Rule(id="coolant_warned", family="cooling", grade="harm", when=_drains, holds=_warned, protects=True),
    Rule(id="coolant_watched", family="cooling", grade="harm", when=_left_alone, holds=_covered, protects=True),
    Rule(id="mixture_known", family="cooling", grade="damage", when=_pours, holds=_mixture_known),
    Rule(id="heater_open", family="cooling", grade="damage", when=_runs_refilled, holds=must("heater", "open")),
    Rule(id="coolant_bled", family="cooling", grade="damage", when=_runs_refilled, holds=_bled),
    Rule(id="bled_while_filled", family="cooling", grade="omission", when=_bleeds_cooling, holds=_filled),
    Rule(id="coolant_filled", family="cooling", grade="damage", when=_runs_refilled, holds=_full, protects=True),
    Rule(id="coolant_cap_on", family="cooling", grade="harm", when=_runs_or_ends, holds=must("coolant_tank", "shut"), protects=True),
    Rule(id="thermostat", family="cooling", grade="damage", when=_moves_refilled, holds=must("thermostat", "opened")),
    Rule(id="heater_hot", family="cooling", grade="damage", when=_moves_refilled, holds=must_all(_HOT, True)),
    Rule(id="coolant_level", family="cooling", grade="damage", when=_ends_refilled, holds=_read_cold),
    Rule(id="tank_open_to_measure", family="cooling", grade="omission", when=acting("measure", on=("mixture",)), holds=_tank_open),
    Rule(id="frost_measured", family="cooling", grade="omission", when=_ends_refilled, holds=must("measured:mixture", True)),
)
