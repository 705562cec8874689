"""Tables of dates and readings as people keep them."""

from __future__ import annotations

import datetime as dt

import pytest

from twomarks.errors import InputError
from twomarks.exchange.readings_file import read_readings


def read(text: str, **options: object):
    return read_readings(text.encode(), where="log.csv", default_unit="km", **options)


def test_a_header_names_the_unit():
    found = read("read_at_utc,odometer_m\n2020-06-01T00:36:40Z,198041\n2020-06-02T08:18:45Z,\n")
    assert [(r.day, r.steps) for r in found.readings] == [(dt.date(2020, 6, 1), 198041)]
    assert (found.unit, found.blank, found.rows) == ("m", 1, 2)
    assert found.readings[0].at == dt.datetime(2020, 6, 1, 0, 36, 40, tzinfo=dt.UTC)


def test_a_file_without_header_takes_date_then_reading():
    assert [r.value for r in read("2026-01-31;148 210\n2026-02-28;149 001\n").readings] == [148210, 149001]


def test_thousands_and_decimal_marks_are_judged_over_the_whole_column():
    assert [r.value for r in read("date;km\n2026-01-31;148.210\n2026-02-28;149.001,5\n").readings] == [148210, 149001.5]


def test_a_day_above_twelve_settles_the_order_of_day_and_month():
    assert [r.day for r in read("date,km\n03/02/2026,10\n25/02/2026,20\n").readings] == [dt.date(2026, 2, 3), dt.date(2026, 2, 25)]
    assert [r.day for r in read("date,km\n02/03/2026,10\n02/25/2026,20\n").readings] == [dt.date(2026, 2, 3), dt.date(2026, 2, 25)]


def test_dates_that_can_be_read_two_ways_are_refused():
    with pytest.raises(InputError) as caught:
        read("date,km\n03/02/2026,10\n04/02/2026,20\n")
    assert caught.value.key == "table.day_order"


def test_a_month_is_kept_as_about():
    (reading,) = read("month,odometer_miles\n1977-05,377\n").readings
    assert (reading.day_from, reading.day_to) == (dt.date(1977, 5, 1), dt.date(1977, 5, 31))
    assert reading.steps == 606723  # 377 miles of 1609.344 m


def test_one_vehicle_of_several_is_picked_by_a_column():
    found = read("bus,month,odometer_miles\na,1977-05,1\nb,1977-05,2\n", only=("bus", "b"))
    assert [r.text for r in found.readings] == ["2"]


def test_rows_that_say_neither_are_reported_with_their_line_and_the_rest_is_read():
    found = read("date,km\n2026-01-31,10\nyesterday,20\n2026-02-28,abc\n")
    assert len(found.readings) == 1
    assert [(m.key, m.figures["line"]) for m in found.faults] == [("import.no_date", 3), ("import.no_reading", 4)]


@pytest.mark.parametrize(
    ("text", "key"),
    [("", "table.empty"), ("date,km\n", "import.nothing"), ("a\0b", "table.binary"), ("x,y,z\na,b,c\n", "table.which_column")],
)
def test_files_without_readings_are_refused(text: str, key: str):
    with pytest.raises(InputError) as caught:
        read(text)
    assert caught.value.key == key


def test_an_unknown_column_names_the_nearest():
    with pytest.raises(InputError) as caught:
        read("date,odometer\n2026-01-31,10\n", reading_column="odometr")
    assert caught.value.values["nearest"] == "odometer"
