"""`level`: the reading is kept as typed, and answered so that nothing is overfilled."""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path

import pytest

from tests.cli.shell import Done, Shell, kept_in


def checks(home: Path) -> list[tuple[object, ...]]:
    with contextlib.closing(sqlite3.connect(home / "twomarks.sqlite3")) as connection:
        return connection.execute("SELECT permille, text, minutes_since_stop, odometer_steps FROM level_check ORDER BY number").fetchall()


def keys(done: Done) -> list[str]:
    return [one["key"] for one in done.answer["what"]]


@pytest.mark.parametrize("typed", ["1/2", "0.5", "50%", "50 %"])
def test_half_way_can_be_typed_in_several_ways(own: Shell, typed: str) -> None:
    done = own.run("level", typed, "--vehicle", "Alder", "--minutes-since-stop", "20", "--json")
    assert (done.code, done.answer["reading"], done.answer["add_l"]) == (0, 0.5, 0.4)
    assert checks(own.home)[-1] == (500, typed, 20, None)


def test_below_the_lower_mark_the_engine_is_not_started(own: Shell) -> None:
    done = own.run("level", "below", "--vehicle", "Alder", "--minutes-since-stop", "20", "--json")
    assert (done.answer["exact"], done.answer["start"], done.answer["then"]) == (False, False, "read again")
    assert 0 < done.answer["add_l"] <= 0.55
    assert checks(own.home)[-1][:2] == (-1, "below")


def test_above_the_upper_mark_nothing_is_added_and_no_amount_made_up(own: Shell) -> None:
    done = own.run("level", "above", "--vehicle", "Alder", "--json")
    assert "add_l" not in done.answer
    assert done.answer["start"] is False


def test_far_above_oil_comes_out_before_the_start(own: Shell) -> None:
    done = own.run("level", "1.6", "--vehicle", "Alder", "--minutes-since-stop", "20", "--json")
    assert done.answer["add_l"] < 0
    assert done.answer["start"] is False


def test_a_reading_too_soon_after_the_stop_adds_nothing(own: Shell) -> None:
    done = own.run("level", "1/4", "--vehicle", "Alder", "--minutes-since-stop", "2", "--json")
    assert "add_l" not in done.answer
    assert "level_answer.too_soon" in keys(done)


def test_where_the_span_is_not_known_the_stick_decides(own: Shell) -> None:
    done = own.run("level", "1/4", "--vehicle", "Bare", "--minutes-since-stop", "20", "--json")
    assert "add_l" not in done.answer
    assert done.answer["table"] == []
    assert "level_answer.add_unknown" in keys(done)


def test_a_level_that_rose_with_nothing_added_is_told_first(writing: Shell) -> None:
    writing.run("level", "1/2", "--vehicle", "Alder", "--day", "2026-11-20")
    done = writing.run("level", "0.9", "--vehicle", "Alder", "--json")
    assert (done.answer["rose"], done.answer["what"][0]["key"]) == (True, "level_answer.rose")
    later = writing.run("level", "0.85", "--vehicle", "Alder", "--json")
    assert later.answer["rose"] is False


def test_the_odometer_is_kept_with_the_check_and_as_a_reading(writing: Shell) -> None:
    done = writing.run("level", "1/2", "--vehicle", "Alder", "--odometer", "140900 km")
    assert done.code == 0
    assert checks(writing.home)[0][3] == 140_900_000
    assert writing.run("due", "--vehicle", "Alder", "--json").answer["vehicles"][0]["odometer"]["last_km"] == 140_900.0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("half",), "half"),
        (("5 mm",), "5 mm"),
        (("7",), "7"),
        (("1/0",), "1/0"),
        (("1/2", "--circuit", "engine_oli"), 'did you mean "engine_oil"?'),
        (("1/2", "--odometer", "1234 km"), "below the last one"),
        (("1/2", "--odometer", "140900 L"), "expected a distance"),
        (("1/2", "--day", "2026-12-01"), "1 December 2026"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_kept(shell: Shell, words: tuple[str, ...], told: str) -> None:
    before = kept_in(shell.home)
    done = shell.run("level", *words, "--vehicle", "Alder")
    assert (done.code, done.out, done.err.count("\n")) == (2, "", 1)
    assert told in done.err
    assert kept_in(shell.home) == before
