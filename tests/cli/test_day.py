"""`day`: the order of a day, its two lanes, what it saves, and impossible input in words."""

from __future__ import annotations

from itertools import pairwise

from tests.cli.shell import Shell

OIL = ("day", "--vehicle", "Alder", "--item", "engine_oil_and_filter")


def test_every_step_stands_at_its_hour_and_the_order_is_judged(shell: Shell) -> None:
    done = shell.run(*OIL, "--start", "10:30")
    assert done.code == 0
    assert "10:30 Alder:" in done.out
    assert "no order is shorter" in done.out
    assert "it takes care of itself" in done.out


def test_the_bars_lie_in_two_lanes_and_end_with_the_day(shell: Shell) -> None:
    answer = shell.run(*OIL, "--json").answer
    assert {bar["lane"] for bar in answer["bars"]} == {"hands", "waiting"}
    assert max(bar["end_min"] for bar in answer["bars"]) == answer["length_min"]
    assert answer["least_possible_min"] <= answer["shortest_min"] <= answer["length_min"]
    assert answer["findings"] == []


def test_one_pair_of_hands_does_one_thing_at_a_time(shell: Shell) -> None:
    bars = [bar for bar in shell.run(*OIL, "--json").answer["bars"] if bar["lane"] == "hands"]
    assert all(one["end_min"] <= next_one["begin_min"] for one, next_one in pairwise(bars))


def test_an_hour_that_is_none_is_refused_in_words(shell: Shell) -> None:
    done = shell.run(*OIL, "--start", "25:00")
    assert done.code == 2
    assert "no time of day" in done.err


def test_an_item_that_no_vehicle_has_is_refused_in_words(shell: Shell) -> None:
    done = shell.run("day", "--item", "wings")
    assert done.code == 2
    assert "wings" in done.err
