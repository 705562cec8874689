"""Laws of what is due: chances that only grow, windows in order, and wear that nears its limit."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.planning.due_ground import TODAY, ago, measured, one, steady
from twomarks.planning.due import Done, Happening
from twomarks.planning.due.wear import wear_of

DAYS = st.integers(0, 900)
USES = [steady(daily=daily) for daily in (3.0, 40.0, 150.0)]
ITEM = """every = { distance = "12000 km", time = "12 months" }
event = "waded"
[items.oil.measured]
least = "2 mm"
"""


@given(done=DAYS, waded=DAYS, use=st.sampled_from(USES), first=st.floats(4, 9), worn=st.floats(0.3, 1.9))
def test_the_chance_of_being_past_a_limit_only_grows_and_the_window_is_in_order(
    done: int, waded: int, use: object, first: float, worn: float
) -> None:
    due = one(
        ITEM,
        Done(day=ago(done)),
        use=use,  # type: ignore[arg-type]
        events=[Happening("waded", ago(waded))],
        measurements=[measured(first, max(0, done - 5)), measured(first - worn, max(0, done // 2))],
    )
    days = [TODAY + dt.timedelta(days=step) for step in (-30, 0, 5, 30, 120, 400, 1500)]
    chances = [due.chance_by(day) or 0.0 for day in days]
    assert all(0 <= chance <= 1 for chance in chances)
    assert all(early <= late + 1e-9 for early, late in itertools.pairwise(chances))
    for bound in due.bounds:
        known = [day for day in (bound.days.earliest, bound.days.likely, bound.days.latest) if day is not None]
        assert known == sorted(known)
    if due.opens and due.likely and due.closes:
        assert due.opens <= due.likely
        assert due.opens <= due.closes
    gone_by = due.closes is not None and due.closes < TODAY
    assert (due.state == "past the limit") == (gone_by or any(bound.passed for bound in due.bounds))


@given(margin=st.floats(0.5, 8), rate=st.floats(1e-5, 1e-3), runs=st.lists(st.floats(100, 50_000), min_size=2, max_size=8, unique=True))
def test_values_on_a_line_give_back_the_line(margin: float, rate: float, runs: list[float]) -> None:
    ordered = sorted(runs)
    assume(ordered[-1] - ordered[0] > 1000)
    points = [(run, margin + rate * (ordered[-1] - run)) for run in ordered]
    wear = wear_of(points, error=0.2)
    assert wear is not None
    assert wear.rate == pytest.approx(rate, rel=1e-6)
    assert wear.margin == pytest.approx(margin, rel=1e-6, abs=1e-6)


@given(
    values=st.lists(st.tuples(st.floats(0, 20_000), st.floats(0.2, 9)), min_size=2, max_size=6, unique_by=lambda pair: round(pair[0])),
    chances=st.lists(st.floats(0.02, 0.98), min_size=2, max_size=4),
)
def test_a_higher_chance_takes_a_longer_run_and_the_two_ways_agree(values: list[tuple[float, float]], chances: list[float]) -> None:
    wear = wear_of(sorted(values), error=0.2)
    if wear is None:
        return
    runs = [wear.run_to(chance) for chance in sorted(chances)]
    known = [run for run in runs if run is not None]
    assert known == sorted(known)
    for chance, run in zip(sorted(chances), runs, strict=True):
        if run is not None and run > 1:
            assert wear.chance_within(run) == pytest.approx(chance, abs=2e-3)
