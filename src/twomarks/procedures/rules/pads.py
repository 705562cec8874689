"""Rules about brake pads: held without its brake, no dust breathed, no hose strained, both sides, and the pedal back before it moves."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, before_moving, must, must_all, shown, violated
from twomarks.words import Figure

__all__ = ["RULES"]

SIDES = 2
"""Both wheels of an axle get new pads together."""

_ACTS_ON = {"rear wheels": "rear end", "front wheels": "front end"}


def _pads(moment: Moment) -> tuple[str, ...]:
    return moment.bound.serving("pads")


def _calipers(moment: Moment) -> tuple[str, ...]:
    return moment.bound.serving("caliper")


def _undoes_caliper(moment: Moment) -> bool:
    return acting("loosen", "remove")(moment) and moment.bound.serves(moment.step.things, "caliper")


def _takes_pads(moment: Moment) -> bool:
    return acting("remove")(moment) and moment.bound.serves(moment.step.things, "pads")


def _fits_pads(moment: Moment) -> bool:
    return acting("fit")(moment) and moment.bound.serves(moment.step.things, "pads")


def _fits_new_pads(moment: Moment) -> bool:
    return _fits_pads(moment) and moment.step.new


def _fits_caliper(moment: Moment) -> bool:
    return acting("fit")(moment) and moment.bound.serves(moment.step.things, "caliper")


def _undoes_brake(moment: Moment) -> bool:
    return _undoes_caliper(moment) or _takes_pads(moment)


def _on_braked_axle(moment: Moment) -> bool:
    return _undoes_caliper(moment) and moment.state.get("raised end") == _ACTS_ON.get(moment.bound.parking_brake, "")


def _electric_behind(moment: Moment) -> bool:
    if not _undoes_caliper(moment) or moment.bound.electric_brake is False:
        return False
    return moment.state.get("raised end") != "front end"


_lets_brake_off = acting("release", on=("brake",))
_sets_service_mode = acting("secure", on=("service_mode",))


def _loses_brake(moment: Moment) -> bool:
    return _lets_brake_off(moment) or _sets_service_mode(moment)


def _presses_piston(moment: Moment) -> bool:
    return acting("press", on=("piston",))(moment)


def _cleans_brake(moment: Moment) -> bool:
    return acting("clean", on=("brake_parts",))(moment)


def _touched(moment: Moment) -> bool:
    """Return whether pads are out, or were changed."""
    out = [moment.state.get(f"part:{role}") == "off" for role in _pads(moment)]
    changed = [moment.state.get(name) for name in moment.state.names("renewed:")]
    return any(out) or bool(changed)


def _goes_on(moment: Moment) -> bool:
    """Return whether the wheel goes on over the brake, or the vehicle is about to move."""
    wheels = acting("fit")(moment) and moment.bound.serves(moment.step.things, "wheel")
    return bool(_pads(moment)) and (wheels or before_moving(moment)) and _touched(moment)


def _moves(moment: Moment) -> bool:
    return bool(_pads(moment)) and before_moving(moment) and _touched(moment)


def _driven_end(moment: Moment) -> bool:
    return moment.end and _moves(moment)


def _wet(moment: Moment) -> Outcome:
    return shown() if moment.step.manner == "wet" else Outcome("not shown", thing="brake_parts")


def _pads_in(moment: Moment) -> Outcome:
    for role in _pads(moment):
        if moment.state.get(f"part:{role}") == "off":
            return violated(thing=role)
    return shown()


def _caliper_tight(moment: Moment) -> Outcome:
    for role in _calipers(moment):
        if moment.state.get(f"fastening:{role}") != "tight":
            return violated(thing=role, variable=f"fastening:{role}")
    return shown()


def _both_sides(moment: Moment) -> Outcome:
    sides = [name for name in moment.state.names("renewed:") if moment.state.get(name)]
    if len(sides) >= SIDES:
        return shown()
    return violated(thing=_pads(moment)[0], count=Figure(float(len(sides)), ""), variable=f"part:{_pads(moment)[0]}")


def _hose_opened(moment: Moment) -> bool:
    return before_moving(moment) and bool(moment.state.get("hose opened"))


def _bled(moment: Moment) -> Outcome:
    bled = [moment.state.get(name) for name in moment.state.names("bled:")]
    return shown() if any(bled) else violated(thing="brake_hose", variable="hose opened")


_HELD = must_all(("chocks", "support"), "both sides", "stands")
_ROOM = must_all(("brake_fluid_tank", "seen:brake_fluid_tank"), "open", True)


def _harm(name: str, when: Callable[[Moment], bool], holds: Callable[[Moment], Outcome]) -> Rule:
    return Rule(id=name, family="brake pads", grade="harm", when=when, holds=holds, protects=True)


RULES = (
    _harm("held_without_brake", _loses_brake, _HELD),
    _harm("service_mode", _electric_behind, must("service_mode", "in")),
    Rule(id="brake_let_off", family="brake pads", grade="damage", when=_on_braked_axle, holds=must("brake", "off")),
    _harm("dust_wet", _cleans_brake, _wet),
    _harm("dust_first", _undoes_brake, must("clean:brake_parts", True)),
    _harm("caliper_hung", _takes_pads, must("placed:caliper_hook", True)),
    Rule(id="pads_compared", family="brake pads", grade="damage", when=_fits_pads, holds=must("seen:new_pads", True)),
    _harm("disc_measured", _fits_pads, must("measured:disc", True)),
    Rule(id="room_in_tank", family="brake pads", grade="damage", when=_presses_piston, holds=_ROOM),
    Rule(id="piston_back", family="brake pads", grade="omission", when=_fits_new_pads, holds=must("piston back", True)),
    Rule(id="guides_free", family="brake pads", grade="omission", when=_fits_caliper, holds=must("oiled:guides", True)),
    _harm("pads_under_caliper", _fits_caliper, _pads_in),
    _harm("caliper_tight", _goes_on, _caliper_tight),
    _harm("disc_clean", _goes_on, must("clean:disc", True)),
    _harm("hose_straight", _goes_on, must("seen:brake_hose", True)),
    _harm("both_sides", _moves, _both_sides),
    _harm("service_mode_over", before_moving, must("service_mode", "out")),
    Rule(id="brakes_looked_after", family="brake pads", grade="omission", when=_driven_end, holds=must("seen:brake_parts", True)),
    _harm("hose_bled", _hose_opened, _bled),
)
