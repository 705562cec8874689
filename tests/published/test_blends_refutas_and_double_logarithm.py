"""Blends of oils, and fuel in oil, against published figures.

Sources: pages that quote the blending numbers of a textbook of 2000 (status a2: inputs and printed numbers); their results
and those of the double logarithm by exact evaluation in an independent trial (status b); the text of a viscometer maker's
fuel dilution chart (status a); an oil laboratory's page on fuel in SAE 30 (status a); the abstract of ASTM D7152 (status a).
"""

from __future__ import annotations

import random

import numpy as np
import pytest

from tests.published.printed import agrees
from twomarks.trade.blending import blend_by_mass_refutas, blend_by_volume_astm_d7152, blending_number_refutas
from twomarks.trade.dilution import blend_with_fuel, fuel_from_viscosity
from twomarks.trade.grading import hot_bands_of

POINTS = 500


def test_the_blending_number_that_a_page_prints():
    # status a2: "approximately 12.492" for 2.234 mm2/s; exactly it is 12.4902 (status b)
    assert blending_number_refutas(kv_mm2_s=2.234) == pytest.approx(12.492, abs=0.003)
    assert agrees(blending_number_refutas(kv_mm2_s=2.234), "12.4902")


@pytest.mark.parametrize(("kv", "printed"), [(5.0, "19.1736"), (20.0, "27.1106"), (32.0, "29.1429"), (220.0, "35.4777")])
def test_blending_numbers(kv: float, printed: str):
    # status b
    assert agrees(blending_number_refutas(kv_mm2_s=kv), printed)


@pytest.mark.parametrize(("kv", "shares", "printed"), [((5.0, 20.0), (60.0, 40.0), "22.3484"), ((32.0, 220.0), (50.0, 50.0), "32.3103")])
def test_blending_numbers_average_by_mass(kv: tuple[float, ...], shares: tuple[float, ...], printed: str):
    # status b
    blend = blend_by_mass_refutas(kv_mm2_s=kv, mass_kg=shares)
    assert agrees(blending_number_refutas(kv_mm2_s=float(blend.kv_mm2_s)), printed)


@pytest.mark.parametrize(
    ("kv", "shares", "by_number", "by_double_logarithm"),
    [
        ((5.0, 20.0), (60.0, 40.0), "8.1085", "8.0813"),
        ((32.0, 220.0), (50.0, 50.0), "75.935", "75.876"),
        ((12.0, 1.5), (80.0, 20.0), "6.878", "6.772"),
    ],
)
def test_two_rules_of_blending(kv: tuple[float, ...], shares: tuple[float, ...], by_number: str, by_double_logarithm: str):
    # inputs status a2, results status b; 126, the plain mean of 32 and 220, is wrong (status a2)
    number = blend_by_mass_refutas(kv_mm2_s=kv, mass_kg=shares)
    double = blend_by_volume_astm_d7152(kv_mm2_s=kv, volume_l=shares)
    assert agrees(number.kv_mm2_s, by_number)
    assert agrees(double.kv_mm2_s, by_double_logarithm)
    assert number.kv_mm2_s == pytest.approx(double.kv_mm2_s, rel=0.016 if min(kv) < 2.0 else 0.004)


@pytest.mark.parametrize(
    ("fuel", "printed", "band"), [(0.0, "12.000", "30"), (2.0, "11.142", "30"), (5.0, "10.000", "30"), (10.0, "8.416", "20")]
)
def test_fuel_in_an_oil_of_12(fuel: float, printed: str, band: str):
    # status b: 12 mm2/s is near the top of the band of 30; a tenth of fuel brings it into that of 20
    found = blend_with_fuel(kv_oil_mm2_s=12.0, fuel_percent=fuel, kv_fuel_mm2_s=1.1)
    assert agrees(found.kv_mm2_s, printed)
    assert hot_bands_of(kv100_mm2_s=found.kv_mm2_s) == (band,)


def test_a_laboratory_says_that_a_twentieth_of_fuel_makes_a_20_of_a_30():
    # status a: "as little as 5 % will reduce the viscosity of SAE 30 oils to the equivalent of SAE 20"; true in the band's middle
    found = blend_with_fuel(kv_oil_mm2_s=10.9, fuel_percent=5.0)
    assert hot_bands_of(kv100_mm2_s=10.9) == ("30",)
    assert hot_bands_of(kv100_mm2_s=found.kv_mm2_s) == ("20",)


@pytest.mark.parametrize(
    ("fresh", "used", "fuel", "printed"),
    [
        (160.0, 137.0, 3.0, 3.0),
        # 850, 755 and 37 Saybolt seconds at 100 F; 4.632 seconds to the mm2/s where thick, 3.2 mm2/s for 37 s (from memory)
        (850.0 / 4.632, 755.0 / 4.632, 3.2, 2.0),
    ],
)
def test_a_printed_chart_reads_within_the_bounds_of_the_estimate(fresh: float, used: float, fuel: float, printed: float):
    # status a: the examples in the text of the chart
    found = fuel_from_viscosity(kv_fresh_mm2_s=fresh, kv_used_mm2_s=used, kv_fuel_mm2_s=fuel)
    assert found.low_percent < printed < found.high_percent
    bare = fuel_from_viscosity(kv_fresh_mm2_s=fresh, kv_used_mm2_s=used, kv_fuel_mm2_s=fuel, spread_percent=0.0)
    assert bare.low_percent < printed < bare.high_percent


def test_every_blend_says_that_the_standard_does_not_vouch_for_additives():
    # status a: ASTM D7152 "may not be applicable to ... viscosity index improvers, additive packages"
    for blend in (
        blend_by_volume_astm_d7152(kv_mm2_s=(10.0, 12.0), volume_l=(1.0, 1.0)),
        blend_by_mass_refutas(kv_mm2_s=(10.0, 12.0), mass_kg=(1.0, 1.0)),
        blend_with_fuel(kv_oil_mm2_s=12.0, fuel_percent=3.0),
    ):
        assert blend.cautions[0].key == "viscosity.blend_caution"


@pytest.mark.reference
def test_a_grid_of_blends_equals_scipys_double_exponent():
    # status b: random blends of three oils; the mean is found by bisection of scipy on the double logarithm, to 1e-6 of the viscosity
    optimize = pytest.importorskip("scipy.optimize")
    draw = random.Random(7152)
    kvs = [np.array([draw.uniform(2.0, 400.0) for _ in range(POINTS)]) for _ in range(3)]
    shares = [np.array([draw.uniform(0.0, 5.0) for _ in range(POINTS)]) for _ in range(3)]
    ours = blend_by_volume_astm_d7152(kv_mm2_s=kvs, volume_l=shares).kv_mm2_s

    def height(kv: float) -> float:
        return float(np.log(np.log(kv + 0.7)))

    for at in range(POINTS):
        oils = [(float(kv[at]), float(share[at])) for kv, share in zip(kvs, shares, strict=True)]

        def unbalance(kv: float, oils: list[tuple[float, float]] = oils) -> float:
            return sum(share * (height(part) - height(kv)) for part, share in oils)

        theirs = optimize.brentq(unbalance, 1.9, 401.0, xtol=1e-10)
        assert ours[at] == pytest.approx(theirs, rel=1e-6)
