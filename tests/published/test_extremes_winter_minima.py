"""Extreme values against an independent fit.

Source: 36 winter minima (July to June) of Champion, Nebraska, 1982-2018, from data/champion_climate.txt of the Python package
aquacrop 3.1.0 (Apache-2.0); fitted with scipy 1.17.1 from a start that finds the better optimum (status b). Its own default start
ends in a wrong one, cost 141.5 against 98.15.
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees
from twomarks.trade.extremes import extreme_fit, return_level

WINTER_MINIMA_C = (
    -23.33,
    -31.11,
    -27.78,
    -25.56,
    -23.6,
    -30.0,
    -29.7,
    -37.1,
    -32.2,
    -26.1,
    -27.56,
    -29.24,
    -29.56,
    -30.0,
    -27.86,
    -19.87,
    -31.43,
    -22.1,
    -21.32,
    -24.4,
    -28.89,
    -29.22,
    -26.18,
    -29.55,
    -27.5,
    -25.25,
    -27.3,
    -26.84,
    -29.81,
    -26.57,
    -25.52,
    -29.28,
    -29.61,
    -18.25,
    -28.8,
    -23.81,
)


def test_level_once_in_ten_years():
    level = return_level([-value for value in WINTER_MINIMA_C], once_in_years=10)
    assert agrees(-level.value, "-32.3")
    assert agrees(-level.high, "-34.3")
    assert agrees(-level.low, "-30.9")


def test_shape_and_cost_of_the_better_optimum():
    fit = extreme_fit([-value for value in WINTER_MINIMA_C])
    assert agrees(fit.shape, "-0.27")
    assert agrees(fit.cost, "98.15")


@pytest.mark.reference
def test_fit_is_no_worse_than_the_reference_library():
    stats = pytest.importorskip("scipy.stats")
    maxima = [-value for value in WINTER_MINIMA_C]
    fit = extreme_fit(maxima)
    theirs = -stats.genextreme.logpdf(maxima, -fit.shape, fit.place, fit.scale).sum()
    assert fit.cost == pytest.approx(theirs, abs=1e-9)
    c, place, scale = stats.genextreme.fit(maxima, 0.27, loc=fit.place, scale=fit.scale)
    assert fit.cost <= -stats.genextreme.logpdf(maxima, c, place, scale).sum() + 1e-6
    assert fit.level(once_in_years=10) == pytest.approx(stats.genextreme.isf(0.1, c, place, scale), abs=0.01)
