"""Rules about filter and seals: the old ring seen, the seat wiped, one new seal and not two."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, first_thing, must, shown, violated

__all__ = ["RULES"]


def _fits_filter(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & moment.bound.filters)


def _fits_plug(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & moment.bound.drains)


def _closes(moment: Moment) -> bool:
    return acting("tighten")(moment)


def _oiled(moment: Moment) -> Outcome:
    bound = moment.bound
    greased = bound.filters if bound.filter_kind != "cartridge" else frozenset(bound.seals_of(*bound.joints))
    for role in sorted(greased):
        if not moment.state.get(f"oiled:{role}"):
            return Outcome("not shown", thing=role)
    return shown()


def _closes_filter(moment: Moment) -> bool:
    if moment.bound.filter_kind == "cartridge":
        return _closes(moment) and bool(set(moment.step.things) & moment.bound.joints)
    return _fits_filter(moment)


def _one_new_seal(moment: Moment) -> Outcome:
    for seal in moment.bound.seals_of(*moment.step.things):
        variable = f"part:{seal}"
        if moment.state.get(variable) != "new":
            return violated(thing=seal, part=moment.bound.name(seal), variable=variable)
    return shown()


def _fits_seal(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & moment.bound.seals)


def _owner_out(moment: Moment) -> Outcome:
    for seal in sorted(set(moment.step.things) & moment.bound.seals):
        owner = moment.bound.procedure.roles[seal].of or ""
        if moment.bound.kinds.get(owner) == "fastening" and moment.state.get(f"fastening:{owner}") != "out":
            return violated(thing=seal, part=moment.bound.name(seal))
    return shown()


def _new_filter(moment: Moment) -> Outcome:
    for role in sorted(moment.bound.filters):
        variable = f"part:{role}"
        if moment.state.get(variable) != "new":
            return violated(thing=role, part=moment.bound.name(role), variable=variable)
    return shown()


def _is_new(moment: Moment) -> Outcome:
    return shown() if moment.step.new else violated(thing=first_thing(moment))


def _filter_loose(moment: Moment) -> Outcome:
    for joint in sorted(moment.bound.joints):
        if moment.state.get(f"fastening:{joint}") not in ("loose", "out"):
            return violated(thing=joint)
    return shown()


def _takes_filter(moment: Moment) -> bool:
    return acting("remove")(moment) and bool(set(moment.step.things) & moment.bound.filters)


def _filter_gone(moment: Moment) -> Outcome:
    for role in sorted(set(moment.step.things) & moment.bound.filters):
        if moment.state.get(f"part:{role}") != "off":
            return violated(thing=role, variable=f"part:{role}")
    return shown()


def _plug_seen(moment: Moment) -> Outcome:
    for role in sorted(set(moment.step.things) & moment.bound.drains):
        if not moment.state.get(f"seen:{role}"):
            return Outcome("not shown", thing=role)
    return shown()


def _fits_cap(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & moment.bound.joints)


def _pours_after_drain(moment: Moment) -> bool:
    return acting("pour")(moment) and any_of(moment.state, "drained", moment.bound.circuits_in(moment.step.things))


RULES = (
    Rule(id="old_seal", family="filter and seals", grade="damage", when=_fits_filter, holds=must("old seal", "seen")),
    Rule(id="seat_clean", family="filter and seals", grade="damage", when=_fits_filter, holds=must("clean:seat", True)),
    Rule(id="filter_compared", family="filter and seals", grade="damage", when=_fits_filter, holds=must("seen:new_filter", True)),
    Rule(id="filter_gone", family="filter and seals", grade="damage", when=_fits_filter, holds=_filter_gone),
    Rule(id="ring_oiled", family="filter and seals", grade="damage", when=_closes_filter, holds=_oiled),
    Rule(id="filter_loose", family="filter and seals", grade="omission", when=_takes_filter, holds=_filter_loose),
    Rule(id="one_new_seal", family="filter and seals", grade="damage", when=_closes, holds=_one_new_seal),
    Rule(id="seal_before_plug", family="filter and seals", grade="omission", when=_fits_seal, holds=_owner_out),
    Rule(id="new_part", family="filter and seals", grade="damage", when=_fits_filter, holds=_is_new),
    Rule(id="element_in", family="filter and seals", grade="damage", when=_fits_cap, holds=_new_filter),
    Rule(id="new_filter", family="filter and seals", grade="damage", when=_pours_after_drain, holds=_new_filter),
    Rule(id="plug_looked", family="filter and seals", grade="damage", when=_fits_plug, holds=_plug_seen),
    Rule(id="face_clean", family="filter and seals", grade="omission", when=_fits_plug, holds=must("clean:drain_area", True)),
)
