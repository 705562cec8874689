"""Laws of the stick: pours, tables, readings and litres, and the estimate of what is used."""

from __future__ import annotations

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from twomarks.trade.add_table import add_table
from twomarks.trade.chance import normal_quantile, normal_share_below
from twomarks.trade.pour import first_pour, pour_without_capacity

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
