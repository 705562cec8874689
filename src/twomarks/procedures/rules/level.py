"""Rules about the fluid: the right one, through the right opening, enough and not too much, and read when it counts."""

from __future__ import annotations

from twomarks.procedures.actions import reading_now
from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, must, shown, violated
from twomarks.words import Figure

__all__ = ["OVERFILL_SHARE", "RULES"]

OVERFILL_SHARE = 0.15
"""How far above the upper mark a calculated pour may come, as a share of the span; our judgement."""

_READINGS = {"running": "rehearsal.read_running", "tilted": "rehearsal.read_tilted", "early": "rehearsal.read_early"}


def _drained_end(moment: Moment) -> bool:
    return moment.end and bool(moment.state.get("drained"))


def _right_fluid(moment: Moment) -> Outcome:
    if moment.kit.product == "does not meet":
        return violated(thing="container")
    return must("seen:container", True)(moment)


def _filler_open(moment: Moment) -> Outcome:
    return shown() if moment.state.get("filler") == "open" else violated(thing="filler")


def _not_too_much(moment: Moment) -> Outcome:
    have, full, pour = moment.state.number("litres:engine"), moment.bound.volumes.full_l, moment.step.litres
    if have is None or full is None or pour is None:
        return shown()
    over = have + pour - full
    if over > OVERFILL_SHARE * moment.bound.volumes.span_l:
        return violated(thing=moment.step.things[0], over=Figure(over, "L"))
    return shown()


def _reads(moment: Moment) -> bool:
    return acting("measure", on=("dipstick",))(moment)


def _reading_counts(moment: Moment) -> Outcome:
    reading = reading_now(moment.state, moment.bound)
    return shown() if reading == "good" else violated(thing="dipstick", reading=reading)


def _drain_time(moment: Moment) -> Outcome:
    shortest = PRACTICE["shortest_drain"]
    if moment.step.wait_min >= min(float(shortest.value), moment.bound.drain_min):
        return shown()
    return violated(thing="oil", wait=Figure(moment.step.wait_min, "min"), shortest=shortest)


def _fresh(moment: Moment) -> Outcome:
    if moment.state.get("reading after run") == "good" and moment.state.get("reading") == "good":
        return shown()
    return Outcome("not shown", thing="dipstick", variable="reading")


def _by_table(moment: Moment) -> bool:
    return acting("pour")(moment) and moment.step.manner == "by table"


def _filled(moment: Moment) -> Outcome:
    return shown() if moment.state.get("filled") else violated(thing="oil", variable="drained")


def _ran(moment: Moment) -> Outcome:
    return shown() if moment.state.get("run after fill") else Outcome("not shown", thing="engine", variable="filled")


RULES = (
    Rule(id="right_fluid", family="fluid", grade="damage", when=acting("pour"), holds=_right_fluid),
    Rule(id="filler_read", family="fluid", grade="damage", when=acting("pour"), holds=must("filler_area", "clean")),
    Rule(id="filler_open", family="fluid", grade="omission", when=acting("pour"), holds=_filler_open),
    Rule(id="not_too_much", family="level", grade="damage", when=acting("pour"), holds=_not_too_much),
    Rule(id="reading_counts", family="level", grade="omission", when=_reads, holds=_reading_counts),
    Rule(id="add_by_reading", family="level", grade="damage", when=_by_table, holds=must("reading", "good")),
    Rule(id="drain_time", family="level", grade="omission", when=acting("drain"), holds=_drain_time),
    Rule(id="filled", family="level", grade="damage", when=_drained_end, holds=_filled, protects=True),
    Rule(id="ran", family="level", grade="omission", when=_drained_end, holds=_ran),
    Rule(id="level_after", family="level", grade="damage", when=_drained_end, holds=_fresh),
    Rule(id="litres_out", family="level", grade="advice", when=_drained_end, holds=must("measured:pan", True)),
)
