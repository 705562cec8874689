"""Draining against a worked hydraulics example and Jeffreys' film.

Sources: emptying of a tank, A = 1 m2, a = 0.01 m2, H = 2 m, Cd = 0.62 -> 103.0 s (status a2); film after H. Jeffreys, The
draining of a vertical plate, Proc. Camb. Phil. Soc. 26 (1930): the formula from memory (status c), its values by exact evaluation.
"""

from __future__ import annotations

import math

import pytest

from tests.published.printed import agrees
from twomarks.trade.volume import film_mean_mm, orifice_drain_s


def test_printed_time_of_emptying():
    assert agrees(orifice_drain_s(surface_m2=1.0, hole_m2=0.01, head_m=2.0), "103.0")


def test_without_losses_it_is_the_closed_form():
    # status a2: (A/a) sqrt(2 H / g)
    seconds = orifice_drain_s(surface_m2=1.0, hole_m2=0.01, head_m=2.0, discharge_coefficient=1.0)
    assert seconds == pytest.approx(100.0 * math.sqrt(4.0 / 9.80665))


@pytest.mark.parametrize(
    ("viscosity", "density", "height", "seconds", "printed"),
    [(100.0, 860.0, 0.2, 60.0, "0.13254"), (100.0, 860.0, 0.2, 600.0, "0.041912"), (20.0, 820.0, 0.3, 300.0, "0.033247")],
)
def test_mean_film(viscosity: float, density: float, height: float, seconds: float, printed: str):
    assert agrees(film_mean_mm(dynamic_viscosity_mpa_s=viscosity, density_kg_m3=density, wall_height_m=height, time_s=seconds), printed)
