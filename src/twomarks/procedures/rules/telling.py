"""Rules about what a step has to say: the danger before the hand moves, and the sign by which one sees that all is well."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, first_thing, shown

__all__ = ["RULES"]

_SIGNS = frozenset(
    {
        "leaks",
        "pedal",
        "dipstick",
        "tyre",
        "ground_below",
        "brake_fluid_tank",
        "coolant_tank",
        "heater",
        "mixture",
        "oil_class",
        "new_battery",
        "tensioner",
        "fuel_low_pressure",
        "air_duct",
    }
)
"""What nobody looks at without having to know what is well and what is not."""


def _warned(moment: Moment) -> Outcome:
    said = any(one.signal != "notice" for one in moment.step.cautions)
    return shown() if said else Outcome("not shown", thing=first_thing(moment))


def _puts_key_far(moment: Moment) -> bool:
    """Return whether a key that starts without a lock is put away for the first time; later it only goes back there."""
    far = moment.step.action == "take_away" and "key" in moment.step.things and "out of range" in moment.step.at
    return (
        not moment.end and far and moment.bound.keyless is not False and not any_of(moment.state, "drained", tuple(moment.bound.circuits))
    )


_cleans_spills = acting("clean", on=("spills",))
_stirs_dust = acting("clean", on=("brake_parts", "airbox_inside"))
_pushes_piston = acting("press", on=("piston",))
_sets_lever = acting("secure", on=("air_suspension", "range_lever"))


def _wipes_oil(moment: Moment) -> bool:
    return _cleans_spills(moment) and any_of(moment.state, "drained", moment.bound.of_sort("engine", "gear"))


def _works_brake_screw(moment: Moment) -> bool:
    if moment.step.action not in ("loosen", "tighten"):
        return False
    screws = tuple(screw for role in moment.bound.of_sort("brake") for screw in moment.bound.circuits[role].bleeds)
    return bool(screws) and acting("loosen", "tighten", on=screws)(moment)


def _opens_cooling(moment: Moment) -> bool:
    if moment.step.action not in ("open", "bleed"):
        return False
    coolant = moment.bound.of_sort("coolant")
    taps = tuple(tap for role in coolant for tap in moment.bound.circuits[role].drains)
    return bool(coolant) and (acting("open", on=taps)(moment) or acting("bleed", on=coolant)(moment) or _first_opens_cap(moment))


def _first_opens_cap(moment: Moment) -> bool:
    return acting("open", on=("coolant_tank",))(moment) and not any_of(moment.state, "drained", moment.bound.of_sort("coolant"))


def _proves_brakes(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "drive" and moment.step.manner == "slow stop"


def _near_running_engine(moment: Moment) -> bool:
    looks = not moment.end and moment.step.action == "inspect" and moment.step.place == "above"
    return looks and moment.state.get("engine") == "running"


def _at_poles(moment: Moment) -> bool:
    """Return whether the first lead comes off, the last but one goes on, or the battery itself is lifted."""
    if moment.step.action not in ("remove", "tighten"):
        return False
    undone = acting("remove")(moment) and moment.bound.serves(moment.step.things, "negative", "battery")
    return undone or (acting("tighten")(moment) and moment.bound.serves(moment.step.things, "positive"))


def _handles_wheels(moment: Moment) -> bool:
    """Return whether a wheel comes off, or its nuts are tightened at last."""
    if moment.step.action not in ("remove", "tighten") or not moment.bound.serves(moment.step.things, "wheel"):
        return False
    off = acting("remove")(moment) and any(moment.bound.kinds.get(thing) == "slot" for thing in moment.step.things)
    return off or (acting("tighten")(moment) and moment.step.manner != "snug")


def _how_pushed(moment: Moment) -> Outcome:
    return shown() if moment.step.manner else Outcome("not shown", thing="piston")


def _looks(moment: Moment) -> bool:
    """Return whether a step is there to look; a branch has said in its own sign what one sees, and goes on from there."""
    if moment.end or moment.step.part or moment.step.action not in ("inspect", "measure"):
        return False
    things = set(moment.step.things)
    return (
        bool(things & (_SIGNS | moment.bound.circuits.keys()))
        or ("container" in things and bool(moment.bound.circuits))
        or bool(things & set(moment.bound.serving("belt")))
    )


def _sign(moment: Moment) -> Outcome:
    step = moment.bound.step(moment.step.id)
    if step.accept or step.reject or step.look or moment.step.action != step.action or moment.step.things != step.things:
        return shown()
    return Outcome("not shown", thing=first_thing(moment))


def _danger(name: str, when: Callable[[Moment], bool], source: str = "common_practice") -> Rule:
    return Rule(id=name, family="cautions", grade="harm", when=when, holds=_warned, source=source, protects=True)


RULES = (
    _danger("lift_warned", acting("raise", "support"), "hse_indg434"),
    _danger("run_warned", acting("warm", "run_engine"), "cdc_carbon_monoxide"),
    _danger("lever_warned", _sets_lever),
    _danger("key_warned", _puts_key_far),
    _danger("skin_warned", acting("wear"), "hse_used_oil_skin"),
    _danger("spill_warned", _wipes_oil),
    _danger("screw_warned", _works_brake_screw),
    _danger("scald_warned", _opens_cooling),
    _danger("stop_warned", _proves_brakes),
    _danger("fan_warned", _near_running_engine),
    _danger("poles_warned", _at_poles, "battery_order_pages"),
    _danger("nuts_warned", _handles_wheels, "wheel_retorque_pages"),
    _danger("dust_warned", _stirs_dust),
    _danger("piston_warned", _pushes_piston),
    Rule(id="piston_how", family="cautions", grade="omission", when=_pushes_piston, holds=_how_pushed),
    Rule(id="sign_said", family="cautions", grade="omission", when=_looks, holds=_sign),
)
