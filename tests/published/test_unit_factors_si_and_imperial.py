"""Unit factors against exact definitions.

Source: the international yard and pound (1959: in = 0.0254 m, lb = 0.45359237 kg), standard gravity 9.80665 m/s2, US gallon
231 in3, UK Weights and Measures Act 1985 gallon 4.54609 L; products by exact rational arithmetic. N.m per lbf.ft and lbf.in
seen in a US naval facilities table (0.112985, 4.44822) and, as 1.355817948..., in a secondary page.
"""

from __future__ import annotations

import pytest

from twomarks import units


@pytest.mark.parametrize(
    ("text", "core"),
    [
        ("1 lbf.ft", 1.3558179483314004),
        ("1 lbf.in", 0.1129848290276167),
        ("1 ozf.in", 0.0070615518142260),
        ("1 kgf.m", 9.80665),
        ("1 mi", 1.609344),
        ("1 US gal", 3.785411784),
        ("1 US qt", 0.946352946),
        ("1 US fl oz", 0.0295735295625),
        ("1 imp gal", 4.54609),
        ("1 imp qt", 1.1365225),
        ("1 imp pt", 0.56826125),
        ("1 psi", 0.06894757293168362),
        ("10 000 mi", 16093.44),
        ("1000 ft", 0.3048),
        ("1 mph", 1.609344),
        ("401 F", 205),
        ("311 F", 155),
        ("356 F", 180),
    ],
)
def test_factor_is_exact(text: str, core: float):
    assert units.quantity(text).core == pytest.approx(core, rel=1e-15)


@pytest.mark.parametrize(("unit", "to", "printed"), [("N.m", "lbf.ft", 0.7375621492772654), ("bar", "psi", 14.503773773)])
def test_factor_the_other_way_round(unit: str, to: str, printed: float):
    # exact rational arithmetic (status b), as many digits as printed
    assert units.in_unit(1.0, unit=unit, to=to) == pytest.approx(printed, rel=1e-10)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("code", "other"),
    [
        ("us qt", "US_liquid_quart"),
        ("us pt", "pint"),
        ("us gal", "US_liquid_gallon"),
        ("us fl oz", "US_fluid_ounce"),
        ("imp qt", "imperial_quart"),
        ("imp pt", "imperial_pint"),
        ("imp gal", "imperial_gallon"),
        ("imp fl oz", "imperial_fluid_ounce"),
        ("mi", "mile"),
        ("in", "inch"),
        ("psi", "psi"),
        ("lbf.ft", "force_pound * foot"),
        ("lbf.in", "force_pound * inch"),
        ("lb", "pound"),
        ("kgf.m", "force_kilogram * meter"),
        ("ozf.in", "force_ounce * inch"),
        ("ft", "foot"),
        ("kPa", "kilopascal"),
    ],
)
def test_factor_equals_the_reference_library(code: str, other: str):
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()
    core = {
        "volume": "liter",
        "distance": "kilometer",
        "length": "millimeter",
        "pressure": "bar",
        "torque": "newton * meter",
        "mass": "kilogram",
    }
    unit = units.UNITS[code]
    assert float(unit.factor) == pytest.approx((1 * registry(other)).to(core[unit.kind]).magnitude, rel=1e-9)
