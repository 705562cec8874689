"""The forecast on made-up histories: what it says with none, few and many readings."""

from __future__ import annotations

import datetime as dt

import pytest

from twomarks.model.ledger import Reading
from twomarks.planning.usage import forecast, judge, prior_of
from twomarks.planning.usage.forecast import UsageForecast
from twomarks.words import Reader, render

TODAY = dt.date(2026, 1, 1)


def after(count: int, *, daily: float = 40.0, every: int = 30, first: float = 50_000.0, idle_last: int = 0) -> UsageForecast:
    days = [TODAY - dt.timedelta(days=every * i) for i in range(count)][::-1]
    values, value = [], first
    for i in range(count):
        values.append(value)
        value += 0.0 if i >= count - 1 - idle_last else daily * every
    readings = [Reading(day=day, steps=round(v * 1000), number=i) for i, (day, v) in enumerate(zip(days, values, strict=True))]
    return forecast(judge(readings, today=TODAY), today=TODAY, prior=prior_of("car", "petrol"))


def width(f: UsageForecast, days: float = 365) -> float:
    spread = f.travelled(days=days)
    return spread.high - spread.low


def test_without_a_reading_the_prior_speaks_of_distances_but_no_day_is_named() -> None:
    f = after(0)
    assert f.spread_on(TODAY) is None
    assert f.passage(60_000).likely is None
    assert f.chance_past(60_000, TODAY) is None
    assert 8_000 < f.travelled(days=365).likely < 25_000
    assert "too few readings to go by" in render(f.basis, Reader())


def test_one_reading_gives_days_as_wide_as_the_prior() -> None:
    days = after(1).passage(60_000)
    assert days.earliest is not None
    assert days.latest is not None
    assert (days.latest - days.earliest).days > 200


@pytest.mark.parametrize(("few", "more"), [(1, 2), (2, 4), (4, 13)])
def test_readings_narrow_the_spread(few: int, more: int) -> None:
    assert width(after(more)) < width(after(few))


def test_a_steady_vehicle_is_forecast_near_its_rate() -> None:
    f = after(25, daily=40.0)
    assert f.travelled(days=180).likely == pytest.approx(40.0 * 180, rel=0.06)
    assert float(f.daily_km.value) == pytest.approx(40.0, rel=0.05)
    assert f.daily_km.unit == "km/day"


def test_a_vehicle_unlike_its_kind_overrules_the_prior() -> None:
    assert after(25, daily=175.0).travelled(days=90).likely == pytest.approx(175.0 * 90, rel=0.1)
    assert after(25, daily=4.0).travelled(days=90).likely == pytest.approx(4.0 * 90, rel=0.3)


def test_recent_idle_months_lower_the_rate() -> None:
    assert after(25, idle_last=4).travelled(days=60).likely < 0.7 * after(25).travelled(days=60).likely


def test_the_spread_is_no_point_when_nothing_was_driven() -> None:
    spread = after(12, daily=0.0).travelled(days=365)
    assert spread.high > spread.low >= 0


def test_a_limit_behind_the_last_reading_is_read_off_the_readings() -> None:
    f = after(13, daily=40.0, every=30)
    assert f.last_value is not None
    days = f.passage(f.last_value - 40.0 * 45)
    assert days.earliest == days.likely == days.latest == TODAY - dt.timedelta(days=45)


def test_a_limit_ten_years_away_names_no_day() -> None:
    assert after(13).passage(10_000_000).likely is None


def test_a_day_before_the_last_reading_is_read_between_readings() -> None:
    f = after(13, daily=40.0)
    spread = f.spread_on(TODAY - dt.timedelta(days=15))
    assert spread is not None
    assert f.last_value is not None
    assert spread.low == spread.high == pytest.approx(f.last_value - 15 * 40.0)


def test_a_reading_known_only_about_when_widens_the_days() -> None:
    sharp = [Reading(day=TODAY - dt.timedelta(days=30 * i), steps=(50_000 - 1200 * i) * 1000, number=i) for i in range(13)]
    vague = [
        Reading(day=r.day, day_from=r.day - dt.timedelta(days=15), day_to=r.day + dt.timedelta(days=15), steps=r.steps, number=r.number)
        for r in sharp
    ]
    spreads = [forecast(judge(rs, today=TODAY), today=TODAY).travelled(days=30) for rs in (sharp, vague)]
    assert spreads[1].high - spreads[1].low > spreads[0].high - spreads[0].low


def test_kinds_without_figures_of_their_own_take_a_wider_prior() -> None:
    assert prior_of("motorcycle", "petrol").root_spread > prior_of("car", "petrol").root_spread
    assert prior_of("motorcycle").basis.key == "usage.prior_wider"


def test_the_basis_says_how_many_readings_since_when() -> None:
    assert "from 13 readings since" in render(after(13).basis, Reader())


def test_hours_are_forecast_in_minutes_like_any_counter() -> None:
    day = 24 * 3600
    readings = [
        Reading(day=TODAY - dt.timedelta(days=30 * i), steps=(500 * 3600) - 30 * 3600 * i, number=9 - i, counter="hours", kind="duration")
        for i in range(9)
    ]
    f = forecast(judge(readings, today=TODAY), today=TODAY)
    assert f.unit == "min"
    assert f.last_value == 500 * 60
    assert f.travelled(days=90).likely == pytest.approx(90 * 60, rel=0.1)
    day_likely = f.passage(500 * 60 + 30 * 60).likely
    assert day_likely is not None
    assert (day_likely - TODAY).days == pytest.approx(30, abs=5)
    too_fast = [
        *readings,
        Reading(day=TODAY + dt.timedelta(days=1), steps=500 * 3600 + day + 3600, number=20, counter="hours", kind="duration"),
    ]
    assert [flag.key for flag in judge(too_fast, today=TODAY + dt.timedelta(days=1)).flags] == ["usage.jump"]
