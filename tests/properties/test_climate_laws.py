"""Laws of the design temperature: order, faults, hemispheres and the seldomness asked for."""

from __future__ import annotations

import datetime as dt
import math

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from twomarks.trade.climate import coldest_start, hottest_day
from twomarks.trade.daily_record import DailyRecord, daily_record
from twomarks.trade.extremes import return_level

YEARS = 16
DAYS = tuple(dt.date(1990, 1, 1) + dt.timedelta(days=at) for at in range(round(365.25 * YEARS)))
HALF_A_YEAR = dt.timedelta(days=182)
WHOLE_YEAR = {"from_day": dt.date(2026, 9, 1), "to_day": dt.date(2027, 8, 31)}
WINTER = {"from_day": dt.date(2026, 11, 1), "to_day": dt.date(2027, 2, 28)}
OFFSETS = st.lists(st.floats(-6.0, 6.0), min_size=YEARS + 2, max_size=YEARS + 2, unique=True)
FEWER = settings(max_examples=max(settings().max_examples // 4, 10))
"""Each example is a record of 16 years, fitted up to four times."""
WAVES = tuple(math.cos(2.0 * math.pi * (day.timetuple().tm_yday - 15) / 365.25) for day in DAYS)
WINTERS = tuple(day.year + (day.month > 6) - 1990 for day in DAYS)


def record(offsets: list[float], *, start: int = 0, later: dt.timedelta = dt.timedelta(), warmer_c: float = 0.0) -> DailyRecord:
    """An invented record: a yearly wave, its coldest and hottest months moved by one offset a year."""
    low = [4.0 - 14.0 * wave + (offsets[winter] if wave > 0.8 else 0.0) + warmer_c for wave, winter in zip(WAVES, WINTERS, strict=True)]
    high = [
        26.0 - 14.0 * wave + (offsets[day.year - 1990] if wave < -0.8 else 0.0) + warmer_c for wave, day in zip(WAVES, DAYS, strict=True)
    ]
    days = [day + later for day in DAYS] if later else list(DAYS)
    return daily_record(days=days[start:] + days[:start], minima_c=low[start:] + low[:start], maxima_c=high[start:] + high[:start])


@FEWER
@given(OFFSETS, st.integers(0, len(DAYS)))
def test_the_order_of_the_rows_does_not_matter(offsets: list[float], at: int):
    usual = record(offsets)
    turned = record(offsets, start=at)
    assert coldest_start(record=usual, **WHOLE_YEAR) == coldest_start(record=turned, **WHOLE_YEAR)


@FEWER
@given(OFFSETS, st.floats(1.5, 50.0), st.floats(1.1, 10.0))
def test_what_is_seldomer_is_colder_and_hotter(offsets: list[float], years: float, factor: float):
    usual = record(offsets)
    often, seldom = (coldest_start(record=usual, once_in_years=one, **WHOLE_YEAR) for one in (years, years * factor))
    assert seldom.value_c < often.value_c
    often, seldom = (hottest_day(record=usual, once_in_years=one, **WHOLE_YEAR) for one in (years, years * factor))
    assert seldom.value_c > often.value_c


@FEWER
@given(OFFSETS)
def test_half_a_year_later_south_of_the_equator_the_answer_is_the_same(offsets: list[float]):
    north, south = coldest_start(record=record(offsets), **WHOLE_YEAR), record(offsets, later=HALF_A_YEAR)
    found = coldest_start(record=south, southern=True, **WHOLE_YEAR)
    assert found == coldest_start(record=south, **WHOLE_YEAR)
    assert math.isclose(found.value_c, north.value_c, abs_tol=0.05)
    assert found.season_month == 1


@FEWER
@given(OFFSETS, st.floats(-5.0, 5.0))
def test_a_warmer_place_moves_the_answer_by_as_much(offsets: list[float], warmer: float):
    cool, warm = (coldest_start(record=record(offsets, warmer_c=by), **WINTER) for by in (0.0, warmer))
    assert math.isclose(warm.value_c, cool.value_c + warmer, abs_tol=0.05)
    assert cool.low_c <= cool.value_c <= cool.high_c


@FEWER
@given(OFFSETS, st.lists(st.integers(0, len(DAYS) - 1), min_size=1, max_size=5, unique=True))
def test_an_absurd_value_is_named_and_never_moves_the_answer_beyond_the_days_left(offsets: list[float], spoilt: list[int]):
    whole = record(offsets)
    minima, maxima = list(whole.minima_c.values()), list(whole.maxima_c.values())
    for at in spoilt:
        minima[at] = -99.9
    found = daily_record(days=DAYS, minima_c=minima, maxima_c=maxima)
    assert found.faults[0].key == "climate.absurd"
    assert found.faults[0].figures["count"] == len(spoilt)
    left = [at for at in range(len(DAYS)) if at not in spoilt]
    without = daily_record(days=[DAYS[at] for at in left], minima_c=[minima[at] for at in left], maxima_c=[maxima[at] for at in left])
    assert found.minima_c == without.minima_c
    assert coldest_start(record=found, **WHOLE_YEAR).value_c == coldest_start(record=without, **WHOLE_YEAR).value_c


@given(st.lists(st.floats(5.0, 40.0), min_size=15, max_size=25, unique=True), st.floats(-20.0, 20.0))
def test_a_return_level_moves_with_its_record_and_lies_in_its_interval(maxima: list[float], shift: float):
    assume(max(maxima) - min(maxima) > 1.0)
    level = return_level(maxima, once_in_years=10)
    moved = return_level([value + shift for value in maxima], once_in_years=10)
    assert level.low <= level.value <= level.high
    assert math.isclose(moved.value, level.value + shift, abs_tol=0.05 * (max(maxima) - min(maxima)))
