"""Rules about the battery: negative off first and on last, poles read, nothing to make a spark, and held down at the end."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, must, shown, violated

__all__ = ["RULES"]

_ORDER = "battery_order_pages"
_LEADS = ("negative", "positive")


def _undoes(moment: Moment, *purposes: str) -> bool:
    return acting("loosen", "remove", "disconnect")(moment) and moment.bound.serves(moment.step.things, *purposes)


def _joins(moment: Moment, *purposes: str) -> bool:
    return acting("fit", "tighten", "connect")(moment) and moment.bound.serves(moment.step.things, *purposes)


def _undoes_positive(moment: Moment) -> bool:
    return _undoes(moment, "positive")


def _joins_negative(moment: Moment) -> bool:
    return _joins(moment, "negative")


def _joins_positive(moment: Moment) -> bool:
    return _joins(moment, "positive")


def _undoes_a_lead(moment: Moment) -> bool:
    return _undoes(moment, *_LEADS)


def _at_the_poles(moment: Moment) -> bool:
    return _undoes(moment, *_LEADS) or _joins(moment, *_LEADS)


def _undoes_first(moment: Moment) -> bool:
    leads = [moment.state.get(f"fastening:{role}") for role in moment.bound.serving(*_LEADS)]
    return _undoes(moment, *_LEADS) and not any(state in ("loose", "out") for state in leads)


def _negative_off(moment: Moment) -> Outcome:
    leads = moment.bound.serving("negative")
    if not leads:
        return Outcome("not shown", thing=first_thing(moment))
    for role in leads:
        if moment.state.get(f"fastening:{role}") not in ("loose", "out"):
            return violated(thing=role)
    return shown()


def _positive_on(moment: Moment) -> Outcome:
    leads = moment.bound.serving("positive")
    if not leads:
        return Outcome("not shown", thing=first_thing(moment))
    for role in leads:
        if moment.state.get(f"fastening:{role}") != "tight":
            return violated(thing=role)
    return shown()


def _battery(moment: Moment) -> tuple[str, ...]:
    return tuple(role for role in moment.bound.serving("battery") if moment.bound.kinds.get(role) == "slot")


def _takes_battery(moment: Moment) -> bool:
    return acting("remove")(moment) and bool(set(moment.step.things) & set(_battery(moment)))


def _fits_battery(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & set(_battery(moment)))


def _both_off(moment: Moment) -> Outcome:
    for role in moment.bound.serving(*_LEADS):
        if moment.state.get(f"fastening:{role}") != "out":
            return violated(thing=role)
    return shown()


def _battery_in(moment: Moment) -> Outcome:
    for role in _battery(moment):
        if moment.state.get(f"part:{role}") == "off":
            return violated(thing=role)
    return shown()


def _renewed(moment: Moment) -> bool:
    parts = [moment.state.get(f"part:{role}") for role in _battery(moment)]
    return moment.end and "new" in parts


def _leads_touched_end(moment: Moment) -> bool:
    return moment.end and bool(moment.bound.serving(*_LEADS)) and bool(moment.state.get("undone"))


RULES = (
    Rule(id="negative_first", family="battery", grade="harm", when=_undoes_positive, holds=_negative_off, source=_ORDER, protects=True),
    Rule(id="negative_last", family="battery", grade="harm", when=_joins_negative, holds=_positive_on, source=_ORDER, protects=True),
    Rule(id="polarity_read", family="battery", grade="harm", when=_joins_positive, holds=must("seen:polarity", True), protects=True),
    Rule(
        id="jewellery_off",
        family="battery",
        grade="harm",
        when=_undoes_first,
        holds=must("placed:jewellery", False),
        source=_ORDER,
        protects=True,
    ),
    Rule(id="no_spark", family="battery", grade="harm", when=_undoes_first, holds=must("seen:flames", True), protects=True),
    Rule(id="battery_engine_off", family="battery", grade="harm", when=_at_the_poles, holds=must("engine", "off"), protects=True),
    Rule(id="lead_aside", family="battery", grade="harm", when=_undoes_positive, holds=must("placed:lead_cover", True), protects=True),
    Rule(id="asleep_first", family="battery", grade="damage", when=_undoes_first, holds=must("asleep", True)),
    Rule(id="codes_known", family="battery", grade="advice", when=_undoes_first, holds=must("seen:codes", True)),
    Rule(id="not_locked_out", family="battery", grade="omission", when=_undoes_first, holds=must("doors", "open")),
    Rule(id="both_leads_off", family="battery", grade="harm", when=_takes_battery, holds=_both_off, protects=True),
    Rule(id="battery_compared", family="battery", grade="damage", when=_fits_battery, holds=must("seen:new_battery", True)),
    Rule(id="battery_in", family="battery", grade="harm", when=_joins_positive, holds=_battery_in, protects=True),
    Rule(id="posts_clean", family="battery", grade="omission", when=_joins_positive, holds=must("clean:posts", True)),
    Rule(id="covers_on", family="battery", grade="harm", when=_leads_touched_end, holds=must("terminal_covers", "shut"), protects=True),
    Rule(id="charge_measured", family="battery", grade="omission", when=_renewed, holds=must("measured:charging_voltage", True)),
    Rule(id="relearned", family="battery", grade="omission", when=_leads_touched_end, holds=must("seen:learned", True)),
    Rule(id="old_battery_upright", family="waste", grade="omission", when=_renewed, holds=must("placed:old_battery", True)),
)
