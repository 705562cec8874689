"""Rules about the fluid: the right one, through the right opening, enough and not too much, and read when it counts."""

from __future__ import annotations

from twomarks.procedures.actions import reading_now
from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, drained, first_thing, must, shown, violated
from twomarks.words import Figure

__all__ = ["OVERFILL_SHARE", "RULES"]

OVERFILL_SHARE = 0.15
"""How far above the upper mark a calculated pour may come, as a share of the span; our judgement."""

_READINGS = {"running": "rehearsal.read_running", "tilted": "rehearsal.read_tilted", "early": "rehearsal.read_early"}


def _drained_end(moment: Moment) -> bool:
    return moment.end and bool(drained(moment))


def _measurable_end(moment: Moment) -> bool:
    return moment.end and bool(drained(moment, "engine", "gear", "coolant"))


def _poured_to_level_end(moment: Moment) -> bool:
    return moment.end and bool(drained(moment, "gear", "coolant"))


def _oil_drained_end(moment: Moment) -> bool:
    return moment.end and any_of(moment.state, "drained", moment.bound.of_sort("engine"))


def _filler_looked_at(moment: Moment) -> Outcome:
    for role in moment.bound.circuits_in(moment.step.things):
        circuit = moment.bound.circuits[role]
        places = circuit.fills or ({"filler": "filler_area"}.get(circuit.filler, circuit.filler),)
        clean = [moment.state.get(f"clean:{place}") for place in places]
        if not any(clean):
            return Outcome("not shown", thing=circuit.fills[0] if circuit.fills else circuit.filler)
    return shown()


def _right_fluid(moment: Moment) -> Outcome:
    if moment.kit.product == "does not meet":
        return violated(thing="container")
    return must("seen:container", True)(moment)


def _filler_open(moment: Moment) -> Outcome:
    for role in moment.bound.circuits_in(moment.step.things):
        circuit = moment.bound.circuits[role]
        if circuit.filler and moment.state.get(circuit.filler) != "open":
            return violated(thing=circuit.filler)
        plugs = [moment.state.get(f"fastening:{name}") for name in circuit.fills]
        if plugs and "out" not in plugs:
            return violated(thing=circuit.fills[0])
    return shown()


def _not_too_much(moment: Moment) -> Outcome:
    for role in moment.bound.circuits_in(moment.step.things):
        volumes = moment.bound.circuits[role].volumes
        have, full, pour = moment.state.number(f"litres:{role}"), volumes.full_l, moment.step.litres
        if have is None or full is None or pour is None or moment.step.manner == "to level":
            continue
        over = have + pour - full
        if over > OVERFILL_SHARE * volumes.span_l:
            return violated(thing=role, over=Figure(over, "L"))
    return shown()


def _fills_up(moment: Moment) -> bool:
    roles = moment.bound.of_sort("gear", "coolant")
    return bool(roles) and acting("pour", on=roles)(moment)


def _let_out(moment: Moment) -> Outcome:
    for role in moment.bound.circuits_in(moment.step.things):
        if not moment.state.get(f"drained:{role}"):
            return violated(thing=role, part=moment.bound.name(role))
    return shown()


def _reads(moment: Moment) -> bool:
    return acting("measure", on=("dipstick", *moment.bound.circuits))(moment)


def _reading_counts(moment: Moment) -> Outcome:
    for thing in moment.step.things:
        role = moment.bound.engine_oil if thing == "dipstick" else thing
        if role in moment.bound.circuits:
            reading = reading_now(moment.state, moment.bound, role)
            if reading != "good":
                return violated(thing=_cause(moment, role, reading), reading=reading)
    return shown()


def _cause(moment: Moment, role: str, reading: str) -> str:
    """Return what has to be seen to before a reading counts: the engine, how it stands, the plug, or the fluid's own time."""
    fills = moment.bound.circuits[role].fills
    return {"running": "engine", "tilted": "vehicle", "shut": fills[0] if fills else role}.get(reading, role)


def _drains_all(moment: Moment) -> bool:
    """Return whether a circuit is emptied; of the fuel only its water is let out."""
    fuel = set(moment.bound.of_sort("fuel"))
    return acting("drain")(moment) and not fuel & set(moment.step.things)


def _drain_time(moment: Moment) -> Outcome:
    shortest = PRACTICE["shortest_drain"]
    if moment.step.wait_min >= min(float(shortest.value), moment.bound.drain_min):
        return shown()
    return violated(thing=first_thing(moment), wait=Figure(moment.step.wait_min, "min"), shortest=shortest)


def _fresh(moment: Moment) -> Outcome:
    role = moment.bound.engine_oil
    if moment.state.get(f"reading after run:{role}") == "good" and moment.state.get(f"reading:{role}") == "good":
        return shown()
    return Outcome("not shown", thing="dipstick", variable=f"reading:{role}")


def _read(moment: Moment) -> Outcome:
    return must(f"reading:{moment.bound.engine_oil}", "good")(moment)


def _by_table(moment: Moment) -> bool:
    return acting("pour")(moment) and moment.step.manner == "by table"


def _filled(moment: Moment) -> Outcome:
    for role in drained(moment):
        if not moment.state.get(f"filled:{role}"):
            return violated(thing=role, variable=f"drained:{role}")
    return shown()


def _adds_by_table(moment: Moment) -> Outcome:
    """Return whether the procedure says, on whatever condition, what to add for a reading that comes out low."""
    role = moment.bound.engine_oil
    moves = (move for step in moment.bound.procedure.steps for move in step.moves)
    if any(move.action == "pour" and move.manner == "by table" and role in move.acted_on for move in moves):
        return shown()
    return Outcome("not shown", thing=role, variable=f"reading:{role}")


def _ran(moment: Moment) -> Outcome:
    role = moment.bound.engine_oil
    if moment.state.get(f"run after fill:{role}"):
        return shown()
    return Outcome("not shown", thing="engine", variable=f"filled:{role}")


RULES = (
    Rule(id="right_fluid", family="fluid", grade="damage", when=acting("pour"), holds=_right_fluid),
    Rule(id="filler_read", family="fluid", grade="damage", when=acting("pour"), holds=_filler_looked_at),
    Rule(id="filler_open", family="fluid", grade="omission", when=acting("pour"), holds=_filler_open),
    Rule(id="not_too_much", family="level", grade="damage", when=acting("pour"), holds=_not_too_much),
    Rule(id="let_out", family="level", grade="omission", when=_fills_up, holds=_let_out),
    Rule(id="reading_counts", family="level", grade="omission", when=_reads, holds=_reading_counts),
    Rule(id="add_by_reading", family="level", grade="damage", when=_by_table, holds=_read),
    Rule(id="drain_time", family="level", grade="omission", when=_drains_all, holds=_drain_time),
    Rule(id="filled", family="level", grade="damage", when=_drained_end, holds=_filled, protects=True),
    Rule(id="ran", family="level", grade="omission", when=_oil_drained_end, holds=_ran),
    Rule(id="level_after", family="level", grade="damage", when=_oil_drained_end, holds=_fresh),
    Rule(id="add_said", family="level", grade="omission", when=_oil_drained_end, holds=_adds_by_table),
    Rule(id="litres_out", family="level", grade="advice", when=_measurable_end, holds=must("measured:pan", True)),
    Rule(id="in_as_out", family="level", grade="damage", when=_poured_to_level_end, holds=must("measured:poured", True)),
)
