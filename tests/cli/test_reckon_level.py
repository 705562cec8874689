"""`twomarks reckon` for the stick: the first pour, the add table, a reading as litres, and the oil used."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError

BOOK = ("new-filter=yes", "refill-with-filter=4.3 L", "between-marks=1.1 L", "source=handbook")
STICK = ("full=4.7 L", "between-marks=1.1 L")


def test_a_figure_from_the_book_is_one_pour_between_its_bounds():
    found = answered("first-pour", *BOOK).results
    assert found["kind"] == "one pour"
    assert found["least_l"] <= found["first_l"] <= found["most_l"] < 4.3
    assert max(found["chance_over_percent"], found["chance_short_percent"]) <= 1.0


def test_a_figure_from_memory_is_two_pours_with_a_reading_before_the_start():
    found = answered("first-pour", *BOOK[:3], "source=memory", "filter=0.3 L")
    assert (found.results["kind"], found.results["needs_reading_before_start"]) == ("two pours", True)
    text = told(found)
    assert "the stick stands high: it falls by about 0.3 L" in text
    assert "Before the first start, the new filter still empty" in text


def test_without_a_capacity_no_figure_is_made_up():
    measured = answered("first-pour", "new-filter=yes", "measured-out=4.1 L", "between-marks=1.1 L").results
    nothing = answered("first-pour", "new-filter=yes")
    assert (measured["first_l"], measured["least_l"], measured["most_l"]) == (pytest.approx(3.55), None, None)
    assert nothing.results["first_l"] is None
    assert "Pour 1 L at a time" in told(nothing)


@pytest.mark.parametrize(
    "words",
    [
        ("new-filter=no", "refill-with-filter=4.3 L"),
        ("new-filter=yes", "refill-without-filter=4.0 L"),
        ("new-filter=yes", "dry-fill=4.9 L"),
        ("new-filter=yes", "refill-with-filter=4.3 L", "refill-without-filter=4.5 L"),
    ],
)
def test_mixed_up_fills_are_refused(words: tuple[str, ...]):
    with pytest.raises(InputError, match=r"level\.fill_"):
        answered("first-pour", *words)


def test_a_dry_engine_takes_its_dry_fill():
    found = answered("first-pour", "new-filter=yes", "dry-engine=yes", "dry-fill=4.9 L", *BOOK[1:])
    assert 4.0 < found.results["most_l"] < 4.9


def test_the_whole_table_never_adds_more_than_half_and_says_what_it_holds_for():
    found = answered("add-table", "between-marks=1.1 L", "settle=8 min", "read=warm", "no-start-from=125 %")
    rows = found.results["rows"]
    assert max(row["add_l"] for row in rows) <= 0.55
    assert next(row["reading_percent"] for row in rows if not row["start"]) == 125.0
    text = told(found)
    assert "after the run, 8 min after the stop, with the oil warm, on level ground" in text
    assert "the maker's limit" in text
    assert found.results["no_start_is_default"] is False


def test_a_default_span_is_marked_in_its_line():
    found = answered("add-table", "reading=50%")
    assert found.results["between_marks_is_default"] is True
    assert "1 L between the marks, which is a default" in told(found)
    assert [row["add_l"] for row in found.results["rows"]] == [pytest.approx(0.2)]


def test_a_reading_between_two_rows_says_which_row_answers():
    assert "20% is taken as 25%, the next row up" in told(answered("add-table", "between-marks=1.1 L", "reading=1/5"))
    assert "300% is taken as 175%, where the table ends" in told(answered("add-table", "between-marks=1.1 L", "reading=3"))
    assert "taken as" not in told(answered("add-table", "between-marks=1.1 L", "reading=1/4"))


@pytest.mark.parametrize("capacity", [("measured-out=4.1 L",), ("refill-without-filter=4.3 L",)])
def test_where_the_filter_stays_no_line_speaks_of_an_empty_one(capacity: tuple[str, ...]):
    text = told(answered("first-pour", "new-filter=no", "between-marks=1.1 L", *capacity))
    assert "still empty" not in text
    assert "Before the first start, with 1.1 L" in text


def test_without_a_capacity_the_new_filter_counts_in_the_table():
    with_filter = answered("first-pour", "new-filter=yes", "measured-out=4.1 L", "between-marks=1.1 L", "filter=0.3 L")
    assert "it falls by about 0.3 L at the first run" in told(with_filter)
    without = answered("first-pour", "new-filter=yes", "measured-out=4.1 L", "between-marks=1.1 L")
    assert with_filter.results["before_start"][3]["add_l"] > without.results["before_start"][3]["add_l"]


def test_below_the_lower_mark_the_engine_is_not_started():
    assert "do not start the engine before oil has been added" in told(answered("add-table", "between-marks=1.1 L", "reading=-1/4"))


def test_before_the_start_the_table_allows_for_the_filter():
    found = answered("add-table", "between-marks=1.1 L", "when=before", "filter=0.33 L")
    by_reading = {row["reading_percent"]: row for row in found.results["rows"]}
    assert not by_reading[25.0]["start"]
    assert by_reading[37.5]["start"]
    assert by_reading[112.5]["add_l"] == 0.0
    with pytest.raises(InputError, match=r"before_needs_span"):
        answered("add-table", "when=before")


def test_a_reading_becomes_litres_and_the_litres_the_reading():
    how = ("temp=70 C", "since-stop=3 min", "slope=1 deg", "marks-apart=25 mm", "off-middle=150 mm")
    found = answered("level", *STICK, "reading=3/4", *how).results
    back = answered("level", *STICK, f"volume={found['volume_l']:.9f} L", *how).results
    assert back["reading_percent"] == pytest.approx(75.0, abs=1e-5)
    assert found["sigma_l"] ** 2 == pytest.approx(sum(part["sigma_l"] ** 2 for part in found["parts"]))


def test_the_parts_of_the_uncertainty_are_told():
    text = told(answered("level", *STICK, "reading=3/4", "temp=70 C", "since-stop=3 min"))
    assert "reading the stick: ± 110 mL" in text
    assert "not yet run down" in text
    assert "0 mL" not in told(answered("level", *STICK, "reading=3/4")).replace("110 mL", "")


def test_oil_used_is_told_with_its_uncertainty_and_a_rise_first():
    steady = answered("oil-use", *STICK, "check=148000 km: 3/4", "check=150000 km: 50%", "top-up=150100 km: 0.5 L", "check=153000 km: 0.6")
    assert steady.results["use_l_per_1000km"] == pytest.approx((0.665) / 5.0, abs=0.02)
    assert steady.results["rose"] is False
    rising = answered("oil-use", *STICK, "check=148000 km: 1/4", "check=149000 km: 1")
    assert rising.lines[0].key == "level.rise"
    assert rising.results["rose"] is True


def test_miles_and_quarts_are_read_in_pairs_too():
    metric = answered("oil-use", *STICK, "check=0 km: 1", "check=1609.344 km: 1", "top-up=100 km: 0.9463529 L")
    other = answered("oil-use", *STICK, "check=0 mi: 1", "check=1000 mi: 1", "top-up=62.137 mi: 1 qt", market="us")
    assert other.results["use_l_per_1000km"] == pytest.approx(metric.results["use_l_per_1000km"], abs=1e-3)
    assert other.results["use_l_per_1000km"] == pytest.approx(0.588, abs=0.001)  # a US quart each 1000 miles


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("first-pour", (*BOOK[:2], "between-marks=5 L")),
        ("first-pour", (*BOOK, "chance-over=60 %")),
        ("add-table", ("between-marks=0 L",)),
        ("add-table", ("reading=full",)),
        ("add-table", ("lower-zone=120 %",)),
        ("level", STICK),
        ("level", (*STICK, "reading=1/2", "volume=4 L")),
        ("level", (*STICK, "reading=1/2", "slope=2 deg")),
        ("oil-use", (*STICK, "check=148000 km")),
        ("oil-use", (*STICK, "check=148000: 1/2")),
        ("oil-use", (*STICK, "check=148000 km: 1/2", "top-up=148100 km: 0.5")),
    ],
)
def test_what_cannot_be_is_refused(name: str, words: tuple[str, ...]):
    with pytest.raises(InputError):
        answered(name, *words)


@pytest.mark.parametrize("name", ["first-pour", "add-table", "level", "oil-use"])
def test_the_machine_gets_the_same_figures(name: str):
    words = {
        "first-pour": BOOK,
        "add-table": BOOK[2:3],
        "level": (*STICK, "reading=1/2"),
        "oil-use": (*STICK, "check=148000 km: 3/4", "check=150000 km: 1/2"),
    }[name]
    assert answered_json(name, *words)["results"] == answered(name, *words).results
