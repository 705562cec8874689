"""Chances and passage times of gamma processes against figures from outside.

All values were computed with general-purpose libraries (scipy: ``gammaincc``, ``betaprime.cdf``, ``betainc``; quadrature)
or by exact arithmetic. The last chance of the compound gamma is printed as 0.9402971 in the notes these came from; its
exact value, 110625/117649, rounds to 0.9402970, and that is what is asked for here. The form of the passage time of a
gamma process is the standard one (van Noortwijk, "A survey of the application of gamma processes in maintenance", 2009,
abstract seen; formula from memory). The beta prime distribution of shape (3, 4) at 1 is 21/32 exactly.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from twomarks.planning.usage.incomplete import beta_prime_cdf, regularised_beta, regularised_gamma


@pytest.mark.parametrize(("x", "printed"), [(0.5, "0.09888"), (1, "0.3196159"), (2, "0.65625"), (5, "0.9402970")])
def test_compound_gamma_with_three_four_two(x: float, printed: str) -> None:
    """Shape 3, rate itself gamma distributed (4, 2)."""
    half = 0.5 * 10 ** -len(printed.partition(".")[2])
    assert beta_prime_cdf(shape=3, tail=4, scale=2, x=x) == pytest.approx(float(printed), abs=half)


def test_compound_gamma_at_five_is_110625_117649() -> None:
    exact = sum(math.comb(6, j) * Fraction(5, 7) ** j * Fraction(2, 7) ** (6 - j) for j in range(3, 7))
    assert exact == Fraction(110_625, 117_649)
    assert beta_prime_cdf(shape=3, tail=4, scale=2, x=5) == pytest.approx(float(exact), abs=1e-14)


def test_beta_prime_three_four_at_one_is_21_32() -> None:
    exact = Fraction(sum(math.comb(6, j) for j in range(3, 7)), 2**6)
    assert exact == Fraction(21, 32)
    assert beta_prime_cdf(shape=3, tail=4, scale=2, x=2) == pytest.approx(float(exact), abs=1e-14)


@pytest.mark.parametrize(
    ("t", "printed"), [(2, "0.010336"), (3, "0.067086"), (4, "0.220221"), (5, "0.457930"), (6, "0.696776"), (8, "0.951260")]
)
def test_passage_of_ten_by_a_gamma_process_of_shape_two(t: float, printed: str) -> None:
    assert 1 - regularised_gamma(shape=2 * t, x=10) == pytest.approx(float(printed), abs=0.5e-6)


@pytest.mark.parametrize(("shape", "x", "printed"), [(3, 4, "0.2381033"), (5, 4, "0.6288369")])
def test_a_whole_shape_counts_poisson_events(shape: int, x: float, printed: str) -> None:
    poisson = sum(math.exp(-x) * x**k / math.factorial(k) for k in range(shape))
    assert 1 - regularised_gamma(shape=shape, x=x) == pytest.approx(poisson, abs=1e-12)
    assert poisson == pytest.approx(float(printed), abs=0.5e-7)


def test_both_functions_agree_with_scipy_over_a_grid() -> None:
    from scipy import special

    for a in (0.05, 0.5, 1, 3.7, 20, 144, 1500, 15_000):
        for part in (0.01, 0.3, 0.9, 1, 1.1, 2, 9):
            assert regularised_gamma(shape=a, x=a * part) == pytest.approx(special.gammainc(a, a * part), abs=1e-10)
        for b in (0.1, 1, 4, 55, 900):
            for x in (0.001, 0.2, 0.5, 0.8, 0.999):
                assert regularised_beta(a=a, b=b, x=x) == pytest.approx(special.betainc(a, b, x), abs=1e-9)


def test_the_cube_root_stands_in_for_very_large_shapes() -> None:
    from scipy import special

    for part in (0.98, 0.995, 1, 1.004, 1.02):
        assert regularised_gamma(shape=30_000, x=30_000 * part) == pytest.approx(special.gammainc(30_000, 30_000 * part), abs=1e-5)
