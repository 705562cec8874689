"""`text` and `tools`: a procedure with one vehicle's figures as text, and what it needs."""

from __future__ import annotations

from pathlib import Path

from tests.cli.shell import Shell, once


def test_the_text_is_written_in_the_units_that_were_asked_for(shell: Shell) -> None:
    done = shell.run("text", "engine-oil-spin-on", "--vehicle", "Alder", "--units", "us")
    assert (done.code, done.err) == (0, "")
    assert "lbf\u00b7ft" in done.out
    assert "Check on YOUR vehicle first" in done.out


def test_markdown_and_json_hold_the_same_text(shell: Shell) -> None:
    words = ("text", "engine-oil-spin-on", "--vehicle", "Alder", "--markdown")
    answer = shell.run(*words, "--json").answer
    assert answer["format"] == "twomarks/answer/text/1"
    assert answer["text"] == shell.run(*words).out
    assert answer["text"].startswith("# Engine oil and spin-on filter")
    assert {one["fact"] for one in answer["figures"]} >= {"torque", "refill with a new filter"}


def test_files_alone_make_no_home(tmp_path: Path, alder: str) -> None:
    home = tmp_path / "nowhere"
    assert once(home, "text", "engine-oil-spin-on", "--vehicle", alder).code == 0
    assert once(home, "tools", "engine-oil-spin-on", "--vehicle", alder).code == 0
    assert not home.exists()


def test_the_tools_are_listed_with_sizes_parts_fluids_and_waste(shell: Shell) -> None:
    answer = shell.run("tools", "engine-oil-spin-on", "--vehicle", "Alder", "--json").answer
    socket = next(one for one in answer["tools"] if one["tool"] == "plug_socket")
    assert socket["drive"]["value"]
    assert {one["slot"] for one in answer["parts"]} == {"oil_filter", "drain_washer"}
    assert [one["circuit"] for one in answer["fluids"]] == ["engine_oil"]
    assert answer["pan_l"] > answer["fluids"][0]["volume_l"]
    assert "engine oil" in {one["stream"] for one in answer["waste"]}
    said = shell.run("tools", "engine-oil-spin-on", "--vehicle", "Alder").said
    assert "torque wrench, reaching" in said


def test_an_unknown_procedure_is_refused(shell: Shell) -> None:
    for command in ("text", "tools"):
        done = shell.run(command, "engine-oil-spinon", "--vehicle", "Alder")
        assert (done.code, done.out) == (2, "")
