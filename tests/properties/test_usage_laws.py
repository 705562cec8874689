"""Laws of judging and forecasting that hold for any history."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from twomarks.model.ledger import Reading
from twomarks.planning.usage import forecast, judge
from twomarks.planning.usage.chain import longest_chain
from twomarks.planning.usage.incomplete import beta_prime_cdf, regularised_beta, regularised_gamma

START = dt.date(2023, 1, 1)
TODAY = dt.date(2026, 1, 1)


@st.composite
def good(draw: st.DrawFn) -> list[Reading]:
    day, value, found = 0, draw(st.integers(0, 200_000)), []
    for number in range(draw(st.integers(0, 25))):
        found.append(Reading(day=START + dt.timedelta(days=day), steps=value * 1000, number=number))
        gap = draw(st.integers(1, 40))
        day, value = day + gap, value + gap * draw(st.integers(0, 200))
    return found


wild = st.lists(
    st.builds(
        lambda day, km, number, confirmed: Reading(day=START + dt.timedelta(days=day), steps=km * 1000, number=number, confirmed=confirmed),
        st.integers(0, 1400),
        st.integers(0, 2_000_000),
        st.integers(0, 10_000),
        st.booleans(),
    ),
    max_size=25,
)


@given(wild)
def test_no_reading_is_lost_and_the_clean_ones_rise_within_each_run(readings: list[Reading]) -> None:
    history = judge(readings, today=TODAY)
    kept = [*history.clean, *(flag.reading for flag in history.flags)]
    assert all(reading in readings for reading in kept)
    days = [reading.day for reading in history.clean]
    assert days == sorted(set(days))
    assert history.used == len(history.clean)
    for place, (first, second) in enumerate(itertools.pairwise(history.clean), 1):
        assert place in history.breaks or first.steps <= second.steps
    assert all(reading.day <= TODAY for reading in history.clean)
    past = {reading.day for reading in readings if reading.day <= TODAY and reading.confirmed}
    assert past <= set(days)


@given(wild, wild)
def test_judging_the_clean_ones_again_flags_nothing(first: list[Reading], second: list[Reading]) -> None:
    history = judge(first + second, today=TODAY)
    again = judge(history.clean, today=TODAY)
    assert (again.clean, again.flags) == (history.clean, ())


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 40)), max_size=8))
def test_the_chain_is_as_long_as_any_set_of_readings_that_agree(points: list[tuple[int, int]]) -> None:
    points.sort(key=lambda point: point[0])
    chain = longest_chain([(float(d), float(v)) for d, v in points], per_day=5.0, must=[False] * len(points))

    def agree(chosen: tuple[int, ...]) -> bool:
        return all(0 <= points[j][1] - points[i][1] <= 5 * (points[j][0] - points[i][0]) for i, j in itertools.pairwise(chosen))

    assert agree(chain)
    longest = max((len(c) for n in range(len(points) + 1) for c in itertools.combinations(range(len(points)), n) if agree(c)), default=0)
    assert len(chain) == longest


@settings(max_examples=30)
@given(good(), st.integers(1, 40_000))
def test_days_and_distances_come_in_order(readings: list[Reading], ahead: int) -> None:
    f = forecast(judge(readings, today=TODAY), today=TODAY)
    spreads = [f.travelled(days=days) for days in (10, 60, 365)]
    assert all(0 <= s.low <= s.likely <= s.high for s in spreads)
    assert all(a.likely <= b.likely and a.high <= b.high for a, b in itertools.pairwise(spreads))
    if f.last_value is not None:
        near, far = f.passage(f.last_value + ahead), f.passage(f.last_value + 2 * ahead)
        for days in (near, far):
            order = [day or dt.date.max for day in (days.earliest, days.likely, days.latest)]
            assert order == sorted(order)
        assert (near.likely or dt.date.max) <= (far.likely or dt.date.max)


@settings(max_examples=30)
@given(good(), st.integers(500, 20_000))
def test_the_day_of_passage_and_the_chance_on_that_day_agree(readings: list[Reading], ahead: int) -> None:
    f = forecast(judge(readings, today=TODAY), today=TODAY)
    if f.last_value is None:
        return
    for day, chance in zip((f.passage(f.last_value + ahead).earliest, f.passage(f.last_value + ahead).likely), (0.1, 0.5), strict=True):
        if day is not None:
            on, before = f.chance_past(f.last_value + ahead, day), f.chance_past(f.last_value + ahead, day - dt.timedelta(days=1))
            assert on is not None
            assert before is not None
            assert on >= chance >= before - 1e-9


@given(st.floats(0.05, 500), st.floats(0.0, 600), st.floats(0.001, 50))
def test_the_gamma_function_rises_from_nothing_to_one(shape: float, x: float, more: float) -> None:
    low, high = regularised_gamma(shape=shape, x=x), regularised_gamma(shape=shape, x=x + more)
    assert 0 <= low <= high + 1e-12 <= 1 + 1e-9


@given(st.floats(0.05, 300), st.floats(0.05, 300), st.floats(0, 1))
def test_the_beta_function_mirrors(a: float, b: float, x: float) -> None:
    assert regularised_beta(a=a, b=b, x=x) + regularised_beta(a=b, b=a, x=1 - x) == pytest.approx(1, abs=1e-9)


@given(st.floats(0.3, 60), st.floats(0.05, 3))
def test_a_certain_rate_turns_the_compound_gamma_into_a_gamma(shape: float, part: float) -> None:
    x = part * shape
    assert beta_prime_cdf(shape=shape, tail=1e7, scale=1e7, x=x) == pytest.approx(regularised_gamma(shape=shape, x=x), abs=1e-5)
