"""Rules about time: what a fluid, an engine or a held pedal is given, each at the step that gives it."""

from __future__ import annotations

from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, first_thing, shown, violated
from twomarks.procedures.state import LONG_MIN
from twomarks.words import Figure

__all__ = ["RULES"]


def _given(moment: Moment, least: Figure, thing: str) -> Outcome:
    if moment.step.wait_min >= float(least.value):
        return shown()
    return violated(thing=thing, wait=Figure(moment.step.wait_min, "min"), shortest=least)


def _waits_for_oil(moment: Moment) -> bool:
    if moment.step.action != "wait":
        return False
    oils = moment.bound.of_sort("engine", "gear")
    return bool(oils) and acting("wait", on=oils)(moment) and moment.step.manner == ""


def _run_down_given(moment: Moment) -> Outcome:
    return _given(moment, PRACTICE["shortest_run_down"], first_thing(moment))


def _waits_till_cold(moment: Moment) -> bool:
    return (
        not moment.end and moment.step.action == "wait" and moment.step.manner == "cold" and moment.state.number("since stop") != LONG_MIN
    )


def _cooling_given(moment: Moment) -> Outcome:
    return _given(moment, PRACTICE["shortest_cool"], first_thing(moment))


def _first_run(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "run_engine" and any_of(moment.state, "drained", moment.bound.of_sort("engine"))


def _run_given(moment: Moment) -> Outcome:
    return _given(moment, PRACTICE["first_run"], "engine")


def _runs_to_thermostat(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "run_engine" and moment.step.manner == "to thermostat"


def _thermostat_given(moment: Moment) -> Outcome:
    return _given(moment, PRACTICE["shortest_to_thermostat"], "engine")


def _waits_asleep(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "wait" and moment.step.manner == "asleep"


def _sleep_given(moment: Moment) -> Outcome:
    return _given(moment, PRACTICE["shortest_asleep"], "vehicle")


def _holds_pedal(moment: Moment) -> bool:
    return not moment.end and moment.step.action == "press" and moment.step.manner == "held"


def _held_for(moment: Moment) -> Outcome:
    return shown() if moment.step.amount_path else Outcome("not shown", thing=first_thing(moment))


RULES = (
    Rule(id="run_down_given", family="level", grade="omission", when=_waits_for_oil, holds=_run_down_given),
    Rule(id="cooling_given", family="cooling", grade="omission", when=_waits_till_cold, holds=_cooling_given),
    Rule(id="first_run_given", family="level", grade="omission", when=_first_run, holds=_run_given),
    Rule(id="thermostat_given", family="cooling", grade="omission", when=_runs_to_thermostat, holds=_thermostat_given),
    Rule(id="sleep_given", family="battery", grade="omission", when=_waits_asleep, holds=_sleep_given),
    Rule(id="held_for", family="brakes", grade="omission", when=_holds_pedal, holds=_held_for),
)
