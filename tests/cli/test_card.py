"""`card`: the PDF of the next work, and the workday that freezes it."""

from __future__ import annotations

from pathlib import Path

from tests.cli.shell import Shell, kept_in


def test_the_card_is_written_as_pdf_and_nothing_is_kept(shell: Shell, tmp_path: Path) -> None:
    before = kept_in(shell.home)
    done = shell.run("card", "--vehicle", "Alder", "--pdf", str(tmp_path / "card.pdf"), "--json")
    assert (done.code, done.err) == (0, "")
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF-")
    assert done.answer["items"] == ["engine_oil_and_filter"]
    assert "workday" not in done.answer or done.answer["workday"] == ""
    assert kept_in(shell.home) == before


def test_a_bare_vehicle_gets_the_walk_round(shell: Shell, tmp_path: Path) -> None:
    done = shell.run("card", "--vehicle", "Bare", "--pdf", str(tmp_path / "walk.pdf"), "--json")
    assert (done.code, done.answer["title"]) == (0, "Walk-round")
    assert (tmp_path / "walk.pdf").stat().st_size > 10_000


def test_the_walk_round_can_be_asked_for_by_its_key(shell: Shell, tmp_path: Path) -> None:
    done = shell.run("card", "--vehicle", "Alder", "--item", "walk-round", "--pdf", str(tmp_path / "walk.pdf"), "--json")
    assert (done.code, done.answer["title"]) == (0, "Walk-round")


def test_a_sheet_in_a_file_gets_a_card_without_a_household(shell: Shell, tmp_path: Path, alder: str) -> None:
    done = shell.run("card", "--vehicle", alder, "--pdf", str(tmp_path / "card.pdf"), "--json")
    assert (done.code, done.answer["vehicle"]) == (0, "Alder")


def test_freezing_starts_the_workday_once_and_says_the_cards_id(writing: Shell, tmp_path: Path) -> None:
    first = writing.run("card", "--vehicle", "Alder", "--freeze", "--json")
    assert (first.code, first.answer["frozen_before"]) == (0, False)
    kept = kept_in(writing.home)
    again = writing.run("card", "--vehicle", "Alder", "--freeze", "--pdf", str(tmp_path / "card.pdf"), "--json")
    assert (again.answer["card"], again.answer["workday"]) == (first.answer["card"], first.answer["workday"])
    assert again.answer["frozen_before"] is True
    assert kept_in(writing.home) == kept
    assert first.answer["card"] in writing.run("card", "--vehicle", "Alder", "--freeze").said


def test_a_started_card_stays_as_it_was_when_the_stock_changes(writing: Shell, tmp_path: Path) -> None:
    first = writing.run("card", "--vehicle", "Alder", "--freeze", "--pdf", str(tmp_path / "one.pdf"), "--json")
    writing.run("level", "1/2", "--vehicle", "Alder", "--odometer", "141000 km")
    again = writing.run("card", "--vehicle", "Alder", "--pdf", str(tmp_path / "two.pdf"), "--json")
    assert again.answer["card"] == first.answer["card"]
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_a_card_that_cannot_be_written_starts_no_workday(writing: Shell, tmp_path: Path) -> None:
    before = kept_in(writing.home)
    done = writing.run("card", "--vehicle", "Alder", "--freeze", "--pdf", str(tmp_path / "no folder" / "card.pdf"))
    assert (done.code, done.out) == (2, "")
    assert kept_in(writing.home) == before


def test_asking_nothing_of_the_card_is_refused(shell: Shell) -> None:
    done = shell.run("card", "--vehicle", "Alder")
    assert (done.code, "--pdf FILE, --freeze" in done.err) == (2, True)


def test_freezing_a_sheet_in_a_file_is_refused(shell: Shell, alder: str) -> None:
    done = shell.run("card", "--vehicle", alder, "--freeze")
    assert (done.code, "--freeze" in done.err) == (2, True)


def test_an_item_without_procedure_is_refused_with_those_that_have_one(shell: Shell) -> None:
    done = shell.run("card", "--vehicle", "Alder", "--item", "brake_fluid", "--freeze")
    assert (done.code, "engine_oil_and_filter, walk-round" in done.err) == (2, True)
