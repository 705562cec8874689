"""Hours and fuel as counters: what idling, engine hours and fuel burned amount to in distance."""

from __future__ import annotations

from typing import Any

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.trade.counters import Spread
from twomarks.words import Figure, say

__all__ = ["CALCULATIONS"]

MINUTES = 60.0


def _results(spread: Spread, name: str) -> dict[str, Any]:
    return {f"{name}_low_km": spread.low_km, f"{name}_km": spread.usual_km, f"{name}_high_km": spread.high_km}


def _figures(spread: Spread) -> dict[str, Figure]:
    return {"usual": Figure(spread.usual_km, "km"), "low": Figure(spread.low_km, "km"), "high": Figure(spread.high_km, "km")}


def _idle_hours(given: Given) -> Reckoned:
    """Answer with the driving that wears an engine as much as its idling, beside the odometer where it is given."""
    from twomarks.trade.counters import idle_distance

    idle_h = given.number("idle") / MINUTES
    idle = idle_distance(idle_h=idle_h)
    lines = [say("reckon_counters.idle", hours=Figure(idle_h, "h"), **_figures(idle))]
    results = _results(idle, "idle")
    if given.has("odometer"):
        shown_km = given.number("odometer")
        total = Spread(shown_km + idle.low_km, shown_km + idle.usual_km, shown_km + idle.high_km, idle.sources)
        lines.append(say("reckon_counters.total", odometer=Figure(shown_km, "km"), **_figures(total)))
        results |= _results(total, "total")
    return Reckoned(tuple(lines), results, idle.sources, (say("reckon_counters.rule_of_fleets"),))


def _hours(given: Given) -> Reckoned:
    """Answer with the distance that engine hours stand for."""
    from twomarks.trade.counters import distance_by_hours

    engine_h = given.number("engine") / MINUTES
    ran = distance_by_hours(engine_h=engine_h, average_speed_kmh=given.optional("speed"))
    key = "reckon_counters.engine_own" if given.has("speed") else "reckon_counters.engine"
    lines = (say(key, hours=Figure(engine_h, "h"), **_figures(ran)),)
    return Reckoned(lines, _results(ran, "engine"), ran.sources, (say("reckon_counters.rule_of_fleets"),))


def _fuel(given: Given) -> Reckoned:
    """Answer with the distance that fuel burned stands for."""
    from twomarks.trade.counters import distance_by_fuel

    burned = distance_by_fuel(fuel_l=given.number("fuel"), use_l_per_100km=given.number("use"), spread_percent=given.number("spread"))
    figures = {"fuel": given.figure("fuel"), "use": given.figure("use"), "spread": given.figure("spread")}
    lines = (say("reckon_counters.fuel", **figures, **_figures(burned)),)
    return Reckoned(lines, _results(burned, "distance"), burned.sources, (say("reckon_counters.fuel_counts_idling"),))


def _fuel_use(given: Given) -> Reckoned:
    """Answer with the use of fuel over a distance, in litres per 100 km and in miles per gallon."""
    from twomarks.trade.counters import fuel_use

    use = fuel_use(fuel_l=given.number("fuel"), distance_km=given.number("distance"))
    results: dict[str, Any] = {"use_l_per_100km": use}
    lines = [say("reckon_counters.use", fuel=given.figure("fuel"), distance=given.figure("distance"), use=Figure(use, "L/100km"))]
    if use > 0.0:
        results |= {"us_mpg": _miles_per(use, "us gal"), "imperial_mpg": _miles_per(use, "imp gal")}
        lines.append(say("reckon_counters.mpg", us=f"{results['us_mpg']:.1f}", imperial=f"{results['imperial_mpg']:.1f}"))
    return Reckoned(tuple(lines), results, ("fuel_over_use",))


def _miles_per(use_l_per_100km: float, gallon: str) -> float:
    return units.in_unit(100.0 / use_l_per_100km, unit="km", to="mi") * units.in_unit(1.0, unit=gallon, to="L")


CALCULATIONS = (
    Calculation("idle-hours", _idle_hours, (Asked("idle", "duration", "100 h"), Asked("odometer", "distance", "2000 mi", needed=False))),
    Calculation("hours", _hours, (Asked("engine", "duration", "200 h"), Asked("speed", "speed", "35 km/h", needed=False))),
    Calculation(
        "fuel",
        _fuel,
        (Asked("fuel", "volume", "640 L"), Asked("use", "economy", "8 L/100km"), Asked("spread", "share", "15 %", default="10 %")),
    ),
    Calculation("fuel-use", _fuel_use, (Asked("fuel", "volume", "50 L"), Asked("distance", "distance", "600 km"))),
)
