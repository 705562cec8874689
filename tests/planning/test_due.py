"""Due items on made-up vehicles: whichever limit comes first, calendar months, what is not known and what settles it."""

from __future__ import annotations

import datetime as dt

import pytest

from tests.planning.due_ground import TODAY, one, sheet, steady
from twomarks.planning.calendar import after_months
from twomarks.planning.due import Done, Happening, due_items
from twomarks.planning.usage import forecast, judge

BOTH = 'every = { distance = "12000 km", time = "12 months" }\n'


def test_what_was_done_under_an_earlier_key_still_counts() -> None:
    renamed = sheet(BOTH.replace("every", 'was = ["engine_oil"]\nevery'))
    old, new = (Done(day=TODAY - dt.timedelta(days=days), odometer_km=50_000) for days in (60, 30))
    (due,) = due_items(renamed, done={"engine_oil": old}, forecast=steady(), today=TODAY)
    assert due.last == old
    (due,) = due_items(renamed, done={"engine_oil": old, "oil": new}, forecast=steady(), today=TODAY)
    assert due.last == new


def test_distance_binds_when_the_vehicle_is_driven_much() -> None:
    due = one(BOTH, Done(day=TODAY - dt.timedelta(days=60), odometer_km=57_600), use=steady(daily=90))
    assert due.binds == "distance"
    assert due.state == "before the window"
    assert due.opens is not None
    assert due.likely is not None
    assert due.closes is not None
    assert TODAY < due.opens < due.likely < due.closes
    assert (due.likely - TODAY).days == pytest.approx((57_600 + 12_000 - 60_000) / 90, abs=15)
    assert due.due_at is not None
    assert due.due_at.value == 69_600


def test_time_binds_when_it_stands() -> None:
    due = one(BOTH, Done(day=dt.date(2025, 6, 30), odometer_km=59_000), use=steady(daily=5))
    assert (due.binds, due.likely) == ("time", dt.date(2026, 6, 30))
    assert due.limit is not None
    assert str(due.limit.source) == "handbook: p. 9"


def test_the_window_of_a_date_opens_four_weeks_before_and_closes_on_it() -> None:
    item = 'every = { time = "12 months" }\n'
    before = one(item, Done(day=TODAY - dt.timedelta(days=330)))
    assert before.state == "before the window"
    inside = one(item, Done(day=TODAY - dt.timedelta(days=340)))
    assert (inside.state, inside.closes) == ("in the window", after_months(TODAY - dt.timedelta(days=340), 12))
    on_the_day = one(item, Done(day=dt.date(2025, 3, 1)))
    assert on_the_day.state == "in the window"
    past = one(item, Done(day=dt.date(2025, 2, 28)))
    assert (past.state, past.chance_past) == ("past the limit", 1.0)


def test_a_reading_at_the_limit_is_past_it_whatever_the_forecast_says() -> None:
    due = one(BOTH, Done(day=TODAY - dt.timedelta(days=200), odometer_km=48_000))
    assert due.state == "past the limit"
    assert due.chance_past == 1.0


def test_inside_the_window_of_a_distance() -> None:
    due = one(BOTH, Done(day=TODAY - dt.timedelta(days=250), odometer_km=48_800), use=steady(last=TODAY - dt.timedelta(days=20)))
    assert due.state == "in the window"
    assert due.chance_past is not None
    assert 0.05 < due.chance_past < 0.95


def test_an_item_never_recorded_is_not_known_and_says_what_settles_it() -> None:
    due = one(BOTH, None)
    assert (due.state, due.likely) == ("not known", None)
    assert [message.key for message in due.settles] == ["due.settle_last"]


def test_an_item_without_limits_is_not_known() -> None:
    due = one("", Done(day=TODAY))
    assert due.state == "not known"
    assert [message.key for message in due.settles] == ["due.settle_interval"]


def test_a_day_known_only_about_widens_the_window() -> None:
    day = dt.date(2025, 9, 15)
    about = (dt.date(2025, 1, 1), dt.date(2025, 12, 31))
    sharp, vague = one(BOTH, Done(day=day)), one(BOTH, Done(day=day, about=about))
    assert vague.opens is not None
    assert sharp.opens is not None
    assert vague.closes is not None
    assert sharp.closes is not None
    assert vague.opens < sharp.opens
    assert sharp.closes < vague.closes


def test_an_odometer_not_noted_is_read_between_the_readings() -> None:
    noted = one(BOTH, Done(day=TODAY - dt.timedelta(days=90), odometer_km=60_000 - 90 * 40))
    read = one(BOTH, Done(day=TODAY - dt.timedelta(days=90)))
    assert (noted.likely, noted.due_at) == (read.likely, read.due_at)


def test_a_bare_vehicle_with_no_reading_still_gets_a_wide_window() -> None:
    due = one(BOTH, Done(day=TODAY - dt.timedelta(days=10)), use=forecast(judge([], today=TODAY), today=TODAY))
    assert due.state == "before the window"
    assert due.opens is not None
    assert due.closes is not None
    assert (due.closes - due.opens).days > 100


def test_hard_use_takes_the_shorter_limits_and_says_so() -> None:
    item = BOTH + 'hard_use = { time = "6 months" }\n'
    done = Done(day=dt.date(2026, 1, 15), odometer_km=59_500)
    assert one(item, done, use=steady(daily=5)).likely == dt.date(2027, 1, 15)
    hard = one(item + 'use = "hard"\n', done, use=steady(daily=5))
    assert hard.likely == dt.date(2026, 7, 15)
    assert "due.hard_use" in {message.key for message in hard.reasons}


def test_an_event_calls_for_its_item() -> None:
    item = 'event = "waded"\n'
    assert one(item, None).state == "before the window"
    due = one(item, Done(day=dt.date(2025, 1, 1)), events=(Happening("waded", dt.date(2026, 2, 24)),))
    assert (due.state, due.binds, due.opens, due.closes) == ("in the window", "event", dt.date(2026, 2, 24), dt.date(2026, 3, 3))
    later = one(item, Done(day=dt.date(2026, 2, 25)), events=(Happening("waded", dt.date(2026, 2, 20)),))
    assert later.state == "before the window"


def test_a_counter_that_nobody_reads_is_asked_for() -> None:
    due = one('every = { hours = "250 h" }\n', Done(day=TODAY))
    assert due.state == "not known"
    assert [message.key for message in due.settles] == ["due.settle_counter"]


def test_what_is_past_comes_first_and_what_is_not_known_last() -> None:
    text = BOTH + "".join(f'[items.{key}]\nname = "{key}"\nevery = {{ time = "12 months" }}\n' for key in ("a", "b", "c"))
    done = {
        "b": Done(day=dt.date(2020, 1, 1)),
        "c": Done(day=dt.date(2026, 1, 1)),
        "oil": Done(day=dt.date(2025, 3, 20), odometer_km=59_000),
    }
    found = due_items(sheet(text), done=done, forecast=steady(), today=TODAY)
    assert [due.item for due in found] == ["b", "oil", "c", "a"]


@pytest.mark.parametrize(
    ("day", "months", "later"),
    [("2025-08-31", 6, "2026-02-28"), ("2023-08-31", 6, "2024-02-29"), ("2024-02-29", 12, "2025-02-28"), ("2025-12-31", 2, "2026-02-28")],
)
def test_a_month_too_short_takes_its_last_day(day: str, months: int, later: str) -> None:
    assert after_months(dt.date.fromisoformat(day), months) == dt.date.fromisoformat(later)
