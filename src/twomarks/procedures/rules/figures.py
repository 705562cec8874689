"""Rules about figures: the torque of the fastening in hand, the refill of the circuit that is filled, and how far a pour goes."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, shown, violated
from twomarks.procedures.sheet_facts import figure_of, torque_nm

__all__ = ["FEWEST_OTHERS", "RULES"]

FEWEST_OTHERS = 2
"""From how many torques with one unit on a sheet's other torque is told by its other unit; our judgement."""

_BY_PLAN = {"first pour": "pour.first", "second pour": "pour.second", "by table": "pour.by_table"}
"""The figure that belongs to each manner of pouring an engine's oil."""

_tightens = acting("tighten")
_pours = acting("pour")


def _key(path: str, group: str) -> str:
    """Return the key in the sheet of a path such as ``fastenings.drain.torque``, "" where it is in another group."""
    head, _, rest = path.partition(".")
    return rest.rpartition(".")[0] if head == group else ""


def _keys(moment: Moment) -> set[str]:
    roles = moment.bound.procedure.roles
    return {moment.bound.roles.get(thing) or (roles[thing].usual if thing in roles else None) or thing for thing in moment.step.things}


def _own_torque(moment: Moment) -> Outcome:
    path = moment.step.amount_path
    if not path or _key(path, "fastenings") in _keys(moment):
        return shown()
    thing = first_thing(moment)
    return violated(thing=thing, part=moment.bound.name(thing))


def _unit_of_its_own(moment: Moment) -> Outcome:
    """Return whether a torque has the unit that the sheet's others have; where all others have one, a second may be a slip."""
    figure = moment.step.amount
    if figure is None or torque_nm(figure) is None:
        return shown()
    others = [figure_of(part, "torque") for part in moment.bound.sheet.fastenings.values()]
    units = [other.unit for other in others if other is not None and other != figure]
    if len(units) >= FEWEST_OTHERS and len(set(units)) == 1 and figure.unit != units[0]:
        return Outcome("default", {"torque": figure}, first_thing(moment))
    return shown()


def _circuits_poured(moment: Moment) -> tuple[str, ...]:
    return moment.bound.circuits_in(moment.step.things)


def _pours_a_refill(moment: Moment) -> bool:
    return _pours(moment) and moment.step.amount_path.startswith("circuits.") and bool(_circuits_poured(moment))


def _refills(moment: Moment, role: str) -> tuple[str, ...]:
    """Return the facts of a sheet that say how much goes into a circuit in this job."""
    return ("refill", "refill_with_filter" if moment.bound.circuits[role].filters else "refill_without_filter")


def _own_refill(moment: Moment) -> Outcome:
    path = moment.step.amount_path
    for role in _circuits_poured(moment):
        if _key(path, "circuits") not in _keys(moment) or path.rpartition(".")[2] not in _refills(moment, role):
            return violated(thing=role, part=moment.bound.name(role))
    return shown()


def _pours_by_plan(moment: Moment) -> bool:
    if moment.step.action != "pour":
        return False
    engine = moment.bound.of_sort("engine")
    return _pours(moment) and bool(engine) and bool(set(engine) & set(moment.step.things)) and moment.step.manner in _BY_PLAN


def _by_plan(moment: Moment) -> Outcome:
    if moment.step.amount_path in ("", _BY_PLAN[moment.step.manner]):
        return shown()
    return violated(thing=first_thing(moment))


def _pour_ends(moment: Moment) -> Outcome:
    return shown() if moment.step.manner else Outcome("not shown", thing=first_thing(moment))


def _how_much(moment: Moment) -> Outcome:
    """Return whether a pour has a figure; what is only filled up to its mark again, or a tank kept full, needs none."""
    if moment.step.amount_path:
        return shown()
    for role in _circuits_poured(moment):
        topped_up = moment.bound.circuits[role].sort == "brake" or bool(moment.state.get(f"filled:{role}"))
        if moment.step.manner != "to level" or not topped_up:
            return Outcome("not shown", thing=role)
    return shown()


def _not_again(moment: Moment) -> Outcome:
    for role in _circuits_poured(moment):
        if moment.state.get(f"last pour:{role}") == f"{moment.step.manner} {moment.step.amount_path}":
            return violated(thing=role, part=moment.bound.name(role))
    return shown()


RULES = (
    Rule(id="own_torque", family="torque", grade="damage", when=_tightens, holds=_own_torque),
    Rule(id="odd_unit", family="torque", grade="advice", when=_tightens, holds=_unit_of_its_own),
    Rule(id="own_refill", family="level", grade="damage", when=_pours_a_refill, holds=_own_refill),
    Rule(id="by_plan", family="level", grade="damage", when=_pours_by_plan, holds=_by_plan),
    Rule(id="pour_ends", family="level", grade="omission", when=_pours, holds=_pour_ends),
    Rule(id="how_much", family="level", grade="omission", when=_pours, holds=_how_much),
    Rule(id="poured_again", family="level", grade="omission", when=_pours, holds=_not_again),
)
