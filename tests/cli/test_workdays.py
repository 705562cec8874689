"""`workdays`: proposed days with their reasons, what is not planned, and impossible input in words."""

from __future__ import annotations

import datetime as dt

import pytest

from tests.cli.shell import Shell, kept_in

ENTRY = (
    "enter", "--vehicle", "Alder", "--item", "engine_oil_and_filter", "--odometer", "140700 km", "--volume", "4.1 L",
    "--volume-out", "4 L", "--level", "0.9",
)  # fmt: skip


@pytest.fixture(scope="module")
def done_once(own: Shell) -> Shell:
    """A household in which one item was entered, so that it is known when it is due again."""
    assert own.run(*ENTRY).code == 0
    return own


def test_days_are_proposed_with_reasons_and_the_gap_is_said(done_once: Shell) -> None:
    done = done_once.run("workdays", "--months", "24")
    assert done.code == 0
    assert "Alder" in done.out
    assert "no cheaper way exists" in done.out or "dearer than the best possible" in done.out


def test_every_proposed_day_is_free_and_has_a_reason(done_once: Shell) -> None:
    answer = done_once.run("workdays", "--months", "24", "--json").answer
    assert answer["format"] == "twomarks/answer/workdays/1"
    assert answer["workdays"]
    for day in answer["workdays"]:
        assert dt.date.fromisoformat(day["day"]).weekday() == 5
        assert day["jobs"]
        assert day["reasons"]
    assert answer["least_possible_min"] <= answer["effort_min"] <= answer["each_on_its_due_day_min"]


def test_only_the_named_days_are_used(done_once: Shell) -> None:
    answer = done_once.run("workdays", "--free", "2027-01-10", "--free", "2027-06-06", "--json").answer
    assert {day["day"] for day in answer["workdays"]} <= {"2027-01-10", "2027-06-06"}


def test_a_free_day_outside_of_the_plan_is_refused_in_words(shell: Shell) -> None:
    done = shell.run("workdays", "--free", "2020-01-10")
    assert done.code == 2
    assert "outside of the plan" in done.err


def test_asking_keeps_nothing_but_the_answer_and_answers_alike_again(writing: Shell) -> None:
    before = kept_in(writing.home)
    first = writing.run("workdays", "--json")
    assert writing.run("workdays", "--json").out == first.out
    assert kept_in(writing.home) == before


def test_what_nobody_knows_the_day_of_is_listed_and_not_planned(shell: Shell) -> None:
    answer = shell.run("workdays", "--json").answer
    assert answer["workdays"] == []
    assert {"vehicle": "Alder", "name": "engine oil and filter"} in answer["not_planned"]
