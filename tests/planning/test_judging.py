"""Judging of readings, by made-up histories with one planted fault each."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from twomarks.model.ledger import Reading
from twomarks.planning.usage import judge
from twomarks.words import Reader, keys, render

START = dt.date(2024, 1, 1)
TODAY = dt.date(2026, 1, 1)


def at(day: int, km: float, *, number: int = 0, confirmed: bool = False) -> Reading:
    return Reading(day=START + dt.timedelta(days=day), steps=round(km * 1000), number=number or day + 1, confirmed=confirmed)


def steady(count: int = 20, *, first: float = 148_000, every: int = 14, daily: float = 40) -> list[Reading]:
    return [at(i * every, first + i * every * daily) for i in range(count)]


def flagged(readings: list[Reading]) -> list[tuple[int, str]]:
    return [((flag.reading.day - START).days, flag.key) for flag in judge(readings, today=TODAY).flags]


def test_a_steady_history_has_no_flag() -> None:
    history = judge(steady(), today=TODAY)
    assert (history.flags, history.used, history.breaks) == ((), 20, ())


def test_no_reading_is_an_empty_history() -> None:
    assert judge([], today=TODAY).used == 0


def test_the_order_in_which_readings_come_does_not_matter() -> None:
    readings = steady()
    assert judge(readings[::-1], today=TODAY) == judge(readings, today=TODAY)


FAULTS = [
    ("usage.zero", 0.0),
    ("usage.step_back", 147_500.0),
    ("usage.digit_dropped", 14_928.0),
    ("usage.digit_doubled", 1_449_285.0),
    ("usage.unit_mixup", 92_690.0),
    ("usage.step_back", 41_377.0),
    ("usage.jump", 912_345.0),
]


@pytest.mark.parametrize(("key", "km"), FAULTS)
@pytest.mark.parametrize("place", [7, 19])
def test_a_planted_fault_is_flagged_with_its_reason_and_nothing_else_is(key: str, km: float, place: int) -> None:
    readings = steady()
    day = place * 14
    meant = readings[place].value
    if key == "usage.digit_dropped":
        km = float(str(round(meant))[:-1])
    elif key == "usage.digit_doubled":
        km = float(str(round(meant))[0] + str(round(meant)))
    elif key == "usage.unit_mixup":
        km = meant / 1.609344
    readings[place] = at(day, km)
    assert flagged(readings) == [(day, key)]
    assert judge(readings, today=TODAY).used == 19


def test_a_reading_in_miles_above_the_rest_is_a_mix_up_of_units() -> None:
    readings = steady(first=92_000)
    readings[9] = at(9 * 14, readings[9].value * 1.609344)
    assert flagged(readings) == [(9 * 14, "usage.unit_mixup")]


def test_a_first_reading_far_below_the_rest_is_flagged_and_not_the_rest() -> None:
    readings = steady()
    readings[0] = at(0, 14_801.3)
    assert [day for day, _ in flagged(readings)] == [0]


def test_one_bad_high_reading_does_not_flag_the_good_ones_after_it() -> None:
    readings = steady()
    readings[3] = at(42, 190_000)
    assert flagged(readings) == [(42, "usage.jump")]


def test_another_vehicles_readings_three_in_a_row_are_flagged() -> None:
    readings = [*steady(), at(99, 61_200), at(103, 61_400), at(110, 61_800)]
    assert [day for day, _ in flagged(readings)] == [99, 103, 110]


def test_more_than_can_be_driven_in_the_days_between_is_flagged() -> None:
    readings = [*steady(3), at(29, 148_000 + 28 * 40 + 3100)]
    assert flagged(readings) == [(29, "usage.jump")]


def test_a_long_holiday_trip_is_believed() -> None:
    readings = [*steady(12), at(12 * 14, 148_000 + 11 * 14 * 40 + 4200)]
    assert flagged(readings) == []


def test_a_future_date_is_flagged_and_stays_so_when_confirmed() -> None:
    readings = [*steady(), at(900, 200_000, confirmed=True)]
    assert flagged(readings) == [(900, "usage.future")]


def test_of_several_a_day_the_last_is_used_without_a_flag() -> None:
    readings = [*steady(3), at(28, 149_130, number=100), at(28, 149_140, number=101)]
    history = judge(readings, today=TODAY)
    assert history.flags == ()
    assert history.clean[-1].value == 149_140
    assert history.used == 3


def test_a_confirmed_reading_comes_back() -> None:
    readings = steady()
    readings[19] = at(19 * 14, 190_000)
    assert flagged(readings) == [(19 * 14, "usage.jump")]
    readings[19] = replace(readings[19], confirmed=True)
    history = judge(readings, today=TODAY)
    assert history.flags == ()
    assert history.clean[-1].value == 190_000
    assert history.breaks == (19,)


def test_after_a_confirmed_step_back_a_new_run_begins() -> None:
    readings = [*steady(), at(300, 12, confirmed=True), at(320, 800), at(340, 1600)]
    history = judge(readings, today=TODAY)
    assert history.flags == ()
    assert history.breaks == (20,)
    assert history.used == 23


def test_a_new_vehicle_may_start_at_nothing() -> None:
    assert flagged([at(0, 0), at(30, 900), at(60, 1900)]) == []


def test_every_reason_has_its_sentence_and_names_the_reading() -> None:
    readings = steady()
    for place, km in ((2, 0.0), (5, 14_928), (8, 1_484_480), (11, 93_000), (15, 77), (18, 912_345)):
        readings[place] = at(place * 14, km)
    flags = judge([*readings, at(1000, 3)], today=TODAY).flags
    assert len(flags) == 7
    for flag in flags:
        assert flag.key in keys()
        text = render(flag.reason, Reader())
        assert "{" not in text
        assert "?" not in text


def test_a_rounded_second_reading_of_a_day_is_not_doubtful() -> None:
    first = dt.date(2026, 1, 1)
    readings = [Reading(day=first + dt.timedelta(days=7 * i), steps=(30_000 + 300 * i) * 1000 + 4000, number=i) for i in range(6)]
    rounded = Reading(day=readings[3].day, steps=30_900 * 1000, number=99, text="30900 km")
    history = judge([*readings, rounded], today=first + dt.timedelta(days=60))
    assert history.flags == ()
    assert rounded not in history.clean


def test_a_replaced_counter_is_named_once_for_all_its_readings_and_counts_when_its_first_is_confirmed() -> None:
    old = [at(30 * i, 20_000 + 1000 * i, number=i) for i in range(12)]
    new = [at(360 + 30 * i, 40 + 1000 * i, number=20 + i) for i in range(5)]
    history = judge([*old, *new], today=TODAY)
    assert [flag.key for flag in history.flags] == ["usage.replaced"] * 5
    assert history.used == 12
    confirmed = judge([*old, replace(new[0], confirmed=True), *new[1:]], today=TODAY)
    assert confirmed.flags == ()
    assert (confirmed.used, confirmed.breaks) == (17, (12,))


def test_where_the_new_counter_has_more_readings_those_of_the_old_one_are_named() -> None:
    old = [at(30 * i, 20_000 + 1000 * i, number=i) for i in range(5)]
    new = [at(150 + 30 * i, 40 + 1000 * i, number=20 + i) for i in range(12)]
    assert [flag.key for flag in judge([*old, *new], today=TODAY).flags] == ["usage.replaced"] * 5


@pytest.mark.parametrize(("kind", "step"), [("duration", 3600), ("volume", 1000)])
def test_hours_and_fuel_are_judged_like_distances(kind: str, step: int) -> None:
    def counted(day: int, value: float, number: int) -> Reading:
        return Reading(day=START + dt.timedelta(days=day), steps=round(value * step), number=number, kind=kind, counter="other")

    good = [counted(30 * i, 1000 + 40 * i, i) for i in range(12)]
    bad = {"usage.zero": (135, 0), "usage.digit_dropped": (165, 121), "usage.step_back": (210, 500), "usage.jump": (225, 900_000)}
    for key, (day, value) in bad.items():
        history = judge([*good, counted(day, value, 99)], today=TODAY)
        assert [flag.key for flag in history.flags] == [key]
        assert history.clean == tuple(good)
