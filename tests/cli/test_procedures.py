"""`procedures`: the list, and one procedure with the figures of a vehicle or with their names."""

from __future__ import annotations

from pathlib import Path

from tests.cli.shell import Shell, once
from twomarks.procedures.library import library_keys


def test_the_library_is_listed_without_a_household_and_none_is_made(tmp_path: Path) -> None:
    done = once(tmp_path / "nowhere", "procedures", "--json")
    assert (done.code, done.err) == (0, "")
    assert [one["key"] for one in done.answer["procedures"]] == list(library_keys())
    assert all(one["library"] for one in done.answer["procedures"])
    assert not (tmp_path / "nowhere").exists()


def test_bound_to_a_vehicle_the_steps_carry_its_figures(shell: Shell) -> None:
    steps = shell.run("procedures", "engine-oil-spin-on", "--vehicle", "Alder", "--json").answer["steps"]
    assert [step["number"] for step in steps] == list(range(1, len(steps) + 1))
    assert any("hex socket 17 mm" in step["words"]["text"] for step in steps)


def test_unbound_the_names_of_the_figures_stand_in_their_place(shell: Shell) -> None:
    text = shell.run("procedures", "engine-oil-spin-on").said
    assert "{" not in text
    assert "(sump plug: drive)" in text
    assert "?)" not in text


def test_the_cautions_stand_with_their_signal_word_before_the_step(shell: Shell) -> None:
    out = shell.run("procedures", "engine-oil-spin-on").out
    assert out.index("! WARNING: Exhaust gas") < out.index("5. Let the engine idle")


def test_the_households_own_procedure_is_listed_as_its_own(writing: Shell, tmp_path: Path) -> None:
    from twomarks.procedures.library import procedure_text

    text = procedure_text("walk-round").replace('key = "walk-round"', 'key = "my-round"', 1)
    lines = [line for line in text.splitlines() if not line.startswith('id = "') or "[[steps]]" in text[: text.index(line)]]
    (tmp_path / "mine.toml").write_text("\n".join(lines), "utf-8")
    assert writing.run("import", "document", str(tmp_path / "mine.toml")).code == 0
    listed = {one["key"]: one["library"] for one in writing.run("procedures", "--json").answer["procedures"]}
    assert listed == {"my-round": False, **dict.fromkeys(library_keys(), True)}
    assert "The household's own." in writing.run("procedures").said


def test_an_unknown_key_is_refused_with_those_there_are(shell: Shell) -> None:
    done = shell.run("procedures", "walkround")
    assert (done.code, 'did you mean "walk-round"?' in done.err) == (2, True)
