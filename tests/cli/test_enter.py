"""`enter` takes work, and beside it or alone what happened, what was measured and noticed, quotes and the use; all or nothing."""

from __future__ import annotations

import pytest

from tests.cli.shell import Shell, kept_in

ALDER = ("--vehicle", "Alder")
WORK = ("enter", *ALDER, "--item", "engine_oil_and_filter", "--odometer", "140700 km")


def due_of(shell: Shell, item: str) -> dict[str, object]:
    vehicle = next(one for one in shell.run("due", *ALDER, "--json").answer["vehicles"] if one["vehicle"] == "Alder")
    found: dict[str, object] = next(one for one in vehicle["items"] if one["item"] == item)
    return found


@pytest.mark.parametrize("text", ["left tread 4.2 mm", "tread left 4.2 mm", "Front tyres, left: 4.2 mm", "front_tyres left 4.2mm"])
def test_a_measured_value_is_understood_as_it_is_said(text: str, writing: Shell) -> None:
    done = writing.run("enter", *ALDER, "--measured", text)
    assert (done.code, done.err) == (0, "")
    assert "left: 4.2 mm on" in done.said
    assert due_of(writing, "front_tyres")["state"] == "not known"


def test_two_measured_values_make_an_item_due(writing: Shell) -> None:
    writing.run("enter", *ALDER, "--measured", "left tread 4.2 mm", "--measured", "right tread 4.4 mm", "--day", "2026-02-01")
    writing.run("enter", *ALDER, "--measured", "left tread 2.2 mm", "--measured", "right tread 2.6 mm")
    due = due_of(writing, "front_tyres")
    assert (due["binds"], due["limits"][0]["place"]) == ("measurement", "left")  # type: ignore[index]
    assert due["left"]["unit"] == "km"  # type: ignore[index]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("tread 4.2 mm", "left tread, right tread"),
        ("left pad 4 mm", "left tread"),
        ("left tread", "left tread, right tread"),
        ("left tread 4.2 V", "length"),
    ],
)
def test_a_value_that_names_nothing_is_refused_with_what_could_be_named(text: str, told: str, writing: Shell) -> None:
    before = kept_in(writing.home)
    done = writing.run("enter", *ALDER, "--measured", text)
    assert done.code == 2
    assert told in " ".join(done.err.split())
    assert kept_in(writing.home) == before


def test_an_event_opens_what_it_calls_for_and_says_what_is_usual_where_nothing_is(writing: Shell) -> None:
    assert "standing for months on 25 November 2026 calls for it" in writing.run("enter", *ALDER, "--event", "stood").said
    told = writing.run("enter", *ALDER, "--event", "waded").said
    assert "No item of the sheet is called for" in told
    assert "Common practice" in told
    refused = writing.run("enter", *ALDER, "--event", "wadded")
    assert (refused.code, "did you mean waded" in refused.err) == (2, True)


def test_a_snag_stands_above_everything_due_until_work_closes_it(writing: Shell) -> None:
    done = writing.run("enter", *ALDER, "--snag", "brake pulls", "--where", "front left", "--how-bad", "do not drive", "--json")
    number = str(done.answer["number"])
    assert done.answer["rows"] == [done.answer["number"]]
    listed = writing.run("due", *ALDER).out
    assert listed.index("Do not drive: brake pulls, front left") < listed.index("Odometer")
    closed = writing.run("enter", *ALDER, "--closes", number, "--note", "hose renewed")
    assert (closed.code, closed.err) == (0, "")
    assert "brake pulls" not in writing.run("due", *ALDER).out
    again = writing.run("enter", *ALDER, "--closes", number)
    assert (again.code, f"no open snag has the number {number}" in again.err) == (2, True)


def test_the_use_is_stated_and_a_wrong_word_is_refused(writing: Shell) -> None:
    assert "Kept: 1 answer." in writing.run("enter", *ALDER, "--use", "short trips mostly").said
    answer = writing.run("due", *ALDER, "--json").answer
    assert answer["vehicles"][0]["stated_use"] == {"short_trips": "mostly"}
    assert "you stated mostly short trips" in writing.run("due", *ALDER).said
    for wrong in ("towing always", "racing mostly", "mostly"):
        refused = writing.run("enter", *ALDER, "--use", wrong)
        assert (refused.code, "towing" in refused.err) == (2, True)


def test_work_needs_the_odometer_and_nothing_else_does(writing: Shell) -> None:
    refused = writing.run("enter", *ALDER, "--item", "engine_oil_and_filter")
    assert (refused.code, "--odometer is missing" in refused.err) == (2, True)
    assert writing.run("enter", *ALDER, "--event", "dust").code == 0
    assert writing.run("enter", *ALDER).code == 2


def test_work_and_what_was_noticed_are_kept_together_or_not_at_all(writing: Shell) -> None:
    before = kept_in(writing.home)
    refused = writing.run(*WORK, "--event", "stood", "--quote", "no_such_item 12")
    assert refused.code == 2
    assert kept_in(writing.home) == before
    done = writing.run(*WORK, "--event", "stood", "--item", "front_tyres", "--measured", "left tread 7.5 mm")
    assert (done.code, done.err) == (0, "")
    assert due_of(writing, "front_tyres")["state"] == "not known"


def test_an_odometer_reading_goes_with_a_measured_value(writing: Shell) -> None:
    writing.run("enter", *ALDER, "--odometer", "140600 km", "--measured", "left tread 5 mm")
    assert writing.run("due", *ALDER, "--json").answer["vehicles"][0]["odometer"]["last_km"] == 140_600


def test_the_chance_by_a_day_is_said(writing: Shell) -> None:
    writing.run(*WORK)
    soon, late = (
        next(item for item in writing.run("due", *ALDER, "--by", day, "--json").answer["vehicles"][0]["items"] if item["item"] == WORK[4])
        for day in ("2026-12-24", "2027-12-24")
    )
    assert (soon["chance_past_by"], late["chance_past_by"]) == (0.0, 1.0)
    assert soon["days_left"] == 365 - 0 if soon["binds"] == "time" else soon["days_left"] > 0
    assert "past a limit by 24 December 2027: 100%" in writing.run("due", *ALDER, "--by", "2027-12-24").said


def test_a_vehicle_without_items_is_told_what_general_practice_calls_for(writing: Shell) -> None:
    told = writing.run("enter", "--vehicle", "Bare", "--event", "overheated").said
    assert "engine oil and filter" in told or "engine oil" in told
    assert "No item of the sheet" not in told
