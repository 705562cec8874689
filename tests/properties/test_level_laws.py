"""Laws of the stick: pours, tables, readings and litres, and the estimate of what is used."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.trade.add_table import add_table
from twomarks.trade.chance import normal_quantile, normal_share_below
from twomarks.trade.level import Reading, Stick, level_volume, oil_volume_l, reading_of
from twomarks.trade.oil_use import LevelCheck, TopUp, oil_use
from twomarks.trade.pour import first_pour, pour_without_capacity
from twomarks.trade.volume import POURED_C, volume_at

SPANS = st.floats(0.4, 3.0)
REFILLS = st.floats(0.8, 20.0)
SIGMAS = st.floats(0.0, 2.0)


@given(REFILLS, SPANS, SIGMAS, st.floats(0.001, 0.2), st.floats(0.001, 0.2))
def test_a_single_pour_keeps_both_chances_and_two_pours_read_first(refill: float, span: float, sigma: float, over: float, short: float):
    assume(span < refill)
    plan = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma, p_over=over, p_short=short)
    if plan.kind == "one pour":
        assert plan.least_l <= plan.first_l <= plan.most_l
        assert plan.chance_over <= over + 1e-9
        assert plan.chance_short <= short + 1e-9
    else:
        assert plan.needs_reading_before_start
        assert plan.first_l is None or plan.chance_over <= over + 1e-9
    assert plan.reasons


@given(REFILLS, SPANS, SIGMAS, SIGMAS)
def test_a_less_certain_capacity_never_widens_the_bounds(refill: float, span: float, sigma: float, more: float):
    assume(span < refill)
    sure = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma)
    unsure = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma + more)
    if sure.most_l is not None and unsure.most_l is not None:
        assert unsure.most_l <= sure.most_l
        assert unsure.least_l >= sure.least_l
    assert not (sure.kind != "one pour" and unsure.kind == "one pour")


@given(SPANS, st.integers(2, 40))
def test_the_table_never_overfills_never_adds_more_than_half_and_never_asks_for_both(span: float, steps: int):
    rows = add_table(between_marks_l=span, steps=steps)
    adds = [row.add_l for row in rows]
    assert adds == sorted(adds, reverse=True)
    for row in rows:
        assert row.add_l <= 0.5 * span + 1e-9
        if row.reading_fraction <= 1.0:
            assert row.add_l >= 0.0
            assert row.reading_fraction + row.add_l / span <= 1.0 + 1e-9
        else:
            assert row.reading_fraction + row.add_l / span <= 0.9 + 1e-9
        assert row.start == (row.reading_fraction < 1.5)


@given(st.one_of(st.none(), st.floats(0.3, 20.0)), st.one_of(st.none(), SPANS))
def test_no_capacity_is_made_up(out: float | None, span: float | None):
    plan = pour_without_capacity(measured_out_l=out, between_marks_l=span)
    assert plan.needs_reading_before_start
    assert (plan.least_l, plan.most_l) == (None, None)
    if plan.first_l is not None:
        assert plan.first_l <= out - span / 2 + 1e-9


@given(st.floats(1e-6, 1 - 1e-6))
def test_quantile_and_share_undo_each_other(share: float):
    assert math.isclose(normal_share_below(value=normal_quantile(share=share)), share, rel_tol=1e-6)


STICKS = st.builds(
    Stick,
    st.floats(3.1, 20.0),
    SPANS,
    st.floats(0.0, 100.0),
    st.floats(805.0, 950.0),
    st.floats(10.0, 60.0),
    st.floats(-300.0, 300.0),
)
READINGS = st.builds(Reading, st.floats(0.0, 2.0), st.floats(-20.0, 120.0), st.floats(0.0, 600.0), st.floats(-3.0, 3.0))


@given(STICKS, READINGS)
def test_a_reading_comes_back_from_its_litres(stick: Stick, reading: Reading):
    assume(_stands_in_the_sump(stick, reading))
    volume_l = oil_volume_l(stick, reading)
    assert math.isclose(reading_of(stick, reading, volume_l=volume_l), reading.fraction, abs_tol=1e-9)


@given(STICKS, READINGS, st.floats(0.01, 1.0))
def test_a_higher_reading_is_more_oil_and_the_difference_is_that_of_the_marks(stick: Stick, reading: Reading, more: float):
    assume(_stands_in_the_sump(stick, reading))
    here, there = (oil_volume_l(stick, replace(reading, fraction=one)) for one in (reading.fraction, reading.fraction + more))
    hot_l = volume_at(volume_l=there - here, temp_c=POURED_C, to_temp_c=reading.oil_temp_c, density15_kg_m3=stick.density15_kg_m3)
    assert math.isclose(hot_l, more * stick.between_marks_l, rel_tol=1e-6)


@given(STICKS, READINGS)
def test_adding_what_is_missing_reaches_the_upper_mark_and_the_table_stays_below_it(stick: Stick, reading: Reading):
    settled = Reading(reading.fraction)
    cold = replace(stick, marks_temp_c=POURED_C)
    assume(_stands_in_the_sump(cold, settled))
    found = level_volume(cold, settled)
    assert math.isclose(reading_of(cold, settled, volume_l=found.volume_l + found.missing_l), 1.0, abs_tol=1e-9)
    row = next((row for row in add_table(between_marks_l=stick.between_marks_l) if row.reading_fraction >= settled.fraction), None)
    assume(row is not None)
    after = reading_of(cold, settled, volume_l=found.volume_l + row.add_l)
    assert after <= max(1.0, settled.fraction) + 1e-9
    if row.add_l > 0.0:
        assert row.add_l <= found.missing_l + 1e-9


def _stands_in_the_sump(stick: Stick, reading: Reading) -> bool:
    return stick.full_l > 3.0 * stick.between_marks_l or (1.0 - reading.fraction) * stick.between_marks_l < 0.5 * stick.full_l


@given(REFILLS, SPANS, SIGMAS, st.one_of(st.none(), st.floats(0.0, 0.7)))
def test_the_first_pour_is_never_above_the_capacity(refill: float, span: float, sigma: float, held: float | None):
    assume(span < refill)
    plan = first_pour(refill_l=refill, between_marks_l=span, refill_sigma_l=sigma, filter_l=held)
    if plan.first_l is not None:
        assert plan.first_l <= refill
        assert plan.most_l is None or plan.first_l <= plan.most_l


CHECKS = st.lists(
    st.tuples(st.floats(0.0, 5e4), st.floats(3.0, 6.0), st.floats(0.02, 0.3)), min_size=3, max_size=12, unique_by=lambda one: one[0]
)


@given(CHECKS, st.lists(st.tuples(st.floats(0.0, 5e4), st.floats(0.05, 1.0)), max_size=4), st.randoms(use_true_random=False))
def test_the_order_in_which_checks_are_told_does_not_matter(rows: list, added: list, order):
    found = oil_use([LevelCheck(*row) for row in rows], [TopUp(*row) for row in added])
    order.shuffle(rows)
    order.shuffle(added)
    again = oil_use([LevelCheck(*row) for row in rows], [TopUp(*row) for row in added])
    assert math.isclose(found.volume_l, again.volume_l, rel_tol=1e-9)


@given(st.lists(st.tuples(st.floats(100.0, 5000.0), st.floats(-2.0, 2.0), st.floats(0.02, 0.3)), min_size=3, max_size=12))
def test_without_drift_the_estimate_is_that_of_least_squares(steps: list):
    driven, rows = 0.0, []
    for step, off, sigma_l in steps:
        driven += step
        rows.append((driven, 6.0 - 0.05 * driven / 1000.0 + off * sigma_l, sigma_l))
    found = oil_use([LevelCheck(*row) for row in rows], p_rise=1e-15)
    assert found.rises == ()
    distance, volume, sigma = (np.array(column) for column in zip(*rows, strict=True))
    design = np.stack([np.ones_like(distance), -(distance - distance[-1]) / 1000.0], axis=1) / sigma[:, None]
    covariance = np.linalg.inv(design.T @ design)
    level, use = covariance @ design.T @ (volume / sigma)
    assert math.isclose(found.volume_l, level, abs_tol=1e-4)
    assert math.isclose(found.use_l_per_1000km, use, abs_tol=1e-3 * (1.0 + abs(use)))
    assert math.isclose(found.use_sigma, math.sqrt(covariance[1, 1]), rel_tol=1e-3)
    assert math.isclose(found.volume_sigma_l, math.sqrt(covariance[0, 0]), rel_tol=1e-3)
