"""Every calculation that `reckon` knows is said, asks in words, and answers its own example."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.shell import Done, Shell, once
from twomarks.cli.reckonings.names import NAMES, asks_key, calculation, line_key
from twomarks.words import sentence

STABLE = (
    "viscosity-index", "viscosity-at", "grade", "grade-limits", "category", "blend", "volume-at", "drain", "first-pour", "add-table",
    "adapter", "wrench", "thread", "coolant", "brake-fluid", "tyre", "battery", "climate", "oil",
)  # fmt: skip


@pytest.mark.parametrize("name", STABLE)
def test_the_names_that_others_use_stand(name: str) -> None:
    assert name in NAMES


@pytest.mark.parametrize("name", sorted(NAMES))
def test_a_calculation_says_what_it_answers_and_what_each_key_means(name: str) -> None:
    asked = calculation(name)
    assert sentence(line_key(name))
    for one in asked.asked:
        assert sentence(asks_key(name, one.key))
    assert len(asked.by_key) == len(asked.asked)


@pytest.mark.parametrize("name", sorted(NAMES))
def test_the_example_shown_for_a_calculation_works(name: str, shell: Shell) -> None:
    asked = calculation(name)
    if any(one.kind == "file" for one in asked.asked if one.needed):
        pytest.skip("asks for a file of the reader's own")
    done = shell.run("reckon", name, *asked.example_words, "--json")
    assert done.err == ""
    assert done.code in (0, 1)
    assert done.answer["format"] == "twomarks/answer/reckon/1"
    assert done.answer["sources"], "every answer says where its figures come from"
    assert done.answer["lines"]


def test_the_overview_and_the_questions_of_one_calculation_are_said(shell: Shell) -> None:
    overview = shell.run("reckon")
    assert [line.split()[0] for line in overview.out.splitlines() if line.startswith("  ") and line[2] != " "] == list(NAMES)
    first = next(iter(NAMES))
    assert "It asks for" in shell.run("reckon", first).out
    assert shell.run("reckon", first, "--json").answer["format"] == "twomarks/answer/reckon-asks/1"
    assert [one["name"] for one in shell.run("reckon", "--json").answer["calculations"]] == list(NAMES)


def test_an_unknown_calculation_is_refused_with_the_nearest(shell: Shell) -> None:
    done = shell.run("reckon", "viscosity-indx", "kv40=1 mm2/s")
    assert done.code == 2
    assert "viscosity-index" in done.err
    assert done.out == ""


def test_no_home_is_needed_and_none_is_made(tmp_path: Path) -> None:
    home = tmp_path / "home"
    done: Done = once(home, "reckon", "viscosity-index", "kv40=73.3 mm2/s", "kv100=8.86 mm2/s")
    assert (done.code, done.err) == (0, "")
    assert not home.exists()


def test_a_converted_value_is_echoed_in_both_units(shell: Shell) -> None:
    done = shell.run("reckon", "volume-at", "volume=7 US qt", "from=-12 F", "to=90 C", "density=860 kg/m3")
    assert "volume: 7\u00a0US qt = 6.62\u00a0L" in done.out
    assert "from: \u221212\u00a0°F = \u221224.4\u00a0°C" in done.out


def test_without_a_home_the_answer_is_in_the_units_that_were_typed(tmp_path: Path) -> None:
    # Source of the figures: a list of 2002, 20 psi at 70 F reads 18.7 psi at 50 F (status a2).
    done = once(tmp_path / "home", "reckon", "tyre", "pressure=20 psi", "at=70 F", "to=50 F")
    assert "18.7\u00a0psi" in done.out
    metric = once(tmp_path / "home", "reckon", "tyre", "pressure=20 psi", "at=70 F", "to=50 F", "--market", "metric")
    assert "1.29\u00a0bar" in metric.out
