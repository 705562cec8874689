"""Readings: a typed one is refused when it cannot be right, a file is kept whole and flagged when asked for."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from tests.keeping.samples import TODAY, reading
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import readings
from twomarks.keeping.services.corrections import withdraw_row
from twomarks.words import Reader, message_of, render

MONTHS = [reading(f"2026-{month:02d}-01", 100_000 + 1_000 * month) for month in range(1, 11)]


def test_a_file_is_kept_whole_and_only_once(scope: Scope) -> None:
    assert dataclasses.astuple(readings.record_readings(scope, "Alder", MONTHS)) == (10, 0)
    assert dataclasses.astuple(readings.record_readings(scope, "Alder", [*MONTHS, reading("2026-11-01", 112_000)])) == (1, 10)
    kept = questions.readings(scope, "Alder")
    assert [row.value for row in kept][:2] == [101_000.0, 102_000.0]
    assert kept[0].text == "101000 km"
    assert kept[0].root is not None
    assert kept[0].number == 1


def test_a_doubtful_reading_is_kept_flagged_and_comes_back_when_confirmed(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", [*MONTHS, reading("2026-10-15", 10_980)])
    history = questions.history(scope, "Alder", TODAY)
    (flag,) = history.flags
    assert flag.reading.value == 10_980
    assert flag.reading.root is not None
    readings.confirm_reading(scope, "Alder", flag.reading.root, day=TODAY)
    (confirmed,) = [row for row in questions.readings(scope, "Alder") if row.confirmed]
    assert confirmed.root == flag.reading.root
    assert flag.reading.root not in [other.reading.root for other in questions.history(scope, "Alder", TODAY).flags]


def test_a_typed_reading_below_the_last_good_one_is_refused_unless_told_so(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", MONTHS)
    low = reading("2026-11-20", 109_000)
    with pytest.raises(InputError) as refused:
        readings.record_reading(scope, "Alder", low, today=TODAY)
    assert refused.value.key == "keeping.reading_below"
    text = render(message_of(refused.value), Reader())
    assert "109" in text
    assert "110" in text
    assert "1 October 2026" in text
    assert len(questions.readings(scope, "Alder")) == 10
    readings.record_reading(scope, "Alder", low, force=True, today=TODAY)
    assert len(questions.readings(scope, "Alder")) == 11


def test_a_typed_reading_above_a_later_one_is_refused(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", MONTHS)
    with pytest.raises(InputError) as refused:
        readings.record_reading(scope, "Alder", reading("2026-05-15", 107_000), today=TODAY)
    assert refused.value.key == "keeping.reading_above"


def test_one_wild_reading_does_not_make_the_good_ones_refused(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", [*MONTHS, reading("2026-10-15", 999_999)])
    readings.record_reading(scope, "Alder", reading("2026-11-20", 111_500), today=TODAY)


def test_a_day_that_has_not_come_is_refused(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        readings.record_reading(scope, "Alder", reading("2026-11-26", 111_500), today=TODAY)
    assert refused.value.key == "keeping.day_to_come"
    assert refused.value.values == {"found": dt.date(2026, 11, 26), "expected": TODAY}


def test_a_corrected_reading_may_be_lower_than_what_it_corrects(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", MONTHS)
    last = questions.readings(scope, "Alder")[-1]
    readings.record_reading(scope, "Alder", reading("2026-10-01", 109_500, root=last.root), today=TODAY)
    assert questions.readings(scope, "Alder")[-1].value == 109_500
    assert len(questions.readings(scope, "Alder")) == 10


def test_a_withdrawn_reading_does_not_come_back_with_the_file(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", MONTHS)
    last = questions.readings(scope, "Alder")[-1]
    assert last.root is not None
    withdraw_row(scope, "readings", last.root)
    assert readings.record_readings(scope, "Alder", MONTHS).count == 0
    assert len(questions.readings(scope, "Alder")) == 9


def test_a_reading_with_time_and_about_days_comes_back_as_it_was(scope: Scope) -> None:
    said = reading(
        "2026-03-15",
        103_000,
        day_from=dt.date(2026, 3, 1),
        day_to=dt.date(2026, 3, 31),
        at=dt.datetime(2026, 3, 15, 7, 30, tzinfo=dt.UTC),
        zone="Europe/Budapest",
        note="about",
    )
    readings.record_reading(scope, "Alder", said, today=TODAY)
    (kept,) = questions.readings(scope, "Alder")
    assert dataclasses.replace(kept, root=None, number=0) == said


def test_use_to_come_is_asked_of_the_judged_history(scope: Scope) -> None:
    readings.record_readings(scope, "Alder", MONTHS)
    usage = questions.usage(scope, "Alder", TODAY)
    spread = usage.spread_on(dt.date(2027, 1, 1))
    assert spread is not None
    assert spread.low < 113_000 < spread.high
