"""Student's distribution with six degrees of freedom against tables and scipy.

The percentage points are those of any statistical table, here from memory and checked against ``scipy.stats.t.ppf``.
"""

from __future__ import annotations

import pytest

from twomarks.planning.usage.student import FREEDOM, chance_below, quantile


@pytest.mark.parametrize(
    ("chance", "printed"), [(0.75, 0.718), (0.90, 1.440), (0.95, 1.943), (0.975, 2.447), (0.99, 3.143), (0.995, 3.707), (0.999, 5.208)]
)
def test_percentage_points_as_tables_print_them(chance: float, printed: float) -> None:
    assert quantile(chance) == pytest.approx(printed, abs=0.0005)
    assert quantile(1 - chance) == pytest.approx(-printed, abs=0.0005)


def test_chances_agree_with_scipy_over_a_grid() -> None:
    from scipy import stats

    for z in (-80.0, -9.0, -3.1, -1.0, -0.2, 0.0, 0.4, 1.7, 2.9, 6.0, 55.0):
        assert chance_below(z) == pytest.approx(stats.t.cdf(z, FREEDOM), abs=1e-12)
