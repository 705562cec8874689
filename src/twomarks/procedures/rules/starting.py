"""Rules about starting the engine: air to breathe, oil inside, everything shut, nothing left in the way."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, must, must_all, shown, violated
from twomarks.procedures.state import LONG_MIN

__all__ = ["RULES"]

_AIR = "cdc_carbon_monoxide"
_running = acting("warm", "run_engine")


def _first_start(moment: Moment) -> bool:
    if not acting("run_engine", "drive")(moment):
        return False
    drained = any_of(moment.state, "drained", tuple(moment.bound.circuits))
    return drained or bool(moment.state.get("undone"))


def _first_start_on_oil(moment: Moment) -> bool:
    return acting("run_engine", "drive")(moment) and any_of(moment.state, "drained", moment.bound.of_sort("engine"))


def _runs_on_new_oil(moment: Moment) -> bool:
    return acting("run_engine")(moment) and _first_start_on_oil(moment)


def _first_run(moment: Moment) -> bool:
    """Return whether the engine runs for the first time on new oil or fuel, with belt or air side touched, or with brakes."""
    if moment.step.action != "run_engine":
        return False
    tried = bool(moment.bound.of_sort("fuel")) or bool(moment.bound.serving("belt", "air"))
    return _runs_on_new_oil(moment) or (acting("run_engine")(moment) and (tried or bool(moment.state.get("brakes touched"))))


def _air(moment: Moment) -> Outcome:
    return violated(thing="vehicle") if moment.kit.air == "garage" else must("air", "outdoors")(moment)


def _oil_inside(moment: Moment) -> Outcome:
    state, bound, role = moment.state, moment.bound, moment.bound.engine_oil
    if state.get(f"shown:{role}"):
        return shown()
    have, least = state.number(f"litres:{role}"), bound.circuits[role].volumes.least_l
    if have is None or least is None:
        return Outcome("not shown", thing=role)
    if have < least:
        return violated(thing=role)
    needs_reading = bound.choices.pour is None or bound.choices.pour.needs_reading_before_start
    return Outcome("not shown", thing=role) if needs_reading else shown()


def _read_at_start(moment: Moment) -> Outcome:
    return must(f"reading at start:{moment.bound.engine_oil}", "good")(moment)


def _lamp(moment: Moment) -> Outcome:
    watched = "lamp" in moment.step.things and bool(moment.step.amount_path)
    return shown() if watched else Outcome("not shown", thing="lamp")


def _stopped(moment: Moment) -> Outcome:
    return must("engine", "off")(moment)


def _over_warm_engine(moment: Moment) -> bool:
    """Return whether hands are above an engine that stands but is warm, whose fan may start by itself."""
    works = not moment.end and moment.step.place == "above" and moment.step.action in ("open", "measure", "inspect", "pour", "clean")
    return works and moment.state.get("engine") == "off" and moment.state.number("since stop") != LONG_MIN


def _fan_still(moment: Moment) -> Outcome:
    return must("key", "with the worker", "out of range")(moment)


def _read_since(moment: Moment) -> Outcome:
    role = moment.bound.engine_oil
    return shown() if moment.state.get(f"read after fill:{role}") else Outcome("not shown", thing="dipstick")


def _how_warm(moment: Moment) -> Outcome:
    return shown() if moment.step.manner else Outcome("not shown", thing="engine")


def _idle(moment: Moment) -> Outcome:
    return shown() if moment.step.pace == "idle only" else Outcome("not shown", thing="engine")


def _tag_off(moment: Moment) -> Outcome:
    return violated(thing="tag") if moment.state.get("tag") == "on" else shown()


def _spills(moment: Moment) -> Outcome:
    return violated(thing="spills") if moment.state.get("spills") == "possible" else shown()


_IN_THE_BAY = must_all(("rags", "tools", "funnel"), "away")

RULES = (
    Rule(id="fresh_air", family="starting", grade="harm", when=_running, holds=_air, source=_AIR, protects=True),
    Rule(id="level_before_warm", family="starting", grade="damage", when=acting("warm"), holds=_read_at_start),
    Rule(id="oil_inside", family="starting", grade="damage", when=_first_start_on_oil, holds=_oil_inside, protects=True),
    Rule(id="cap_on", family="starting", grade="damage", when=_running, holds=must("filler", "shut"), protects=True),
    Rule(id="lamp", family="starting", grade="damage", when=_runs_on_new_oil, holds=_lamp, protects=True),
    Rule(id="stick_before_start", family="starting", grade="omission", when=_runs_on_new_oil, holds=_read_since),
    Rule(id="how_warm", family="starting", grade="omission", when=acting("warm"), holds=_how_warm),
    Rule(id="idle_only", family="starting", grade="advice", when=_first_run, holds=_idle),
    Rule(id="key_after_stop", family="starting", grade="omission", when=acting("take_away", on=("key",)), holds=_stopped),
    Rule(id="fan", family="starting", grade="harm", when=_over_warm_engine, holds=_fan_still, protects=True),
    Rule(id="tag_off", family="starting", grade="omission", when=_first_start, holds=_tag_off),
    Rule(id="key_back", family="starting", grade="omission", when=_first_start, holds=must("key", "in the vehicle")),
    Rule(id="bay_clear", family="left behind", grade="harm", when=_first_start, holds=_IN_THE_BAY, protects=True),
    Rule(id="spills_wiped", family="left behind", grade="harm", when=_first_start, holds=_spills, protects=True),
)
