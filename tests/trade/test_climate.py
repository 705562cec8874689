"""The design temperature of a record: windows, whole seasons, and faults that are reported and left out."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from twomarks.errors import InputError, NoSolutionError, OutOfRangeError
from twomarks.trade.climate import DesignTemperature, coldest_start, hottest_day, is_southern
from twomarks.trade.daily_record import daily_record
from twomarks.trade.extremes import return_level

FROM, TO = dt.date(2026, 9, 1), dt.date(2027, 8, 31)


def record(years: int, *, southern: bool = False) -> tuple[list[dt.date], list[float], list[float]]:
    """An invented record: a yearly wave, and one cold and one hot spell a year that differ from year to year."""
    days = [dt.date(1990, 1, 1) + dt.timedelta(days=at) for at in range(365 * years + years // 4)]
    minima, maxima = [], []
    for day in days:
        wave = math.cos(2 * math.pi * (day.timetuple().tm_yday - (196 if southern else 15)) / 365.25)
        spell = 3.0 * math.sin(day.year * 1.7) + (math.sin(day.year * 0.9) if wave > 0 else 0.0)
        peak = 4.0 if abs(wave) > 0.999 else 0.0
        minima.append(round(5.0 - 15.0 * wave - (peak + spell if wave > 0.99 else 0.0), 2))
        maxima.append(round(minima[-1] + 9.0 + (spell + peak if wave < -0.99 else 0.0), 2))
    return days, minima, [max(low, high) for low, high in zip(minima, maxima, strict=True)]


def cold(years: int = 20, *, from_day: dt.date = FROM, to_day: dt.date = TO, **other) -> DesignTemperature:
    days, minima, maxima = record(years)
    usable = daily_record(**{"days": days, "minima_c": minima, "maxima_c": maxima, **other})
    return coldest_start(record=usable, from_day=from_day, to_day=to_day)


def keys(found: DesignTemperature) -> list[str]:
    return [flag.key for flag in found.flags]


def test_a_long_record_is_judged_by_extreme_values():
    found = cold()
    assert (found.method, found.winters, found.flags) == ("extreme values", 19, ())
    assert found.low_c <= found.value_c <= found.high_c


def test_a_short_record_is_judged_by_its_days_and_says_so():
    found = cold(5)
    assert found.method == "percentile"
    assert keys(found) == ["climate.short_record"]
    assert found.share_percent == 0.5
    assert found.low_c == min(record(5)[1])
    assert found.low_c <= found.value_c <= found.high_c


def test_the_months_between_decide():
    summer = cold(from_day=dt.date(2026, 5, 1), to_day=dt.date(2026, 8, 31))
    assert summer.value_c > cold().value_c + 10.0


def test_a_window_over_new_year_has_the_winter_in_it():
    winter = cold(from_day=dt.date(2026, 11, 1), to_day=dt.date(2027, 3, 31))
    assert winter.value_c == pytest.approx(cold().value_c, abs=0.01)


def test_south_of_the_equator_winters_are_parted_at_new_year():
    days, minima, maxima = record(20, southern=True)
    usable = daily_record(days=days, minima_c=minima, maxima_c=maxima)
    found = coldest_start(record=usable, from_day=FROM, to_day=TO, southern=True)
    assert (found.method, found.winters, found.season_month) == ("extreme values", 20, 1)
    assert found == coldest_start(record=usable, from_day=FROM, to_day=TO)


def test_the_record_tells_its_hemisphere():
    for southern in (False, True):
        days, minima, maxima = record(2, southern=southern)
        assert is_southern(record=daily_record(days=days, minima_c=minima)) is southern
        assert is_southern(record=daily_record(days=days, maxima_c=maxima)) is southern


def test_the_hottest_day_is_found_likewise():
    days, minima, maxima = record(20)
    found = hottest_day(record=daily_record(days=days, minima_c=minima, maxima_c=maxima), from_day=FROM, to_day=TO)
    assert (found.method, found.season_month) == ("extreme values", 1)
    assert found.low_c <= found.value_c <= found.high_c
    assert found.value_c > 25.0


def test_absurd_and_blank_values_are_reported_and_left_out():
    days, minima, maxima = record(20)
    minima[400], maxima[500] = -99.9, 99.9
    minima[700] = float("nan")
    found = cold(minima_c=minima, maxima_c=maxima)
    assert keys(found) == ["climate.blank", "climate.absurd", "climate.missing"]
    blank, absurd, missing = found.flags
    assert (blank.figures["count"], blank.figures["days"]) == (1, (days[700],))
    assert (absurd.figures["count"], absurd.figures["days"]) == (2, (days[400], days[500]))
    assert (missing.figures["count"], missing.figures["gaps"], missing.figures["longest"]) == (3, 3, 1)
    assert found.value_c == pytest.approx(cold().value_c, abs=0.5)


def test_a_minimum_above_its_maximum_is_refused_by_day_or_left_out_by_name():
    days, minima, maxima = record(20)
    minima[600] = maxima[600] + 5.0
    with pytest.raises(InputError, match=r"climate\.crossed") as refused:
        cold(minima_c=minima, maxima_c=maxima)
    assert (refused.value.values["found"], refused.value.values["index"], refused.value.values["more"]) == (days[600], 600, None)
    found = cold(minima_c=minima, maxima_c=maxima, crossed="left out")
    assert keys(found) == ["climate.crossed_left_out", "climate.missing"]
    with pytest.raises(InputError, match=r"climate\.crossed"):
        cold(minima_c=maxima, maxima_c=minima, crossed="left out")


def test_a_day_given_twice_with_other_values_is_left_out():
    days, minima, maxima = record(20)
    found = cold(days=[*days, days[10], days[11]], minima_c=[*minima, -55.0, minima[11]], maxima_c=[*maxima, 0.0, maxima[11]])
    assert keys(found) == ["climate.twice", "climate.missing"]
    assert found.flags[0].figures["count"] == 1
    assert found.value_c == pytest.approx(cold().value_c, abs=1e-6)


def test_a_season_with_many_gaps_does_not_count():
    days, minima, maxima = record(20)
    kept = [at for at, day in enumerate(days) if not (day.year == 1995 and day.month < 4)]
    found = cold(days=[days[at] for at in kept], minima_c=[minima[at] for at in kept], maxima_c=[maxima[at] for at in kept])
    assert found.winters == 18
    assert keys(found) == ["climate.missing", "climate.seasons_left_out"]
    assert found.flags[0].figures["from_day"] == dt.date(1995, 1, 1)
    assert found.flags[1].figures["first"] == 1994


def test_a_season_with_one_gap_as_long_as_a_frost_does_not_count():
    days, minima, maxima = record(20)
    kept = [at for at, day in enumerate(days) if not dt.date(1995, 1, 10) <= day <= dt.date(1995, 1, 20)]
    found = cold(days=[days[at] for at in kept], minima_c=[minima[at] for at in kept], maxima_c=[maxima[at] for at in kept])
    assert found.winters == 18


@pytest.mark.parametrize(
    ("wrong", "key"),
    [
        ({"from_day": TO, "to_day": FROM}, "climate.backwards"),
        ({"minima_c": [1.0]}, "climate.lengths"),
        ({"days": [], "minima_c": [], "maxima_c": []}, "climate.no_days"),
        ({"minima_c": None}, "climate.no_series"),
        ({"minima_c": None, "maxima_c": None}, "climate.lengths"),
    ],
)
def test_nonsense_is_refused(wrong: dict, key: str):
    with pytest.raises(InputError) as told:
        cold(**wrong)
    assert told.value.key == key


def test_days_at_the_ends_of_the_calendar_are_in_no_season():
    days, minima, maxima = record(20)
    ends = [dt.date.min, dt.date.max]
    assert cold(days=[*days, *ends], minima_c=[*minima, -50.0, -50.0], maxima_c=[*maxima, 0.0, 0.0]).value_c == cold().value_c


def test_once_a_year_is_refused_and_so_is_no_number():
    days, minima, _ = record(2)
    for years in (1.0, float("nan")):
        with pytest.raises(OutOfRangeError):
            coldest_start(record=daily_record(days=days, minima_c=minima), from_day=FROM, to_day=TO, once_in_years=years)
    with pytest.raises(OutOfRangeError):
        return_level([1.0, float("nan")] * 8, once_in_years=10)


def test_too_few_years_have_no_return_level():
    with pytest.raises(NoSolutionError):
        return_level([1.0, 2.0, 3.0], once_in_years=10)
