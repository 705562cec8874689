"""Rules about diesel fuel: the low-pressure side only, cold, no flame, nothing unfiltered on the clean side, primed, shut and dry."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, first_thing, must, shown, violated

__all__ = ["RULES"]


def _fuel(moment: Moment) -> tuple[str, ...]:
    return moment.bound.of_sort("fuel")


def _opens(moment: Moment) -> bool:
    """Return whether this move opens the fuel side."""
    if not _fuel(moment) or not acting("loosen", "open", "remove", "disconnect", "drain", "bleed")(moment):
        return False
    return any(moment.bound.circuit_of(thing) in _fuel(moment) for thing in moment.step.things)


def _takes_filter(moment: Moment) -> bool:
    if not _fuel(moment) or not acting("loosen", "remove")(moment):
        return False
    parts = {*moment.bound.filters, *moment.bound.joints} & set(moment.step.things)
    return any(moment.bound.circuit_of(thing) in _fuel(moment) for thing in parts)


def _pours(moment: Moment) -> bool:
    return bool(_fuel(moment)) and acting("pour", on=_fuel(moment))(moment)


def _primes(moment: Moment) -> bool:
    return bool(_fuel(moment)) and acting("prime", on=_fuel(moment))(moment)


def _starts(moment: Moment) -> bool:
    return bool(_fuel(moment)) and acting("run_engine", "drive")(moment) and bool(moment.state.get("undone"))


def _cranks(moment: Moment) -> bool:
    return _starts(moment) and moment.step.action == "run_engine"


def _starts_or_ends(moment: Moment) -> bool:
    return _starts(moment) or _ends(moment)


def _ends(moment: Moment) -> bool:
    return moment.end and bool(_fuel(moment)) and bool(moment.state.get("undone"))


def _is_diesel(moment: Moment) -> Outcome:
    fact = moment.bound.sheet.engine.fuel
    fuel = str(getattr(fact, "text", fact) or "")
    if not fuel:
        return Outcome("not shown", thing=_fuel(moment)[0])
    return shown() if fuel == "diesel" else violated(thing=_fuel(moment)[0])


def _cold(moment: Moment) -> Outcome:
    for role in _fuel(moment):
        outcome = must(f"heat:{role}", "cold")(moment)
        if outcome.verdict != "shown":
            return Outcome(outcome.verdict, thing=role)
    return shown()


def _dirty_side(moment: Moment) -> Outcome:
    return shown() if moment.step.manner == "dirty side" else Outcome("not shown", thing=first_thing(moment))


def _primed(moment: Moment) -> Outcome:
    for role in _fuel(moment):
        if not moment.state.get(f"primed:{role}"):
            return violated(thing=role, variable=f"primed:{role}")
    return shown()


def _limit_said(moment: Moment) -> Outcome:
    return shown() if moment.step.amount_path else Outcome("not shown", thing="engine")


def _key_away(moment: Moment) -> Outcome:
    if moment.bound.keyless:
        return must("key", "out of range")(moment)
    return must("key", "with the worker", "out of range")(moment)


def _has_water_drain(moment: Moment) -> bool:
    drains = [drain for role in _fuel(moment) for drain in moment.bound.circuits[role].drains]
    return _takes_filter(moment) and any(drain in moment.bound.roles for drain in drains)


def _water_out(moment: Moment) -> Outcome:
    for role in _fuel(moment):
        if not moment.state.get(f"drained:{role}"):
            return Outcome("not shown", thing=role)
    return shown()


def _closed(moment: Moment) -> Outcome:
    for variable in sorted(moment.state.names("fastening:")):
        role = variable.partition(":")[2]
        if moment.bound.circuit_of(role) in _fuel(moment) and moment.state.get(variable) != "tight":
            return violated(thing=role, part=moment.bound.name(role), variable=variable)
    return shown()


def _bled(moment: Moment) -> Outcome:
    for role in _fuel(moment):
        for screw in moment.bound.circuits[role].bleeds:
            if screw in moment.bound.roles and not moment.state.get(f"bled:{screw}"):
                return violated(thing=screw, part=moment.bound.name(screw))
    return shown()


RULES = (
    Rule(id="fuel_is_diesel", family="fuel", grade="harm", when=_opens, holds=_is_diesel, protects=True),
    Rule(id="fuel_cold", family="fuel", grade="harm", when=_opens, holds=_cold, protects=True),
    Rule(id="fuel_no_flame", family="fuel", grade="harm", when=_opens, holds=must("seen:flames", True), protects=True),
    Rule(id="fuel_in_the_open", family="fuel", grade="harm", when=_opens, holds=must("air", "outdoors"), protects=True),
    Rule(id="low_pressure_known", family="fuel", grade="harm", when=_opens, holds=must("seen:fuel_low_pressure", True), protects=True),
    Rule(id="fuel_key_away", family="fuel", grade="harm", when=_opens, holds=_key_away, protects=True),
    Rule(id="fuel_outside_clean", family="fuel", grade="damage", when=_takes_filter, holds=must("clean:housing", True)),
    Rule(id="water_let_out", family="fuel", grade="omission", when=_has_water_drain, holds=_water_out),
    Rule(id="fuel_shut_off", family="fuel", grade="omission", when=_takes_filter, holds=must("fuel_tap", "shut")),
    Rule(id="clean_side_empty", family="fuel", grade="damage", when=_pours, holds=_dirty_side, source="prefilling_page"),
    Rule(id="fuel_tap_open", family="fuel", grade="omission", when=_primes, holds=must("fuel_tap", "open")),
    Rule(id="fuel_bled", family="fuel", grade="damage", when=_starts, holds=_bled),
    Rule(id="fuel_primed", family="fuel", grade="damage", when=_starts, holds=_primed, source="diesel_bleeding_pages"),
    Rule(id="crank_limit", family="fuel", grade="damage", when=_cranks, holds=_limit_said),
    Rule(
        id="fuel_dry_first",
        family="fuel",
        grade="harm",
        when=_cranks,
        holds=must("leaks", "dry", "running", "after"),
        protects=True,
    ),
    Rule(id="fuel_closed", family="fuel", grade="harm", when=_starts_or_ends, holds=_closed, protects=True),
    Rule(id="fuel_dry", family="fuel", grade="harm", when=_ends, holds=must("leaks", "after"), protects=True),
)
