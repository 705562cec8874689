"""Draining against a worked hydraulics example, Jeffreys' film, and creeping flow through a hole.

Sources: emptying of a tank, A = 1 m2, a = 0.01 m2, H = 2 m, Cd = 0.62 -> 103.0 s (status a2); film after H. Jeffreys, The
draining of a vertical plate, Proc. Camb. Phil. Soc. 26 (1930): the formula from memory (status c), its values by exact evaluation
(b); Sampson's flow through a hole in a thin wall, Q = a^3 dp / (3 mu), as an encyclopedia page states it (a2); finite elements for
holes of L/D 0.10 and 0.37 between two pipes, K1 = 41.8 and 57.7, a course page of the University of Washington (a2).
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.published.printed import agrees
from twomarks.trade.drain_hole import GRAVITY_M_S2, Hole, discharge_coefficient, hole_velocity_m_s, orifice_drain_s, viscous_drain_s
from twomarks.trade.film import film_left_l, film_mean_mm

FILMS = [
    # viscosity, density, height, seconds, foot, mean, mL for each metre of wall
    (100.0, 860.0, 0.2, 60.0, "0.19881", "0.13254", "26.51"),
    (100.0, 860.0, 0.2, 600.0, "0.062868", "0.041912", "8.382"),
    (20.0, 820.0, 0.3, 300.0, "0.049871", "0.033247", "9.974"),
]


def test_printed_time_of_emptying():
    assert agrees(orifice_drain_s(surface_m2=1.0, hole_m2=0.01, head_m=2.0), "103.0")


def test_without_losses_it_is_the_closed_form():
    # status a2: (A/a) sqrt(2 H / g)
    seconds = orifice_drain_s(surface_m2=1.0, hole_m2=0.01, head_m=2.0, discharge_coefficient=1.0)
    assert seconds == pytest.approx(100.0 * math.sqrt(4.0 / GRAVITY_M_S2))


def test_complete_emptying_takes_twice_the_time_at_the_first_rate():
    # status d
    seconds = orifice_drain_s(surface_m2=1.0, hole_m2=0.01, head_m=2.0)
    first_rate = 0.62 * 0.01 * math.sqrt(2.0 * GRAVITY_M_S2 * 2.0)
    assert seconds == pytest.approx(2.0 * 1.0 * 2.0 / first_rate)


@pytest.mark.parametrize(("viscosity", "density", "height", "seconds", "foot", "mean", "per_metre"), FILMS)
def test_film_on_a_wall(viscosity: float, density: float, height: float, seconds: float, foot: str, mean: str, per_metre: str):
    film = {"dynamic_viscosity_mpa_s": viscosity, "density_kg_m3": density, "wall_height_m": height, "time_s": seconds}
    assert agrees(film_mean_mm(**film), mean)
    assert agrees(1.5 * film_mean_mm(**film), foot)
    assert agrees(1000.0 * film_left_l(walls_m2=height * 1.0, **film), per_metre)


def test_film_scales_as_it_must():
    # status d: ten times the wait leaves one part in the root of ten; four times the viscosity twice as much
    film = {"density_kg_m3": 860.0, "wall_height_m": 0.2}
    first = film_mean_mm(dynamic_viscosity_mpa_s=100.0, time_s=60.0, **film)
    assert film_mean_mm(dynamic_viscosity_mpa_s=100.0, time_s=600.0, **film) == pytest.approx(first / math.sqrt(10.0))
    assert film_mean_mm(dynamic_viscosity_mpa_s=400.0, time_s=60.0, **film) == pytest.approx(2.0 * first)


def test_the_film_satisfies_the_flow_of_a_thin_film():
    # status d: h_t + (rho g / mu) h^2 h_z = 0, by central differences at one place and time
    viscosity, density = 0.1, 860.0

    def h(z: float, t: float) -> float:
        return 1.5e-3 * film_mean_mm(dynamic_viscosity_mpa_s=1000.0 * viscosity, density_kg_m3=density, wall_height_m=z, time_s=t)

    z, t = 0.15, 200.0
    by_time = (h(z, t * 1.0001) - h(z, t * 0.9999)) / (0.0002 * t)
    by_height = (h(z * 1.0001, t) - h(z * 0.9999, t)) / (0.0002 * z)
    assert by_time + density * GRAVITY_M_S2 / viscosity * h(z, t) ** 2 * by_height == pytest.approx(0.0, abs=1e-6 * abs(by_time))


def test_a_thick_oil_creeps_through_a_thin_wall_as_sampson_has_it():
    # status a2: Q = a^3 dp / (3 mu), a 6 mm, at a Reynolds number of 1e-5
    kv_mm2_s, density, head_m, radius_m = 1e7, 900.0, 0.1, 0.006
    speed = hole_velocity_m_s(Hole(12.0, 0.0), head_m=head_m, kv_mm2_s=kv_mm2_s)
    flow = radius_m**3 * density * GRAVITY_M_S2 * head_m / (3.0 * kv_mm2_s * 1e-6 * density)
    assert speed * math.pi * radius_m**2 == pytest.approx(flow, rel=1e-6)


@pytest.mark.parametrize(("length_ratio", "printed"), [(0.10, 41.8), (0.37, 57.7)])
def test_a_short_hole_creeps_as_finite_elements_have_it(length_ratio: float, printed: float):
    # status a2: dp = K1 mu v / (2 d); theirs lies between two pipes of finite width, ours between open rooms: 7 % apart at most
    kv_mm2_s, diameter_mm, head_m = 1e7, 10.0, 0.1
    speed = hole_velocity_m_s(Hole(diameter_mm, length_ratio * diameter_mm), head_m=head_m, kv_mm2_s=kv_mm2_s)
    resistance = 2.0 * GRAVITY_M_S2 * head_m * diameter_mm * 1e-3 / (kv_mm2_s * 1e-6 * speed)
    assert resistance == pytest.approx(printed, rel=0.07)


def test_a_thin_liquid_drains_as_the_worked_example_has_it():
    hole = Hole(2000.0 * math.sqrt(0.01 / math.pi), 0.0)
    seconds = viscous_drain_s(hole, surface_m2=1.0, head_m=2.0, head_left_m=1e-9, kv_mm2_s=1e-4)
    assert agrees(seconds, "103.0")


@pytest.mark.reference
def test_drain_time_agrees_with_numerical_integration_on_a_grid():
    integrate = pytest.importorskip("scipy.integrate")
    chance = np.random.default_rng(5)
    for _ in range(500):
        hole, kv_mm2_s = Hole(chance.uniform(6.0, 40.0), chance.uniform(0.0, 30.0)), 10.0 ** chance.uniform(0.0, 4.0)
        high, surface = chance.uniform(0.02, 0.4), chance.uniform(0.01, 0.2)
        low = high * chance.uniform(0.01, 0.9)
        section = math.pi / 4.0 * (hole.diameter_mm * 1e-3) ** 2

        def slowness(head, hole=hole, kv_mm2_s=kv_mm2_s, area=surface / section):
            return area / hole_velocity_m_s(hole, head_m=head, kv_mm2_s=kv_mm2_s)

        expected, _ = integrate.quad(slowness, low, high, epsabs=1e-10, epsrel=1e-10)
        found = viscous_drain_s(hole, surface_m2=surface, head_m=high, head_left_m=low, kv_mm2_s=kv_mm2_s)
        assert found == pytest.approx(expected, rel=1e-7)  # a millionth of a second in ten


def test_the_coefficient_at_a_reynolds_number_is_the_speed_over_the_ideal():
    head_m, diameter_mm, kv_mm2_s = 0.1, 14.0, 120.0
    ideal = math.sqrt(2.0 * GRAVITY_M_S2 * head_m)
    speed = hole_velocity_m_s(Hole(diameter_mm, 15.0), head_m=head_m, kv_mm2_s=kv_mm2_s)
    reynolds = ideal * diameter_mm * 1e-3 / (kv_mm2_s * 1e-6)
    assert discharge_coefficient(reynolds=reynolds, length_ratio=15.0 / 14.0) == pytest.approx(speed / ideal)
    assert discharge_coefficient(reynolds=1e9) == pytest.approx(0.62, abs=1e-6)
