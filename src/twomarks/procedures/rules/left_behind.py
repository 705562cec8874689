"""Rules about what must not stay behind: parts, tools, waste, the look for leaks, the record and what follows."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, at_end, drained, must, must_all, shown, together, violated

__all__ = ["RULES"]

_WASTE = "waste_directive_2008_98"
_OLD = {"engine": "old_oil", "gear": "old_oil", "coolant": "old_coolant", "brake": "old_brake_fluid", "fuel": "old_fuel"}
"""What is left in the pan, by the sort of circuit it came from."""


def _looked_at(moment: Moment) -> Outcome:
    """Return whether leaks were looked for; where the engine presses the fluid, running and stopped."""
    pressed = drained(moment, "engine", "coolant")
    return must("leaks", "after")(moment) if pressed or not moment.bound.circuits else must("leaks", "dry", "running", "after")(moment)


def _fluid_job_ends(moment: Moment) -> bool:
    return moment.end and any_of(moment.state, "drained", tuple(moment.bound.circuits))


def _bay_empty(moment: Moment) -> Outcome:
    cover = moment.state.get("placed:paint_cover")
    return together([must_all(("rags", "tools"), "away")(moment), violated(thing="paint_cover") if cover else shown()])


def _job_ends(moment: Moment) -> bool:
    return _fluid_job_ends(moment) or (moment.end and bool(moment.state.get("undone")))


def _oil_job_ends(moment: Moment) -> bool:
    return moment.end and any_of(moment.state, "drained", moment.bound.of_sort("engine"))


def _filter_job_ends(moment: Moment) -> bool:
    return moment.end and moment.state.get("old filter") != "fitted"


def _tray_off(moment: Moment) -> Outcome:
    if moment.bound.undertray is False:
        return shown()
    return must("undertray", "off")(moment)


def _undoes_under(moment: Moment) -> bool:
    lets_out = moment.bound.drains | moment.bound.fills | moment.bound.joints
    return acting("loosen", "open")(moment) and moment.step.place == "under" and bool(set(moment.step.things) & lets_out)


def _proved(moment: Moment) -> bool:
    return acting("record", "reset")(moment) and any_of(moment.state, "drained", tuple(moment.bound.circuits))


def _proof(moment: Moment) -> Outcome:
    state = moment.state
    oils = [role for role in moment.bound.of_sort("engine") if state.get(f"drained:{role}")]
    readings = {state.get(f"reading after run:{role}") for role in oils}
    return shown() if state.get("leaks") == "after" and readings <= {"good"} else Outcome("not shown", thing="daybook")


def _followed(moment: Moment) -> Outcome:
    return shown() if moment.bound.follow_ups else Outcome("not shown", thing="daybook", variable="recorded")


def _put_away(moment: Moment) -> Outcome:
    for role in moment.bound.circuits:
        if moment.state.get(f"old:{role}") not in ("in place", "in its can"):
            return violated(thing=_OLD.get(moment.bound.circuits[role].sort, role), variable=f"drained:{role}")
    return shown()


def _poison_ends(moment: Moment) -> bool:
    return moment.end and bool(drained(moment, "coolant", "brake"))


def _runs_or_ends(moment: Moment) -> bool:
    return moment.end or acting("run_engine", "drive")(moment)


def _rejoined(moment: Moment) -> Outcome:
    for variable in sorted(moment.state.names("joined:")):
        how = moment.state.get(variable)
        if how == "parted" or (how == "added" and moment.end):
            return violated(thing=variable.partition(":")[2], variable=variable)
    return shown()


def _engine_at_end(moment: Moment) -> Outcome:
    return shown() if moment.state.get("engine") == "off" else violated(thing="engine", variable="engine")


RULES = (
    Rule(id="tray_off", family="left behind", grade="omission", when=_undoes_under, holds=_tray_off),
    Rule(id="tray_after_look", family="left behind", grade="omission", when=acting("fit", on=("undertray",)), holds=_looked_at),
    Rule(
        id="bay_before_bonnet",
        family="left behind",
        grade="harm",
        when=acting("close", on=("bonnet",)),
        holds=_bay_empty,
        protects=True,
    ),
    Rule(id="proved_first", family="left behind", grade="omission", when=_proved, holds=_proof),
    Rule(id="tray_back", family="left behind", grade="damage", when=at_end, holds=must("undertray", "on")),
    Rule(id="cap_back", family="left behind", grade="damage", when=at_end, holds=must("filler", "shut"), protects=True),
    Rule(id="bonnet_shut", family="left behind", grade="harm", when=at_end, holds=must("bonnet", "shut"), protects=True),
    Rule(id="on_wheels", family="left behind", grade="harm", when=at_end, holds=must("support", "wheels"), protects=True),
    Rule(id="chocks_away", family="left behind", grade="omission", when=at_end, holds=must("chocks", "away")),
    Rule(id="counted", family="left behind", grade="omission", when=at_end, holds=must_all(("rags", "tools"), "away")),
    Rule(id="engine_at_end", family="left behind", grade="harm", when=at_end, holds=_engine_at_end, protects=True),
    Rule(id="leaks", family="left behind", grade="damage", when=_fluid_job_ends, holds=must("leaks", "after")),
    Rule(id="oil_canned", family="waste", grade="omission", when=_fluid_job_ends, holds=_put_away, source=_WASTE),
    Rule(id="filter_drained", family="waste", grade="omission", when=_filter_job_ends, holds=must("old filter", "put to drain")),
    Rule(id="recorded", family="left behind", grade="omission", when=_job_ends, holds=must("recorded", True)),
    Rule(id="rejoined", family="left behind", grade="damage", when=_runs_or_ends, holds=_rejoined, protects=True),
    Rule(id="spills_at_end", family="waste", grade="harm", when=_poison_ends, holds=must("spills", "wiped"), protects=True),
    Rule(id="reminder", family="left behind", grade="advice", when=_oil_job_ends, holds=must("reminder", "reset")),
    Rule(id="follow_up", family="left behind", grade="omission", when=_job_ends, holds=_followed),
)
