"""Laws of the units: round trips, exactness, no two meanings."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from twomarks import units

CODES = st.sampled_from([code for code in units.UNITS if code])


@given(CODES, st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=1000))
def test_a_value_comes_back_from_any_unit_of_its_kind(code: str, value: Fraction):
    core = units.KINDS[units.UNITS[code].kind].core
    there = units.in_unit(float(value), unit=code, to=core)
    assert abs(units.in_unit(there, unit=core, to=code) - float(value)) <= 1e-9 * max(1, abs(float(value)))


@given(CODES, st.integers(min_value=0, max_value=10**7))
def test_every_shown_unit_is_read_back(code: str, amount: int):
    unit = units.UNITS[code]
    assert units.quantity(f"{amount} {unit.shown}").unit == code


@given(st.sampled_from(list(units.KINDS)), st.integers(min_value=-(10**12), max_value=10**12))
def test_ledger_steps_come_back_exactly(kind: str, count: int):
    assert units.steps(count * units.KINDS[kind].step, kind=kind) == count


@given(st.sampled_from(list(units.KINDS)), st.fractions(max_denominator=10**6, min_value=-(10**6), max_value=10**6))
def test_rounding_to_a_step_is_off_by_half_a_step_at_most(kind: str, value: Fraction):
    step = units.KINDS[kind].step
    assert abs(units.steps(value, kind=kind) * step - value) <= step / 2


def test_every_factor_is_exact_and_positive():
    assert all(isinstance(unit.factor, Fraction) and unit.factor > 0 for unit in units.UNITS.values())
