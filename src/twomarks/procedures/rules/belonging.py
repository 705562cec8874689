"""Rules about what belongs together in a sheet: a plug and its circuit, a seal and its fastening, a filter and its place."""

from __future__ import annotations

from twomarks.procedures.bound import Bound
from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, shown, together, violated

__all__ = ["RULES"]

_AT_HAND = ("loosen", "open", "remove", "fit", "tighten", "close", "drain", "bleed")


_opens_or_shuts = acting(*_AT_HAND)
_handles = acting("drain", "bleed", "pour")
_pours = acting("pour")
_fits = acting("fit")


def _of_circuit(bound: Bound, role: str) -> str:
    """Return the key of the circuit to which the sheet says a bound fastening belongs, "" where it does not say."""
    part = bound.sheet.fastenings.get(bound.roles.get(role, ""))
    return (part.circuit or "") if part is not None and bound.kinds.get(role) in ("fastening", "tap") else ""


def _own_plug(moment: Moment) -> Outcome:
    bound = moment.bound
    return together(_belongs(bound, thing) for thing in (*moment.step.things, moment.step.through) if thing)


def _belongs(bound: Bound, thing: str) -> Outcome:
    belongs = _of_circuit(bound, thing)
    wanted = bound.roles.get(bound.circuit_of(thing), "") if belongs else ""
    dry = bool(belongs) and bound.procedure.roles[thing].serves not in ("drain", "fill", "bleed")
    return violated(thing=thing, part=bound.name(thing)) if dry or (wanted and belongs != wanted) else shown()


def _handles_circuit(moment: Moment) -> bool:
    return _handles(moment) and bool(moment.bound.circuits_in(moment.step.things))


def _own_circuit(moment: Moment) -> Outcome:
    """Return whether any of its fastenings belongs to a circuit; where all belong to others, the circuit itself is mistaken."""
    bound = moment.bound
    for role in bound.circuits_in(moment.step.things):
        belongs = [_of_circuit(bound, one) for one in bound.kinds if one != role and bound.circuit_of(one) == role]
        known = {one for one in belongs if one}
        if known and role in bound.roles and bound.roles[role] not in known:
            return violated(thing=role, part=bound.name(role))
    return shown()


def _pours_into_worked(moment: Moment) -> bool:
    return _pours(moment) and bool(moment.bound.circuits_in(moment.step.things))


def _worked_on(moment: Moment) -> Outcome:
    """Return whether the circuit that is filled is one that this job opens: one with a plug, a tap or a filter of its own."""
    bound = moment.bound
    opened = {bound.circuit_of(thing) for move in bound.moves if move.action in _AT_HAND for thing in (*move.things, move.through) if thing}
    for role in bound.circuits_in(moment.step.things):
        if opened and role not in opened:
            return violated(thing=role, part=bound.name(role))
    return shown()


def _fits_slot(moment: Moment) -> bool:
    return _fits(moment) and any(moment.bound.kinds.get(thing) == "slot" for thing in moment.step.things)


def _own_part(moment: Moment) -> Outcome:
    return together(_is_meant(moment.bound, thing) for thing in moment.step.things if moment.bound.kinds.get(thing) == "slot")


def _is_meant(bound: Bound, role: str) -> Outcome:
    """Return whether a slot is the one that the sheet has for this place.

    A seal is the one that its fastening names, a filter one of the kind the procedure is for; where the sheet has a part
    under the usual key, another one in its place is doubtful.
    """
    key, part = bound.roles.get(role, ""), bound.procedure.roles[role]
    slot = bound.sheet.slots.get(key)
    if slot is None:
        return shown()
    owner = bound.sheet.fastenings.get(bound.roles.get(part.of or "", ""))
    asked = bound.filter_kind if role in bound.filters else ""
    if role in bound.seals and owner is not None and owner.seal:
        meant = owner.seal == key
    elif role in bound.seals or role in bound.filters or part.serves == "air":
        meant = (not asked or slot.kind in (None, asked)) and (part.usual in (None, key) or part.usual not in bound.sheet.slots)
    else:
        return shown()
    return shown() if meant else violated(thing=role, part=bound.name(role))


_COMPARED = {"battery": "new_battery", "air": "new_element", "pads": "new_pads"}
"""The new part that lies ready, by what its slot serves."""


def _renewable(moment: Moment) -> tuple[str, ...]:
    """Return the slots for which a new part was looked at in this job."""
    bound = moment.bound
    slots = [role for role in bound.serving(*_COMPARED) if bound.kinds.get(role) == "slot"]
    return tuple([role for role in slots if moment.state.get(f"seen:{_COMPARED[bound.procedure.roles[role].serves]}")])


def _ends_renewed(moment: Moment) -> bool:
    return moment.end and bool(_renewable(moment))


def _new_one_in(moment: Moment) -> Outcome:
    return together(
        violated(thing=role, part=moment.bound.name(role), variable=f"part:{role}")
        for role in _renewable(moment)
        if moment.state.get(f"part:{role}") != "new"
    )


RULES = (
    Rule(id="own_plug", family="parts", grade="damage", when=_opens_or_shuts, holds=_own_plug),
    Rule(id="own_circuit", family="parts", grade="damage", when=_handles_circuit, holds=_own_circuit),
    Rule(id="worked_on", family="parts", grade="damage", when=_pours_into_worked, holds=_worked_on),
    Rule(id="new_one_in", family="parts", grade="damage", when=_ends_renewed, holds=_new_one_in),
    Rule(id="own_part", family="parts", grade="damage", when=_fits_slot, holds=_own_part),
)
