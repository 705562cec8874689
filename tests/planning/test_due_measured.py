"""What is measured: values become a rate and a day with its spread, place by place, and a new part begins anew."""

from __future__ import annotations

import random

import pytest

from tests.planning.due_ground import TODAY, ago, measured, one, steady, told
from twomarks.planning.due import Done
from twomarks.planning.due.wear import wear_of

TREAD = '[items.oil.measured]\nwhat = "tread"\nplaces = ["left", "right"]\nleast = "2 mm"\n'
ALONE = '[items.oil.measured]\nleast = "2 mm"\n'
FLUID = '[items.oil.measured]\nwhat = "water in it"\nmost = "3 %"\n'


def test_two_values_give_a_rate_and_a_day_with_its_spread() -> None:
    # 1 mm in 4000 km, at 40 km a day: 3 mm more are 12,000 km or 300 days.
    due = one(ALONE, measurements=[measured(6.0, 100), measured(5.0, 0)])
    assert (due.state, due.binds) == ("before the window", "measurement")
    assert due.likely is not None
    assert due.opens is not None
    assert due.closes is not None
    assert due.opens < due.likely < due.closes
    assert (due.likely - TODAY).days == pytest.approx(300, rel=0.15)
    assert due.left is not None
    assert due.left.unit == "km"
    assert due.left.value == pytest.approx(12_000, rel=0.1)


def test_more_values_make_the_window_narrower() -> None:
    few = one(ALONE, measurements=[measured(6.0, 100), measured(5.0, 0)])
    many = one(ALONE, measurements=[measured(7.0 - 0.25 * n, 200 - 25 * n, number=n) for n in range(9)])
    assert few.opens
    assert few.closes
    assert many.opens
    assert many.closes
    assert (many.closes - many.opens) < (few.closes - few.opens)


def test_what_wears_by_distance_stands_still_while_the_vehicle_does() -> None:
    values = [measured(6.0, 100, km=56_000), measured(5.0, 0, km=60_000)]
    driven, standing = one(ALONE, measurements=values), one(ALONE, measurements=values, use=steady(daily=4))
    assert driven.likely
    assert standing.likely is None or standing.likely > driven.likely


def test_one_value_is_not_known_and_asks_for_another() -> None:
    due = one(ALONE, measurements=[measured(5.0, 10)])
    assert (due.state, due.likely) == ("not known", None)
    assert "due.one_value" in told(due)
    assert [message.key for message in due.settles] == ["due.settle_measure"]


def test_one_value_is_enough_where_the_new_value_and_its_day_are_known() -> None:
    new = ALONE + 'new = "10 mm"\n'
    due = one(new, Done(day=ago(200), odometer_km=52_000), measurements=[measured(6.0, 0)])
    assert due.likely is not None
    # 4 mm in 200 days and 4 mm left.
    assert (due.likely - TODAY).days == pytest.approx(200, rel=0.2)


def test_values_before_the_work_no_longer_count() -> None:
    done = Done(day=ago(50), number=5)
    old = [measured(3.0, 200), measured(2.1, 60)]
    due = one(ALONE, done, measurements=old)
    assert due.state == "not known"
    same_day = [measured(2.0, 50, number=4), measured(9.8, 50, number=6), measured(9.3, 0, number=7)]
    after = one(ALONE, done, measurements=[*old, *same_day])
    assert after.state == "before the window"


def test_the_worst_place_drives_it_and_is_named() -> None:
    values = [
        measured(6.0, 100, place="left"),
        measured(5.5, 0, place="left"),
        measured(6.0, 100, place="right"),
        measured(4.0, 0, place="right"),
    ]
    due = one(TREAD, measurements=values)
    assert [bound.place for bound in due.bounds] == ["right", "left"]
    assert due.likely == due.bounds[0].days.likely


def test_a_place_that_nobody_measured_is_named() -> None:
    due = one(TREAD, measurements=[measured(6.0, 100, place="left"), measured(5.5, 0, place="left")])
    assert due.state == "before the window"
    (asked,) = [message for message in due.reasons if message.key == "due.settle_measure"]
    assert asked.figures["places"] == ("right",)


@pytest.mark.parametrize("value", [2.0, 1.4])
def test_a_value_at_or_beyond_the_limit_is_past_it(value: float) -> None:
    due = one(ALONE, measurements=[measured(5.0, 300), measured(value, 20)])
    assert (due.state, due.chance_past, due.likely) == ("past the limit", 1.0, ago(20))


def test_a_value_that_only_a_new_part_can_have_begins_anew_and_says_so() -> None:
    due = one(ALONE, measurements=[measured(3.0, 300), measured(2.2, 200), measured(9.0, 100), measured(8.0, 0)])
    assert due.state == "before the window"
    assert "due.renewed" in told(due)


def test_no_wear_to_be_seen_is_not_known() -> None:
    due = one(ALONE, measurements=[measured(5.0, 100), measured(5.1, 0)])
    assert due.state == "not known"
    assert "due.no_wear_seen" in told(due)


def test_what_rises_goes_by_time_unless_the_sheet_says_otherwise() -> None:
    values = [measured(1.0, 400, kind="share"), measured(2.0, 0, kind="share")]
    due = one(FLUID, measurements=values)
    assert due.likely is not None
    assert (due.likely - TODAY).days == pytest.approx(400, rel=0.05)
    assert due.left is not None
    assert due.left.unit == "day"
    by_distance = one(FLUID + 'goes_by = "distance"\n', measurements=values)
    assert by_distance.left is not None
    assert by_distance.left.unit == "km"


def test_without_any_odometer_wear_goes_by_time() -> None:
    from twomarks.planning.usage import forecast, judge

    due = one(ALONE, measurements=[measured(6.0, 300), measured(5.0, 0)], use=forecast(judge([], today=TODAY), today=TODAY))
    assert due.left is not None
    assert due.left.unit == "day"


def test_a_value_of_another_kind_is_left_out() -> None:
    assert one(ALONE, measurements=[measured(12.4, 300, kind="voltage"), measured(12.2, 0, kind="voltage")]).state == "not known"


def test_an_interval_beside_the_measuring_still_counts() -> None:
    item = 'every = { time = "12 months" }\n' + ALONE
    due = one(item, Done(day=ago(350)), measurements=[measured(9.0, 340), measured(8.5, 0)])
    assert due.binds == "time"
    assert [bound.binds for bound in due.bounds] == ["time", "measurement"]


def test_the_window_of_a_run_holds_what_comes_about_eight_times_in_ten() -> None:
    # Invented wear: a true rate, a gauge that is off by 0.2 mm, and a later rate that differs by a fifth.
    draw = random.Random(20261125)
    inside = known = 0
    for _ in range(600):
        rate = draw.uniform(0.5, 2.0) / 10_000
        count = draw.randint(2, 6)
        runs = sorted(draw.uniform(0, 30_000) for _ in range(count))
        left = draw.uniform(0.5, 3.0)
        points = [(run, left + rate * (runs[-1] - run) + draw.gauss(0, 0.2)) for run in runs]
        wear = wear_of(points, error=0.2)
        if wear is None or points[-1][1] <= 0:
            continue
        known += 1
        comes = left / (rate * max(0.3, draw.gauss(1, 0.2)))
        low, high = wear.run_to(0.1), wear.run_to(0.9)
        inside += (low or 0.0) <= comes and (high is None or comes <= high)
    assert known > 500
    assert 0.72 < inside / known < 0.9
