"""The other circuits: coolant, brake fluid, gear oil, tyres and battery."""

from __future__ import annotations

from typing import Any, cast

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import InputError, OutOfRangeError
from twomarks.words import Figure, Message, Value, say

__all__ = ["CALCULATIONS"]

HANDBOOK = "reckon_circuits.handbook"
MOST_GLYCOL = 60.0
REFILL_SOURCES = ("mixing_by_volume", "coolprop_glycol")
REFILL_CAUTIONS = ("reckon_circuits.coolant_hot", "reckon_circuits.mix_by_running", "reckon_circuits.coolant_waste")


def _coolant(given: Given) -> Reckoned:
    """Answer with the freezing point of a coolant, and whether it is enough for the cold expected."""
    from twomarks.trade.coolant import coolant_state

    found = coolant_state(glycol=given.text("glycol"), volume_percent=given.number("share"), coldest_c=given.optional("coldest"))
    results = {"freeze_c": found.freeze_c, "state": found.state}
    sources = ("coolprop_glycol", "langes_glycol", "freeze_point_pages")
    return Reckoned(
        found.reasons, results, sources, (say("reckon_circuits.coolant_hot"), say("reckon_circuits.coolant_colour"), say(HANDBOOK))
    )


def _refill(given: Given) -> Reckoned:
    """Answer with what to drain at once for a share of glycol, and how many partial drainings reach it."""
    from twomarks.trade.coolant import drain_for_target, glycol_after_refills, refills_needed

    volume_l, start, new, target = (given.number(key) for key in ("volume", "share", "new", "target"))
    drain_l = drain_for_target(volume_l=volume_l, start_percent=start, target_percent=target, new_percent=new)
    shares = {"start": Figure(start, "%"), "target": Figure(target, "%"), "new": Figure(new, "%")}
    lines = [say("reckon_circuits.drain", drain=Figure(drain_l, "L"), **shares)]
    results: dict[str, Any] = {"drain_l": drain_l}
    if given.has("drained"):
        times = refills_needed(start_percent=start, new_percent=new, drained_percent=_drained_percent(given), target_percent=target)
        reached = glycol_after_refills(start_percent=start, new_percent=new, drained_percent=_drained_percent(given), times=times)
        lines.append(say("reckon_circuits.refills", times=times, drained=given.figure("drained"), reached=Figure(reached, "%"), **shares))
        if reached > MOST_GLYCOL:
            lines.append(say("reckon_circuits.overshoots", most=Figure(MOST_GLYCOL, "%")))
        results |= {"refills": times, "reached_percent": reached}
    _add_freezing(given, target, lines, results)
    return Reckoned(tuple(lines), results, REFILL_SOURCES, tuple(Message(key) for key in REFILL_CAUTIONS))


def _after(given: Given) -> Reckoned:
    """Answer with the share of glycol that a number of partial drainings and fillings leaves."""
    from twomarks.trade.coolant import glycol_after_refills

    times = given.number("times")
    if times != int(times):
        raise InputError("reckon_circuits.whole_times", where="times", found=given.where("times"), example="2")
    start, new, drained = given.number("share"), given.number("new"), _drained_percent(given)
    after = glycol_after_refills(start_percent=start, new_percent=new, drained_percent=drained, times=int(times))
    replaced = glycol_after_refills(start_percent=0.0, new_percent=100.0, drained_percent=drained, times=int(times))
    told: dict[str, Value] = {"times": int(times), "share": Figure(after, "%"), "replaced": Figure(replaced, "%")}
    lines = [say("reckon_circuits.after", **told)]
    results: dict[str, Any] = {"after_percent": after, "replaced_percent": replaced}
    if after <= MOST_GLYCOL:
        _add_freezing(given, after, lines, results)
    else:
        lines.append(say("reckon_circuits.too_strong", most=Figure(MOST_GLYCOL, "%")))
    return Reckoned(tuple(lines), results, REFILL_SOURCES, tuple(Message(key) for key in REFILL_CAUTIONS))


