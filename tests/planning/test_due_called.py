"""What calls for work out of turn or on a date: events, fixed dates, items never entered."""

from __future__ import annotations

import datetime as dt

import pytest

from tests.planning.due_ground import TODAY, ago, one, told
from twomarks.planning.due import Done, Happening
from twomarks.planning.due.events import EVENTS, event_named, known_events, unanswered
from twomarks.words import Message, Reader, render

WADED = 'event = "waded"\nwithin = "10 days"\n'


def test_an_event_opens_a_window_of_the_stated_days() -> None:
    due = one(WADED, events=[Happening("waded", ago(4))])
    assert (due.state, due.opens, due.closes) == ("in the window", ago(4), TODAY + dt.timedelta(days=6))
    assert due.chance_past == 0.0
    assert due.chance_by(TODAY + dt.timedelta(days=6)) == 0.0
    assert due.chance_by(TODAY + dt.timedelta(days=7)) == 1.0


def test_an_event_that_nobody_answered_is_past_its_limit() -> None:
    assert one(WADED, events=[Happening("waded", ago(11))]).state == "past the limit"


def test_an_event_the_item_is_not_called_for_by_changes_nothing() -> None:
    assert one(WADED, events=[Happening("dust", ago(1))]).bounds == ()


def test_work_on_a_later_day_closes_the_event() -> None:
    assert one(WADED, Done(day=ago(3)), events=[Happening("waded", ago(4))]).bounds == ()


def test_on_one_day_the_order_of_entering_decides() -> None:
    after = one(WADED, Done(day=ago(3), number=8), events=[Happening("waded", ago(3), 9)])
    assert told(after) == ["due.only_after", "due.event_same_day"]
    before = one(WADED, Done(day=ago(3), number=8), events=[Happening("waded", ago(3), 7)])
    assert before.bounds == ()


def test_work_known_only_about_closes_what_lies_wholly_before_it() -> None:
    done = Done(day=ago(10), about=(ago(20), ago(1)))
    assert one(WADED, done, events=[Happening("waded", ago(21))]).bounds == ()
    assert one(WADED, done, events=[Happening("waded", ago(15))]).bounds != ()


def test_an_event_comes_before_a_date_farther_off() -> None:
    due = one('every = { time = "12 months" }\n' + WADED, Done(day=ago(30)), events=[Happening("waded", ago(1))])
    assert [bound.binds for bound in due.bounds] == ["event", "time"]


def test_every_event_has_its_name_and_what_is_usually_looked_at() -> None:
    from tests.planning.due_ground import sheet

    document = sheet('event = ["hailed_on"]\n')
    assert known_events(document) == (*EVENTS, "hailed_on")
    assert event_named("hailed_on") == "hailed on"
    for event in EVENTS:
        advice = unanswered(event, document)
        assert isinstance(advice, Message)
        assert "Common practice" in render(advice, Reader())
    assert unanswered("hailed_on", document) is None
    assert unanswered("waded", sheet(WADED)) is None


FIXED = 'by = "2026-05-31"\nagain = "12 months"\n'


@pytest.mark.parametrize(
    ("done", "open_date"),
    [
        (None, "2026-05-31"),
        ("2025-05-20", "2026-05-31"),
        ("2025-07-10", "2026-05-31"),
        ("2023-06-01", "2026-05-31"),
        ("2025-11-20", "2026-05-31"),
    ],
)
def test_a_fixed_date_is_met_by_work_near_it_and_keeps_its_place(done: str | None, open_date: str) -> None:
    due = one(FIXED, None if done is None else Done(day=dt.date.fromisoformat(done)))
    assert (due.binds, due.likely) == ("date", dt.date.fromisoformat(open_date))
    assert due.closes == due.likely
    assert due.opens == dt.date.fromisoformat(open_date) - dt.timedelta(days=28)


def test_a_date_gone_by_is_past_the_limit_until_it_is_met() -> None:
    gone = FIXED.replace("2026-05-31", "2026-01-31")
    assert one(gone).state == "past the limit"
    late = one(gone, Done(day=dt.date(2026, 2, 25)))
    assert (late.state, late.likely) == ("before the window", dt.date(2027, 1, 31))


def test_work_far_from_any_date_begins_a_series_of_its_own() -> None:
    old = FIXED.replace("2026-05-31", "2024-05-31")
    due = one(old, Done(day=dt.date(2025, 11, 20)))
    assert due.likely == dt.date(2026, 11, 20)


def test_a_single_date_is_met_once() -> None:
    recall = 'by = "2026-06-30"\n'
    assert one(recall).likely == dt.date(2026, 6, 30)
    met = one(recall, Done(day=dt.date(2026, 2, 1)))
    assert (met.state, met.bounds) == ("before the window", ())
    assert told(met) == ["due.date_met"]


def test_never_recorded_stays_not_known_and_says_by_when_at_the_latest() -> None:
    item = 'every = { distance = "9000 km", time = "12 months" }\n'
    plain = one(item)
    assert (plain.state, told(plain)) == ("not known", ["due.never_recorded"])
    since = one(item, kept_since=ago(100))
    assert (since.state, told(since)) == ("not known", ["due.never_recorded_since"])
    (reason,) = since.reasons
    latest = reason.figures["latest"]
    # 9,000 km at 40 km a day are 225 days, and a little more to be sure; the year would be later.
    assert isinstance(latest, dt.date)
    assert ago(100) + dt.timedelta(days=225) < latest < dt.date(2026, 11, 21)
    gone = one(item, kept_since=ago(500))
    assert (gone.state, told(gone)) == ("not known", ["due.never_recorded_past"])
