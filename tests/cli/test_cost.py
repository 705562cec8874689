"""`cost`: materials as used, own time, the workshop's quote, and what another interval changes; all prices invented."""

from __future__ import annotations

import pytest

from tests.cli.shell import Shell

ALDER = ("--vehicle", "Alder")
WORK = (
    *("enter", *ALDER, "--item", "engine_oil_and_filter", "--odometer", "140700 km"),
    *("--product", "quiet_brook", "--volume", "4 L", "--minutes", "60"),
)


def test_before_any_work_there_is_nothing_to_tell(writing: Shell) -> None:
    told = writing.run("cost").said
    assert "No work has been entered yet." in told
    assert "no work with a known cost" in told


def test_a_workday_costs_what_was_used_and_the_time_at_its_rate(writing: Shell) -> None:
    writing.run(*WORK, "--cost", "38.50")
    (day,) = writing.run("cost", "--json").answer["workdays"]
    assert (day["materials"], day["own_time"], day["total"], day["complete"]) == ("38.50", "0.00", "38.50", True)
    assert writing.run("cost", "--rate", "15", "--json").answer["workdays"][0]["total"] == "53.50"
    writing.run("enter", *ALDER, "--own-time", "20")
    assert writing.run("cost", "--json").answer["workdays"][0]["total"] == "58.50"


def test_without_a_cost_the_prices_of_the_shelf_list_are_used_and_what_has_none_is_named(writing: Shell) -> None:
    writing.run(*WORK)
    answer = writing.run("cost", "--json").answer
    (day,) = answer["workdays"]
    # 4 L of 5 L for 41.90; no shop has a price for the filter or the washer.
    assert (day["materials"], day["complete"]) == ("33.52", False)
    assert "at least 33.52" in writing.run("cost").said
    assert "no price known for the part" in writing.run("cost").said


def test_a_quote_is_set_against_home(writing: Shell) -> None:
    writing.run("enter", *ALDER, "--quote", "engine_oil_and_filter 189 EUR", "--shop", "the one in town")
    assert "not yet done at home" in writing.run("cost", *ALDER).said
    writing.run(*WORK, "--cost", "38.50")
    told = writing.run("cost", *ALDER).said
    assert "189.00 EUR at the one in town, at home 38.50 EUR on 25 November 2026: 150.50 EUR saved" in told.replace("\u00a0", " ")
    assert "said from 25 November 2027 on" in told
    assert "the interval is your handbook's to say" in told


@pytest.mark.parametrize(
    "words",
    [
        ("enter", *ALDER, "--quote", "engine_oil_and_filter"),
        ("enter", *ALDER, "--quote", "engine_oil_and_filter lots"),
        ("enter", *ALDER, "--quote", "no_such_item 12"),
        ("enter", *ALDER, "--own-time", "-3"),
        (*WORK, "--cost", "3 euros"),
        ("cost", "--rate", "cheap"),
        ("cost", "--vehicle", "Nobody"),
    ],
)
def test_what_is_no_amount_or_no_item_is_refused(words: tuple[str, ...], writing: Shell) -> None:
    done = writing.run(*words)
    assert (done.code, done.out) == (2, "")
    assert "Traceback" not in done.err
