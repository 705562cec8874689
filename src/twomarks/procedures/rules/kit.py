"""Rules about kit, pan and waste: what must lie ready before the first undo, and what comes out."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, first_thing, must, shown, violated
from twomarks.procedures.sheet_facts import torque_nm
from twomarks.trade.torque import wrench_suits
from twomarks.words import Figure

__all__ = ["PAN_MARGIN", "RULES", "WASTE_FILL"]

_PARTS = ("wheel", "caliper", "pads", "battery", "negative", "positive", "air", "belt")

PAN_MARGIN = 1.2
"""The pan must hold this many times what is expected to come out; common practice, no source."""
WASTE_FILL = 0.95
"""A waste can is filled to this share at most; common practice, no source."""


def _kit(moment: Moment) -> Outcome:
    lacking = sorted(name for name, there in {**moment.kit.tools, **moment.kit.parts}.items() if not there)
    if lacking:
        return violated(thing=lacking[0], lacking=", ".join(lacking))
    return must("kit", "laid out")(moment)


def _first_undo(moment: Moment) -> bool:
    tank = acting("open", on=("coolant_tank", "brake_fluid_tank", *moment.bound.serving("air")))(moment)
    part = acting("remove")(moment) and moment.bound.serves(moment.step.things, *_PARTS)
    undoes = tank or part or acting("loosen", "drain", "bleed")(moment)
    return undoes and not any_of(moment.state, "drained", tuple(moment.bound.circuits))


def _lacks_tool(moment: Moment) -> bool:
    """Return whether a tool of this step is missing in a job that undoes nothing, so that the whole kit is never looked at."""
    if moment.end or not any(moment.kit.tools.get(tool) is False for tool in moment.step.tools):
        return False
    return not any(move.action in ("loosen", "drain", "bleed", "open") for move in moment.bound.moves if move.things != ("bonnet",))


def _tool_there(moment: Moment) -> Outcome:
    lacking = [tool for tool in moment.step.tools if moment.kit.tools.get(tool) is False]
    return violated(thing=lacking[0], lacking=lacking[0])


def _pan_place(moment: Moment) -> Outcome:
    at_plug = moment.step.action == "drain" or bool(set(moment.step.things) & moment.bound.drains)
    return must("pan at", "drain plug" if at_plug else "filter")(moment)


def _flow(moment: Moment) -> bool:
    if acting("drain")(moment):
        return True
    lets_out = acting("loosen", "open")(moment) and bool(set(moment.step.things) & (moment.bound.drains | moment.bound.joints))
    return moment.step.place == "under" and (lets_out or _filter_off(moment))


def _filter_off(moment: Moment) -> bool:
    return acting("remove")(moment) and bool(set(moment.step.things) & moment.bound.filters)


def _expected_l(moment: Moment) -> float | None:
    expected = 0.0
    for role in moment.bound.circuits_in(moment.step.things):
        have = moment.state.number(f"litres:{role}")
        if have is None:
            return None
        expected += have - moment.bound.circuits[role].volumes.residue_l
    return expected


def _comes_out(moment: Moment) -> bool:
    brake = moment.bound.of_sort("brake")
    return acting("drain")(moment) or (acting("bleed")(moment) and bool(set(moment.step.things) & set(brake)))


def _unfit_to_drive(moment: Moment) -> bool:
    """Return whether from here on somebody who gets in and drives off comes to harm: a fluid is out, or a brake is open."""
    brakes = acting("loosen", "remove")(moment) and moment.bound.serves(moment.step.things, "caliper", "pads")
    return _comes_out(moment) or brakes


def _pan_size(moment: Moment) -> Outcome:
    expected, pan = _expected_l(moment), moment.kit.pan_l
    if expected is None or pan is None:
        return shown()
    needed = expected * PAN_MARGIN
    return shown() if pan >= needed else violated(thing="pan", needed=Figure(needed, "L"), pan=Figure(pan, "L"))


def _waste_room(moment: Moment) -> Outcome:
    expected, room = _expected_l(moment), moment.kit.waste_room_l
    if expected is not None and room is not None and room < expected:
        return violated(thing="waste_can", needed=Figure(expected, "L"), room=Figure(room, "L"))
    return must("seen:waste_can", True)(moment)


def _wrench(moment: Moment) -> Outcome:
    torque, wrenches = moment.step.amount, moment.kit.wrenches
    wanted_nm = torque_nm(torque)
    if torque is None or wanted_nm is None or wrenches is None:
        return shown()
    fits = [wrench_suits(torque_nm=wanted_nm, wrench_low_nm=one.low_nm, wrench_high_nm=one.high_nm).state for one in wrenches]
    if any(state != "outside" for state in fits):
        return shown()
    return violated(thing=first_thing(moment), torque=torque)


def _to_a_figure(moment: Moment) -> bool:
    return acting("tighten")(moment) and moment.step.manner == "to figure"


RULES = (
    Rule(id="kit", family="kit", grade="omission", when=_first_undo, holds=_kit),
    Rule(id="tool_there", family="kit", grade="omission", when=_lacks_tool, holds=_tool_there),
    Rule(id="wrench", family="kit", grade="damage", when=_to_a_figure, holds=_wrench, source="iso_6789"),
    Rule(id="pan_there", family="waste", grade="omission", when=_flow, holds=_pan_place),
    Rule(id="pan_size", family="waste", grade="omission", when=acting("drain"), holds=_pan_size),
    Rule(id="waste_room", family="waste", grade="omission", when=_comes_out, holds=_waste_room),
    Rule(id="tag", family="starting", grade="damage", when=_unfit_to_drive, holds=must("tag", "on"), protects=True),
)