def _drained_percent(given: Given) -> float:
    """Return what comes out in one draining, of the whole circuit [%]."""
    from twomarks.trade.arrays import require_within

    volume_l = given.number("volume")
    require_within(volume_l, quantity="volume", unit="L", source="mixing_by_volume", above=0.0, high=100.0)
    require_within(given.number("drained"), quantity="volume drained", unit="L", source="mixing_by_volume", above=0.0, high=volume_l)
    return 100.0 * given.number("drained") / volume_l


def _add_freezing(given: Given, share: float, lines: list[Message], results: dict[str, Any]) -> None:
    from twomarks.trade.coolant import coolant_state

    state = coolant_state(glycol=given.text("glycol"), volume_percent=share)
    lines.append(state.reasons[0])
    results["freeze_c"] = state.freeze_c


def _brake_fluid(given: Given) -> Reckoned:
    """Answer with the limits of a class, what a boiling point says, and whether another class may be added."""
    from twomarks.trade.brake_fluid import brake_fluid_class, brake_fluid_mixture, brake_fluid_state

    row = brake_fluid_class(text=given.text("fluid"))
    dry, wet = Figure(row.dry_min_c, "C"), Figure(row.wet_min_c, "C")
    lines = [say("reckon_circuits.brake_limits", fluid=row.name, base=say(f"reckon_circuits.base_{row.base}"), dry=dry, wet=wet)]
    results: dict[str, Any] = {"class": row.name, "base": row.base, "dry_min_c": row.dry_min_c, "wet_min_c": row.wet_min_c}
    cautions: tuple[Message, ...] = (say("brake_fluid.licensed"),)
    sources = ["fmvss_116"]
    if given.has("boiling"):
        state = brake_fluid_state(fluid=row.name, boiling_c=given.number("boiling"))
        lines.append(state.reason)
        results["state"] = state.state
        cautions = state.cautions
        sources += ["common_practice", "house_judgement"]
    if given.has("add"):
        mixture = brake_fluid_mixture(in_system=row.name, to_add=given.text("add"))
        lines.append(mixture.reason)
        results["mixture"] = mixture.state
        sources.append("brake_fluid_pages")
    return Reckoned(tuple(lines), results, tuple(sources), cautions)


def _gear_oil(given: Given) -> Reckoned:
    """Answer whether a gear oil is of the class asked for and suits a limited slip axle."""
    from twomarks.trade.gear_oil import gear_oil_fit

    found = gear_oil_fit(
        asked=given.text("asked"),
        label=given.text("label"),
        unit=cast("Any", given.text("unit")),
        has_limited_slip=given.flag("limited-slip"),
    )
    verdict = say(f"reckon_circuits.gear_oil_{found.state.replace(' ', '_')}", label=given.text("label"), asked=given.text("asked"))
    sources = ("api_1560_copies", "gear_oil_yellow_metal", "sae_2007_01_1988")
    return Reckoned((verdict, *found.reasons), {"state": found.state}, sources, (say("reckon_circuits.gear_oil_grade"), say(HANDBOOK)))


def _tyre(given: Given) -> Reckoned:
    """Answer with what the gauge reads on the same tyre at another temperature, and at another height."""
    from twomarks.trade.tyres import air_pressure, tyre_pressure

    height_km, to_height_km = given.optional("height") or 0.0, given.optional("to-height")
    air_bar = air_pressure(height_m=1000.0 * height_km)
    to_air_bar = air_bar if to_height_km is None else air_pressure(height_m=1000.0 * to_height_km)
    found = tyre_pressure(
        pressure_bar=given.number("pressure"),
        temp_c=given.number("at"),
        to_temp_c=given.number("to"),
        air_bar=air_bar,
        to_air_bar=to_air_bar,
    )
    line = say(
        "reckon_circuits.tyre",
        pressure=given.figure("pressure"),
        at=given.figure("at"),
        to=given.figure("to"),
        found=Figure(found, "bar"),
        height=_as_typed(given, "to-height") if given.has("to-height") else None,
    )
    results = {"pressure_bar": found, "air_bar": air_bar, "to_air_bar": to_air_bar}
    sources = ("tyre_gas_law", "standard_atmosphere") if height_km or to_height_km is not None else ("tyre_gas_law",)
    return Reckoned((line,), results, sources, (say("reckon_circuits.tyre_cold"),))


