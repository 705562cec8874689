"""`read-writeup`: a draft with every sentence at its step, and what could not be placed."""

from __future__ import annotations

from pathlib import Path

from tests.cli.shell import once

LINES = (
    "Oil change",
    "",
    "1. Undo the sump plug and let the oil drain.",
    "2. Refit the plug, 25 Nm.",
    "3. Waggle the oil filter.",
    "4. Pour in 5 quarts.",
)
TEXT = "\n".join(LINES)


def written(tmp_path: Path, text: str = TEXT) -> str:
    file = tmp_path / "theirs.txt"
    file.write_text(text, "utf-8")
    return str(file)


def test_the_draft_tells_steps_lines_and_what_was_not_placed(tmp_path: Path) -> None:
    done = once(tmp_path / "home", "read-writeup", written(tmp_path))
    assert (done.code, done.err) == (0, "")
    for words in (
        "Line 3, step-1: loosen drain plug, drain oil",
        '"Waggle the oil filter."',
        "Not placed: 1 sentence",
        "Nobody has checked this draft.",
    ):
        assert words in done.said
    assert not (tmp_path / "home").exists()


def test_the_answer_carries_the_draft_and_its_file(tmp_path: Path) -> None:
    target = tmp_path / "draft.toml"
    done = once(tmp_path / "home", "read-writeup", written(tmp_path), "--to", str(target), "--json")
    answer = done.answer
    assert (answer["format"], answer["title"], answer["file"]) == ("twomarks/answer/read-write-up/1", "Oil change", str(target))
    assert target.read_text("utf-8") == answer["draft"]
    assert [one["sentence"] for one in answer["not_placed"]] == ["Waggle the oil filter."]
    torque, quarts = answer["figures"]
    assert (torque["value"], torque["path"]) == (25.0, "fastenings.engine_oil_drain.torque")
    assert ("value" in quarts, quarts["could_be"]) == (False, ["US qt", "imp qt"])


def test_a_market_settles_its_quarts(tmp_path: Path) -> None:
    answer = once(tmp_path / "home", "read-writeup", written(tmp_path), "--market", "us", "--json").answer
    assert answer["figures"][1]["unit"] == "us qt"


def test_the_draft_is_rehearsed_and_its_open_sentence_told(tmp_path: Path, alder: str) -> None:
    target = tmp_path / "draft.toml"
    once(tmp_path / "home", "read-writeup", written(tmp_path), "--to", str(target))
    done = once(tmp_path / "home", "rehearse", str(target), "--vehicle", alder, "--json")
    assert done.code == 1
    assert ("undecided", "step-3") in {(one["rule"], one["step"]) for one in done.answer["findings"]}


def test_a_control_character_is_refused_with_its_line(tmp_path: Path) -> None:
    done = once(tmp_path / "home", "read-writeup", written(tmp_path, "Drain the oil.\nThen \x07 wait.\n"))
    assert (done.code, done.out) == (2, "")
    assert "line 2" in done.err


def test_a_missing_file_and_one_with_nothing_to_do_are_refused(tmp_path: Path) -> None:
    assert once(tmp_path / "home", "read-writeup", str(tmp_path / "none.txt")).code == 2
    assert once(tmp_path / "home", "read-writeup", written(tmp_path, "The sky was blue.\n")).code == 2
