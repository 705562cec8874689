"""The table of kinds and units: one core unit per kind inside Twomarks, one whole step per kind in the ledgers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

__all__ = ["KINDS", "MARKETS", "UNITS", "Kind", "Unit", "spellings"]

MARKETS = ("uk", "us", "au", "metric")

LB = Fraction("0.45359237")
INCH = Fraction("0.0254")
GRAVITY = Fraction("9.80665")
LBF = LB * GRAVITY
US_GALLON = Fraction("3.785411784")
IMPERIAL_GALLON = Fraction("4.54609")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its core unit, and the step in which the ledgers count it.

    `step` is the size of one ledger step in the core unit.
    """

    name: str
    core: str
    step: Fraction


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: ``core value = value * factor + offset``.

    `spellings` are what people type, in lower case with single spaces; `shown` is how it is written for a reader;
    `markets` maps a market to the spellings that mean this unit there and nothing certain elsewhere ("qt").
    """

    code: str
    kind: str
    factor: Fraction
    shown: str
    decimals: int
    spellings: tuple[str, ...] = ()
    offset: Fraction = Fraction(0)
    bare: tuple[tuple[str, tuple[str, ...]], ...] = ()


_KINDS = (
    Kind("volume", "L", Fraction(1, 1000)),
    Kind("distance", "km", Fraction(1, 1000)),
    Kind("duration", "min", Fraction(1, 60)),
    Kind("period", "day", Fraction(1)),
    Kind("months", "month", Fraction(1)),
    Kind("mass", "kg", Fraction(1, 1000)),
    Kind("length", "mm", Fraction(1, 1000)),
    Kind("area", "m2", Fraction(1, 1_000_000)),
    Kind("voltage", "V", Fraction(1, 1000)),
    Kind("temperature", "C", Fraction(1, 100)),
    Kind("pressure", "bar", Fraction(1, 1000)),
    Kind("torque", "N.m", Fraction(1, 100)),
    Kind("angle", "deg", Fraction(1, 10)),
    Kind("turn", "turn", Fraction(1, 100)),
    Kind("kinematic viscosity", "mm2/s", Fraction(1, 1000)),
    Kind("dynamic viscosity", "mPa.s", Fraction(1, 1000)),
    Kind("density", "kg/m3", Fraction(1, 10)),
    Kind("share", "%", Fraction(1, 100)),
    Kind("trace", "ppm", Fraction(1)),
    Kind("base number", "mgKOH/g", Fraction(1, 10)),
    Kind("oil use", "L/1000km", Fraction(1, 1000)),
    Kind("economy", "L/100km", Fraction(1, 100)),
    Kind("daily distance", "km/day", Fraction(1, 1000)),
    Kind("speed", "km/h", Fraction(1, 1000)),
    Kind("count", "", Fraction(1)),
)
KINDS: dict[str, Kind] = {kind.name: kind for kind in _KINDS}


def _unit(
    code: str,
    kind: str,
    factor: Fraction | str | int,
    shown: str,
    decimals: int,
    *spelt: str,
    offset: Fraction | int = 0,
    **bare: tuple[str, ...],
) -> Unit:
    return Unit(code, kind, Fraction(factor), shown, decimals, spelt, Fraction(offset), tuple(bare.items()))


_US = ("us",)
_BRITISH = ("uk", "au")
_UNITS = (
    _unit("L", "volume", 1, "L", 2, "l", "litre", "litres", "liter", "liters"),
    _unit("mL", "volume", Fraction(1, 1000), "mL", 0, "ml", "cc", "cm3", "cm³", "millilitre", "millilitres"),
    _unit("dL", "volume", Fraction(1, 10), "dL", 1, "dl"),
    _unit("us qt", "volume", US_GALLON / 4, "US qt", 2, "us qt", "us quart", "us quarts", qt=_US, quart=_US, quarts=_US),
    _unit("us pt", "volume", US_GALLON / 8, "US pt", 2, "us pt", "us pint", "us pints", pt=_US, pint=_US, pints=_US),
    _unit("us gal", "volume", US_GALLON, "US gal", 2, "us gal", "us gallon", "us gallons", gal=_US, gallon=_US, gallons=_US),
    Unit("us fl oz", "volume", US_GALLON / 128, "US fl oz", 1, ("us fl oz", "us oz"), Fraction(0), (("fl oz", _US), ("oz", _US))),
    _unit(
        "imp qt",
        "volume",
        IMPERIAL_GALLON / 4,
        "imp qt",
        2,
        "imp qt",
        "uk qt",
        "imperial quart",
        "imperial quarts",
        qt=_BRITISH,
        quart=_BRITISH,
        quarts=_BRITISH,
    ),
    _unit(
        "imp pt",
        "volume",
        IMPERIAL_GALLON / 8,
        "imp pt",
        2,
        "imp pt",
        "uk pt",
        "imperial pint",
        "imperial pints",
        pt=_BRITISH,
        pint=_BRITISH,
        pints=_BRITISH,
    ),
    _unit(
        "imp gal",
        "volume",
        IMPERIAL_GALLON,
        "imp gal",
        2,
        "imp gal",
        "uk gal",
        "imperial gallon",
        "imperial gallons",
        gal=_BRITISH,
        gallon=_BRITISH,
        gallons=_BRITISH,
    ),
    Unit("imp fl oz", "volume", IMPERIAL_GALLON / 160, "imp fl oz", 1, ("imp fl oz", "uk fl oz"), Fraction(0), (("fl oz", _BRITISH),)),
    _unit("km", "distance", 1, "km", 0, "km", "kms", "kilometre", "kilometres", "kilometer", "kilometers"),
    _unit("m", "distance", Fraction(1, 1000), "m", 0, "m", "metre", "metres", "meter", "meters"),
    _unit("mi", "distance", "1.609344", "mi", 0, "mi", "mile", "miles"),
    _unit("ft", "distance", INCH * 12 / 1000, "ft", 0, "ft", "foot", "feet"),
    _unit("min", "duration", 1, "min", 0, "min", "mins", "minute", "minutes"),
    _unit("s", "duration", Fraction(1, 60), "s", 0, "s", "sec", "second", "seconds"),
    _unit("h", "duration", 60, "h", 1, "h", "hour", "hours"),
    _unit("day", "period", 1, "days", 0, "day", "days", "d"),
    _unit("week", "period", 7, "weeks", 1, "week", "weeks"),
    _unit("month", "months", 1, "months", 0, "month", "months"),
    _unit("year", "months", 12, "years", 1, "year", "years"),
    _unit("kg", "mass", 1, "kg", 1, "kg"),
    _unit("g", "mass", Fraction(1, 1000), "g", 0, "g"),
    _unit("lb", "mass", LB, "lb", 1, "lb", "lbs"),
    _unit("mm", "length", 1, "mm", 2, "mm", "millimetre", "millimetres"),
    _unit("cm", "length", 10, "cm", 1, "cm"),
    _unit("in", "length", INCH * 1000, "in", 3, "in", "inch", "inches", '"'),
    _unit("m2", "area", 1, "m²", 3, "m2", "m²", "sq m", "square metre", "square metres"),
    _unit("cm2", "area", Fraction(1, 10_000), "cm²", 1, "cm2", "cm²"),
    _unit("mm2", "area", Fraction(1, 1_000_000), "mm²", 0, "mm2", "mm²"),
    _unit("in2", "area", INCH**2, "in²", 2, "in2", "in²", "sq in", "square inch", "square inches"),
    _unit("ft2", "area", (INCH * 12) ** 2, "ft²", 2, "ft2", "ft²", "sq ft", "square foot", "square feet"),
    _unit("V", "voltage", 1, "V", 2, "v", "volt", "volts"),
    _unit("mV", "voltage", Fraction(1, 1000), "mV", 0, "mv"),
    _unit("C", "temperature", 1, "°C", 1, "c", "°c", "℃", "degc", "deg c"),
    _unit("F", "temperature", Fraction(5, 9), "°F", 0, "f", "°f", "degf", "deg f", offset=Fraction(-160, 9)),
    _unit("bar", "pressure", 1, "bar", 2, "bar"),
    _unit("kPa", "pressure", Fraction(1, 100), "kPa", 0, "kpa"),
    _unit("psi", "pressure", LBF / INCH**2 / 100000, "psi", 1, "psi", "lbf/in2", "lbf/in²"),
    _unit("N.m", "torque", 1, "N·m", 1, "n·m", "nm", "n.m", "n m", "n*m", "n-m", "newton metre", "newton metres", "newton meter"),
    Unit(
        "lbf.ft",
        "torque",
        LBF * INCH * 12,
        "lbf·ft",
        1,
        ("lbf.ft", "lbf·ft", "lbf ft", "ft lbf", "ft·lbf", "ft.lbf"),
        Fraction(0),
        tuple(
            (word, ("uk", "us", "au"))
            for word in ("ft lb", "lb ft", "ft-lb", "lb-ft", "ft·lb", "ft.lb", "lb·ft", "lb.ft", "foot pounds", "ft lbs", "lbs ft")
        ),
    ),
    _unit("lbf.in", "torque", LBF * INCH, "lbf·in", 0, "lbf.in", "lbf·in", "lbf in", "in lbf", "in lb", "lb in", "inch pounds"),
    _unit("ozf.in", "torque", LBF * INCH / 16, "ozf·in", 1, "ozf.in", "ozf·in", "ozf in", "in ozf"),
    Unit(
        "kgf.m",
        "torque",
        GRAVITY,
        "kgf·m",
        2,
        ("kgf.m", "kgf·m", "kgf m"),
        Fraction(0),
        tuple((word, MARKETS) for word in ("kg m", "kgm", "mkg")),
    ),
    _unit("deg", "angle", 1, "°", 0, "deg", "°", "degree", "degrees"),
    _unit("turn", "turn", 1, "turn", 2, "turn", "turns"),
    _unit("mm2/s", "kinematic viscosity", 1, "mm²/s", 2, "mm2/s", "mm²/s", "cst"),
    _unit("mPa.s", "dynamic viscosity", 1, "mPa·s", 2, "mpa.s", "mpa·s", "cp"),
    _unit("kg/m3", "density", 1, "kg/m³", 0, "kg/m3", "kg/m³"),
    _unit("g/cm3", "density", 1000, "g/cm³", 3, "g/cm3", "g/cm³", "g/ml", "kg/l"),
    _unit("%", "share", 1, "%", 1, "%", "percent"),
    _unit("ppm", "trace", 1, "ppm", 0, "ppm", "mg/kg"),
    _unit("mgKOH/g", "base number", 1, "mg KOH/g", 1, "mgkoh/g", "mg koh/g", "tbn"),
    _unit("L/1000km", "oil use", 1, "L/1000 km", 2, "l/1000km", "l/1000 km"),
    _unit("L/100km", "economy", 1, "L/100 km", 1, "l/100km", "l/100 km"),
    _unit("km/day", "daily distance", 1, "km a day", 0, "km/day", "km/d", "km a day"),
    _unit("mi/day", "daily distance", "1.609344", "mi a day", 0, "mi/day", "mi/d", "mi a day"),
    _unit("km/h", "speed", 1, "km/h", 0, "km/h", "kmh", "kph"),
    _unit("mph", "speed", "1.609344", "mph", 0, "mph", "mi/h"),
    _unit("", "count", 1, "", 0),
)
UNITS: dict[str, Unit] = {unit.code: unit for unit in _UNITS}

AMBIGUOUS_EVERYWHERE = ("ton", "tons")


@cache
def spellings() -> tuple[dict[str, Unit], dict[str, dict[str, Unit]]]:
    """Return the spellings that are certain, and those that depend on the market: spelling -> market -> unit."""
    certain: dict[str, Unit] = {}
    by_market: dict[str, dict[str, Unit]] = {word: {} for word in AMBIGUOUS_EVERYWHERE}
    for unit in _UNITS:
        for word in unit.spellings:
            certain[word] = unit
        for word, markets in unit.bare:
            for market in markets:
                by_market.setdefault(word, {})[market] = unit
    return certain, by_market