def _battery(given: Given) -> Reckoned:
    """Answer with the charge of a battery, when its acid freezes, and how it cranks in the cold expected."""
    from twomarks.trade.battery import battery_state, cranking_need, cranking_power

    rest_min = given.optional("rest")
    found = battery_state(
        voltage_v=given.number("voltage"), temp_c=given.number("temp"), rest_h=None if rest_min is None else rest_min / 60.0
    )
    lines = list(found.reasons)
    results: dict[str, Any] = {"charge_percent": found.charge_percent, "state": found.state, "freeze_c": found.freeze_c}
    sources = ["battery_rest_voltage", "battery_rest_time", "battery_freezing_manual"]
    if given.has("coldest"):
        coldest_c = given.number("coldest")
        cold = given.figure("coldest")
        lines.append(
            say("reckon_circuits.acid_freezes_first" if coldest_c <= found.freeze_c else "reckon_circuits.acid_stays", coldest=cold)
        )
        try:
            power, need = cranking_power(temp_c=coldest_c), cranking_need(temp_c=coldest_c)
        except OutOfRangeError:
            lines.append(say("reckon_circuits.cranking_not_told", coldest=cold))
        else:
            lines.append(
                say(
                    "reckon_circuits.cranking",
                    coldest=cold,
                    power=_percent(power),
                    need=_percent(need),
                    margin=_percent(100.0 * power / need),
                )
            )
            results |= {"cranking_power_percent": power, "cranking_need_percent": need, "cranking_margin_percent": 100.0 * power / need}
        sources.append("battery_cranking_pages")
    return Reckoned(tuple(lines), results, tuple(sources), (say("reckon_circuits.battery_care"),))


def _as_typed(given: Given, key: str) -> str:
    """Return a quantity in the unit in which it was typed: a height in metres stays one."""
    unit = given.quantity(key).unit
    return units.written(units.in_unit(given.number(key), unit=units.KINDS[given.quantity(key).kind].core, to=unit), unit=unit)


def _percent(value: float) -> Figure:
    return Figure(float(round(value)), "%")


GLYCOL = Asked("glycol", "choice", "ethylene", choices=("ethylene", "propylene"))
VOLUME = Asked("volume", "volume", "8 L")
SHARE = Asked("share", "share", "30 %")
NEW = Asked("new", "share", "50 %", default="100 %")
CALCULATIONS = (
    Calculation("coolant", _coolant, (GLYCOL, Asked("share", "share", "50 %"), Asked("coldest", "temperature", "-25 C", needed=False))),
    Calculation(
        "coolant-refill",
        _refill,
        (GLYCOL, VOLUME, SHARE, Asked("target", "share", "50 %"), NEW, Asked("drained", "volume", "4.8 L", needed=False)),
    ),
    Calculation(
        "coolant-after",
        _after,
        (GLYCOL, VOLUME, SHARE, Asked("drained", "volume", "4.8 L"), Asked("times", "number", "2", default="1"), NEW),
    ),
    Calculation(
        "brake-fluid",
        _brake_fluid,
        (
            Asked("fluid", "text", "DOT 4"),
            Asked("boiling", "temperature", "165 C", needed=False),
            Asked("add", "text", "DOT 5.1", needed=False),
        ),
    ),
    Calculation(
        "gear-oil",
        _gear_oil,
        (
            Asked("asked", "text", "GL-4"),
            Asked("label", "text", "SAE 75W-90, API GL-5"),
            Asked("unit", "choice", "gearbox", choices=("gearbox", "axle", "transfer case")),
            Asked("limited-slip", "yes or no", "no", needed=False),
        ),
    ),
    Calculation(
        "tyre",
        _tyre,
        (
            Asked("pressure", "pressure", "32 psi"),
            Asked("at", "temperature", "70 F"),
            Asked("to", "temperature", "20 F"),
            Asked("height", "distance", "500 m", needed=False),
            Asked("to-height", "distance", "2000 m", needed=False),
        ),
    ),
    Calculation(
        "battery",
        _battery,
        (
            Asked("voltage", "voltage", "12.45 V"),
            Asked("temp", "temperature", "10 C", default="80 F"),
            Asked("rest", "duration", "10 h", needed=False),
            Asked("coldest", "temperature", "-15 C", needed=False),
        ),
    ),
)
