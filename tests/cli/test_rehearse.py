"""`rehearse`: findings at their step; the exit code tells harm and damage from less."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.shell import Shell, once
from twomarks.procedures.library import procedure_text


@pytest.fixture
def spoilt(tmp_path: Path) -> str:
    """The library's procedure as another owner's file, from which the step that wears the gloves was lost."""
    text = procedure_text("engine-oil-spin-on").replace('key = "engine-oil-spin-on"', 'key = "my-oil"', 1)
    head, *steps = text.split("[[steps]]")
    kept = [step for step in steps if 'action = "support"' not in step and 'action = "shake"' not in step]
    assert len(kept) < len(steps)
    (tmp_path / "mine.toml").write_text("[[steps]]".join([head, *kept]), "utf-8")
    return str(tmp_path / "mine.toml")


def test_a_correct_procedure_leaves_with_nought_and_never_says_safe(shell: Shell) -> None:
    done = shell.run("rehearse", "engine-oil-spin-on", "--vehicle", "Alder")
    assert (done.code, done.err) == (0, "")
    assert "no model sees" in done.said
    assert "safe" not in done.said.casefold()
    assert "passed" not in done.said.casefold()


def test_supports_left_out_are_harm_and_leave_with_one(shell: Shell, spoilt: str) -> None:
    done = shell.run("rehearse", spoilt, "--vehicle", "Alder", "--json")
    assert (done.code, done.answer["worst"]) == (1, "harm")
    harm = next(one for one in done.answer["findings"] if one["grade"] == "harm")
    assert harm["step"] in done.answer["step_numbers"]
    assert all(harm[part]["text"] for part in ("expected", "found", "remedy"))


def test_the_text_tells_grade_basis_step_and_what_to_do(shell: Shell, spoilt: str) -> None:
    said = shell.run("rehearse", spoilt, "--vehicle", "Alder").said
    assert "Harm, " in said
    for word in ("(step ", "Expected: ", "Found: ", "Do: "):
        assert word in said


def test_files_alone_need_no_household_and_make_none(tmp_path: Path, spoilt: str, alder: str) -> None:
    home = tmp_path / "nowhere"
    assert once(home, "rehearse", spoilt, "--vehicle", alder).code == 1
    assert once(home, "rehearse", "engine-oil-spin-on", "--vehicle", alder).code == 0
    assert not home.exists()


def test_a_procedure_for_another_filter_says_that_it_is_not_meant(shell: Shell) -> None:
    misfits = shell.run("rehearse", "engine-oil-cartridge", "--vehicle", "Alder", "--json").answer["misfits"]
    assert [one["key"] for one in misfits] == ["rehearse_answer.other_filter"]


def test_an_unknown_procedure_is_refused_with_the_nearest(shell: Shell) -> None:
    done = shell.run("rehearse", "engine-oil-spinon", "--vehicle", "Alder")
    assert (done.code, done.out) == (2, "")
    assert 'did you mean "engine-oil-spin-on"?' in done.err


def test_a_sheet_is_no_procedure(shell: Shell, alder: str) -> None:
    done = shell.run("rehearse", alder, "--vehicle", "Alder")
    assert (done.code, "expected twomarks/procedure/1" in done.err) == (2, True)
