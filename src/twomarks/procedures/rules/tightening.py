"""Rules about fastenings: loosened before they come out, started by hand, tightened to a figure, none forgotten."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, shown, together, violated

__all__ = ["RULES"]


def _to_figure(moment: Moment) -> Outcome:
    said = moment.step.manner == "to figure" and bool(moment.step.amount_path)
    return shown() if said else Outcome("not shown", thing=first_thing(moment))


def _figure_known(moment: Moment) -> Outcome:
    missing = bool(moment.step.amount_path) and moment.step.amount is None
    return Outcome("not shown", {"path": moment.step.amount_path}, first_thing(moment)) if missing else shown()


def _started_by_hand(moment: Moment) -> Outcome:
    for thing in moment.step.things:
        ready = ("by hand", "loose") if thing in moment.bound.bleeds else ("by hand",)
        if moment.state.get(f"fastening:{thing}") not in ready:
            return violated(thing=thing, part=moment.bound.name(thing))
    return shown()


def _loosened(moment: Moment) -> Outcome:
    plug = moment.step.through
    if plug and moment.state.get(f"fastening:{plug}") != "loose":
        return violated(thing=plug, part=moment.bound.name(plug))
    return shown()


def _removed_first(moment: Moment) -> Outcome:
    for thing in moment.step.things:
        if moment.bound.kinds.get(thing) == "fastening" and moment.state.get(f"fastening:{thing}") != "out":
            return violated(thing=thing, part=moment.bound.name(thing))
    return shown()


def _open_fastening(moment: Moment) -> Outcome:
    return together(_not_tight(moment, variable) for variable in sorted(moment.state.names("fastening:")))


def _not_tight(moment: Moment, variable: str) -> Outcome:
    if moment.state.get(variable) == "tight":
        return shown()
    role = variable.partition(":")[2]
    return violated(thing=role, part=moment.bound.name(role), variable=variable)


def _leaves_open(moment: Moment) -> Outcome:
    for role in sorted(moment.bound.drains):
        if moment.state.get(f"fastening:{role}") != "tight":
            return violated(thing=role, part=moment.bound.name(role), variable=f"fastening:{role}")
    return shown()


def _starts_or_ends(moment: Moment) -> bool:
    return moment.end or acting("run_engine", "drive")(moment)


_tightens = acting("tighten")


def _tightens_at_last(moment: Moment) -> bool:
    return _tightens(moment) and moment.step.manner != "snug"


def _tightens_by_wrench(moment: Moment) -> bool:
    return _tightens(moment) and not moment.bound.serves(moment.step.things, "wheel")


RULES = (
    Rule(id="to_figure", family="torque", grade="damage", when=_tightens_at_last, holds=_to_figure),
    Rule(id="figure_known", family="torque", grade="advice", when=_tightens_at_last, holds=_figure_known),
    Rule(id="by_hand_first", family="torque", grade="damage", when=_tightens_by_wrench, holds=_started_by_hand),
    Rule(id="loosened", family="torque", grade="omission", when=acting("drain", "bleed"), holds=_loosened),
    Rule(id="taken_out", family="torque", grade="omission", when=acting("fit"), holds=_removed_first),
    Rule(id="plug_before_pour", family="torque", grade="damage", when=acting("pour"), holds=_leaves_open, protects=True),
    Rule(id="all_tight", family="torque", grade="damage", when=_starts_or_ends, holds=_open_fastening, protects=True),
)
