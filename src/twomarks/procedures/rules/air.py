"""Rules about the air side: no dust falls in, nothing stays in the duct, and the element sits all round."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, must, shown, violated

__all__ = ["RULES"]

_CLEANER = "air_cleaner_manuals"


def _elements(moment: Moment) -> tuple[str, ...]:
    return tuple(role for role in moment.bound.serving("air") if moment.bound.kinds.get(role) == "slot")


def _opens(moment: Moment) -> bool:
    lids = acting("open", "loosen", "remove")(moment) and moment.bound.serves(moment.step.things, "air")
    return lids and not set(moment.step.things) & set(_elements(moment))


def _closes(moment: Moment) -> bool:
    lids = acting("close", "tighten")(moment) and moment.bound.serves(moment.step.things, "air")
    return lids and not set(moment.step.things) & set(_elements(moment))


def _fits(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & set(_elements(moment)))


def _takes(moment: Moment) -> bool:
    return acting("remove")(moment) and bool(set(moment.step.things) & set(_elements(moment)))


def _lid_open(moment: Moment) -> Outcome:
    lids = [role for role in moment.bound.serving("air") if role not in _elements(moment)]
    for role in lids:
        if moment.state.get(f"fastening:{role}") not in ("loose", "out"):
            return violated(thing=role)
    return shown()


def _cleans_element(moment: Moment) -> bool:
    return acting("clean")(moment) and bool(set(moment.step.things) & set(_elements(moment)))


def _ends(moment: Moment) -> bool:
    return moment.end and bool(_elements(moment)) and bool(moment.state.get("undone"))


def _outlet_free(moment: Moment) -> Outcome:
    return violated(thing="duct_cover", variable="placed:duct_cover") if moment.state.get("placed:duct_cover") else shown()


def _element_seen(moment: Moment) -> Outcome:
    for role in _elements(moment):
        if not moment.state.get(f"seen:{role}"):
            return Outcome("not shown", thing=role)
    return shown()


def _gently(moment: Moment) -> Outcome:
    return shown() if moment.step.manner == "clean side" else Outcome("not shown", thing=first_thing(moment))


_cleans_inside = acting("clean", on=("airbox_inside",))

RULES = (
    Rule(id="airbox_engine_off", family="air side", grade="damage", when=_opens, holds=must("engine", "off"), protects=True),
    Rule(id="airbox_clean", family="air side", grade="damage", when=_opens, holds=must("clean:airbox", True)),
    Rule(id="lid_open", family="air side", grade="omission", when=_takes, holds=_lid_open),
    Rule(id="outlet_covered", family="air side", grade="damage", when=_cleans_inside, holds=must("placed:duct_cover", True)),
    Rule(id="outlet_free", family="air side", grade="damage", when=_closes, holds=_outlet_free, protects=True),
    Rule(id="element_looked", family="air side", grade="omission", when=_fits, holds=_element_seen),
    Rule(id="element_compared", family="air side", grade="damage", when=_fits, holds=must("seen:new_element", True)),
    Rule(id="box_wiped", family="air side", grade="damage", when=_fits, holds=must("clean:airbox_inside", True)),
    Rule(id="element_not_blown", family="air side", grade="damage", when=_cleans_element, holds=_gently, source=_CLEANER),
    Rule(id="element_seated", family="air side", grade="damage", when=_closes, holds=must("seen:air_seat", True), protects=True),
    Rule(id="ducts_looked", family="air side", grade="omission", when=_ends, holds=must("seen:air_duct", True)),
    Rule(id="air_listened", family="air side", grade="omission", when=_ends, holds=must("heard:intake", True)),
)
