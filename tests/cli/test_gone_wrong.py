"""`procedures when-it-goes-wrong`: the branches as text, whom to call first, one branch by its key."""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path

from tests.cli.shell import Shell, once
from tests.paper.reading import text_of
from twomarks.planning.when_wrong import all_branches


def test_it_needs_no_household(tmp_path: Path) -> None:
    done = once(tmp_path / "nowhere", "procedures", "when-it-goes-wrong")
    assert (done.code, done.err) == (0, "")
    assert done.out.index("Call 112 or your local emergency number first.") < done.out.index("Crushed or trapped")
    assert done.out.index("Crushed or trapped") < done.out.index("The plug will not move")
    assert all(one.title in done.out and one.key in done.out for one in all_branches())
    assert "{" not in done.out
    assert not (tmp_path / "nowhere").exists()


def test_the_list_of_procedures_leads_to_it(shell: Shell) -> None:
    assert "somebody is hurt: twomarks procedures when-it-goes-wrong" in shell.run("procedures").said


def test_one_branch_is_shown_by_its_key(shell: Shell) -> None:
    said = shell.run("procedures", "thread-stripped").said
    assert "Stop: Stop turning. Pour nothing." in said
    assert "Here the job ends: The thread in the sump or the housing is damaged." in said
    assert "Common practice, no source." in said
    assert "Call 112" not in said
    assert "The plug will not move" not in said


def test_first_aid_names_where_it_comes_from(shell: Shell) -> None:
    said = shell.run("procedures", "hurt-burned").said
    assert "for at least 20 min" in said
    assert "guideline 9.1.3" in said
    assert "first." in said.split("Burnt or scalded")[0]


def test_the_json_answer_holds_every_branch(shell: Shell) -> None:
    answer = shell.run("procedures", "when-it-goes-wrong", "--json").answer
    assert answer["format"] == "twomarks/answer/gone-wrong/1"
    assert [one["key"] for one in answer["branches"]] == [one.key for one in all_branches()]
    first = answer["branches"][0]
    assert first["hurt"] is True
    assert {step["part"] for step in first["steps"]} == {"stop", "look", "next"}
    assert len(answer["call_first"]) == 2


def test_the_address_that_was_entered_is_said_and_printed(writing: Shell, tmp_path: Path) -> None:
    with contextlib.closing(sqlite3.connect(writing.home / "twomarks.sqlite3")) as connection, connection:
        connection.execute("INSERT INTO help_call (number, address, household_id) SELECT '999', '3 Example Lane', id FROM household")
    said = writing.run("procedures", "hurt-jet").said
    assert "Call 999 first." in said
    assert "We are at: 3 Example Lane" in said
    for command in (("card",), ("prepare",)):
        assert writing.run(*command, "--vehicle", "Alder", "--pdf", str(tmp_path / "card.pdf")).code == 0
        assert "We are at: 3 Example Lane" in text_of((tmp_path / "card.pdf").read_bytes())
