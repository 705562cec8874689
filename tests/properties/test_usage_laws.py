"""Laws of judging and forecasting that hold for any history."""

from __future__ import annotations

import datetime as dt
import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from twomarks.model.ledger import Reading
from twomarks.planning.usage import forecast, judge
from twomarks.planning.usage.chain import longest_chain
from twomarks.planning.usage.sisters import SisterHistory, sisters_of
from twomarks.planning.usage.student import chance_below, quantile

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


@given(st.floats(-1000, 1000), st.floats(0.001, 100))
def test_the_chance_below_rises_and_mirrors(z: float, more: float) -> None:
    assert 0 <= chance_below(z) <= chance_below(z + more) + 1e-15 <= 1 + 1e-12
    assert chance_below(z) + chance_below(-z) == pytest.approx(1, abs=1e-12)


@given(st.floats(0.001, 0.999))
def test_a_quantile_is_passed_with_its_chance(chance: float) -> None:
    assert chance_below(quantile(chance)) == pytest.approx(chance, abs=1e-9)


@settings(max_examples=30)
@given(good(), st.sampled_from([0.025, 0.1, 0.5, 0.9, 0.975]), st.integers(1, 900))
def test_the_chance_at_a_quantile_is_its_chance(readings: list[Reading], chance: float, days: int) -> None:
    distance = forecast(judge(readings, today=TODAY), today=TODAY).distance
    found = distance.quantile_km(chance=chance, days=days)
    if found > 0:
        assert distance.chance_at_most(distance_km=found, days=days) == pytest.approx(chance, abs=1e-9)
    else:
        assert distance.chance_at_most(distance_km=0.0, days=days) >= chance - 1e-9


def _sister(level: float, *, years: float, fall: float = 0.0, season: float = 0.0, every: int = 30) -> SisterHistory:
    stretches = []
    for number in range(int(years * 365.25 / every)):
        day = START.toordinal() + every * (number + 0.5)
        wave = season * math.cos(2 * math.pi * (day - dt.date(1970, 1, 1).toordinal()) / 365.25)
        root = level * math.exp(-fall * every * (number + 0.5) / 365.25) * (1 + wave)
        stretches.append((day, float(every), root * root * every))
    return SisterHistory(tuple(stretches))


@settings(max_examples=30)
@given(st.floats(3, 15), st.floats(0.0, 0.06), st.floats(0.0, 0.15))
def test_sisters_teach_the_level_the_fall_and_the_season_they_were_made_with(level: float, fall: float, season: float) -> None:
    made = [_sister(level * part, years=6, fall=fall, season=season) for part in (0.8, 0.9, 1.1, 1.2)]
    taught = sisters_of(made)
    assert taught is not None
    assert taught.fresh_root == pytest.approx(level, rel=0.05)
    assert taught.fall == pytest.approx(fall, abs=0.01)
    assert taught.season[0] == pytest.approx(season, abs=0.02 + 0.1 * season)
    assert taught.spread == pytest.approx(level * 0.158, rel=0.25)


@settings(max_examples=20)
@given(st.floats(3, 15), st.integers(100, 1500))
def test_the_path_of_sisters_rests_on_nothing_later(level: float, known_days: int) -> None:
    whole = [_sister(level * part, years=5, season=0.1) for part in (0.9, 1.0, 1.2)]
    day = START.toordinal() + known_days
    cut = [SisterHistory(tuple(s for s in one.stretches if s[0] + s[1] / 2 <= day)) for one in whole]
    taught, by_then = sisters_of(whole), sisters_of(cut, whole)
    assert taught is not None
    assert by_then is not None
    assert by_then.path == tuple(point for point in taught.path if point[0] <= day)


def test_a_vehicle_of_which_nothing_is_known_is_foretold_like_its_sisters() -> None:
    taught = sisters_of([_sister(level, years=4) for level in (9.0, 10.0, 11.0)])
    history = judge([Reading(day=START + dt.timedelta(days=1400), steps=5_000_000, number=1)], today=TODAY)
    f = forecast(history, today=TODAY, sisters=taught)
    assert f.travelled(days=30).likely == pytest.approx(30 * 100, rel=0.1)
    assert f.basis.key == "usage.from_sisters"
    assert sisters_of([_sister(9.0, years=1)]) is None
